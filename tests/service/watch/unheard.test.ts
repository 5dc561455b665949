// A warning before the fire that reaches nobody: it asks for no answer, so that nothing but its failing says so.

import { describe, expect, it } from 'vitest';
import { startForTest } from './start-burning.ts';
import { CREW, LEAD, OFFICE, SITE, type WatchedDemo } from './watched-demo.ts';

/** 17:05 at the site, when the evening text is due. */
const EVENING = '2026-04-14T00:05:00Z';
/** No ventilation is enough. */
const NEVER = [
  { element: 'ventilationRate', atLeast: { hold: '900000 kt-ft', stop: '800000 kt-ft' }, source: 'county' },
];
const REFUSED = { status: 403 } as const;

async function startEvening(): Promise<WatchedDemo> {
  const demo = await startForTest(EVENING);
  await demo.minute();
  demo.pass(5);
  await demo.minute();
  for (const number of [CREW, LEAD, OFFICE]) demo.heardBy(number);
  return demo;
}

/** The plan becomes worse, and nothing of it is taken. */
async function worsens(demo: WatchedDemo, refused: number): Promise<void> {
  demo.gateway.bad.push(...Array<typeof REFUSED>(refused).fill(REFUSED));
  await demo.limits(NEVER);
  demo.pass(60);
  for (let i = 0; i < 3; i += 1) await demo.minute();
}

describe('a warning before the fire', () => {
  it('that no way of anybody takes is told to the office, of each once', async () => {
    const demo = await startEvening();
    await worsens(demo, 2);
    demo.pass(5);
    await demo.minute();
    expect(demo.heardBy(OFFICE).toSorted()).toEqual([
      expect.stringContaining('A warning did not reach Ana'),
      expect.stringContaining('A warning did not reach Ben'),
    ]);
    const { body } = await demo.api('GET', `${SITE}/messages`);
    const [warning] = (
      body['messages'] as { kind: string; needsAnswer: boolean; deliveries: { outcome: string }[] }[]
    ).filter(({ kind }) => kind === 'notice');
    expect([warning?.needsAnswer, warning?.deliveries.map(({ outcome }) => outcome)]).toEqual([
      false,
      // The channel works again, and it still stands: each is told after all.
      ['failed', 'failed', 'sent', 'sent'],
    ]);
  });

  it('that finds all of the crew opted out or out of reach is told to the office, and one who has it is enough', async () => {
    const demo = await startEvening();
    expect(await demo.inbound(CREW, 'STOP')).toBe('opt-out');
    await demo.tells();
    demo.heardBy(OFFICE);
    await worsens(demo, 0);
    expect(demo.heardBy(LEAD)).toEqual([expect.stringContaining('NO FIRE')]);
    expect(demo.heardBy(OFFICE)).toEqual([]);
    expect(await demo.inbound(LEAD, 'STOP')).toBe('opt-out');
    await demo.tells();
    demo.heardBy(OFFICE);
    // The dawn text has nobody to go to.
    demo.clock.nowMs = Date.parse('2026-04-14T11:46:00Z');
    await demo.minute();
    await demo.minute();
    expect(demo.heardBy(OFFICE).toSorted()).toEqual([
      expect.stringContaining('A warning did not reach Ana'),
      expect.stringContaining('A warning did not reach Ben'),
    ]);
  });
});
