// What failed for good by every way is not given up: it is shown to the office, told to the next, and sent once more when the
// channel works again, as long as it matters.

import { describe, expect, it } from 'vitest';
import { wordsOf } from '../../publish/page/read-page.ts';
import { startBurning, TURNED } from './start-burning.ts';
import { CREW, LEAD, OFFICE, type WatchedDemo } from './watched-demo.ts';

const REFUSED = { status: 403 } as const;
const DESK = '+15550100004';
const desk = (yaml: string) =>
  `${yaml}\n  - { id: desk, name: Desk, role: dispatch, sites: [north-block], ways: [{ channel: text, to: "${DESK}" }] }\n`;

const home = async (demo: WatchedDemo) =>
  wordsOf((await demo.service.app.inject({ method: 'GET', url: '/' })).body);

/** A stop of which nothing is taken; nobody is asked by anything else meanwhile. */
async function refuses(demo: WatchedDemo): Promise<void> {
  demo.gateway.bad.push(...Array<typeof REFUSED>(60).fill(REFUSED));
  await demo.reads(TURNED);
  for (let i = 0; i < 4; i += 1) await demo.service.watching.send();
}

const passes = async (demo: WatchedDemo, minutes: number): Promise<void> => {
  for (let i = 0; i < minutes; i += 1) {
    demo.pass(1);
    await demo.minute();
  }
};

describe('a text that nobody takes', () => {
  it('stands on the page of the office as not delivered until somebody has it', async () => {
    const demo = await startBurning();
    expect(await home(demo)).not.toContain('A text was not delivered');
    await refuses(demo);
    expect(await home(demo)).toMatch(/A text was not delivered\. .*Ana/);
    demo.gateway.bad.length = 0;
    await passes(demo, 6);
    await demo.inbound(CREW, '1');
    await passes(demo, 31);
    expect(await home(demo)).not.toContain('A text was not delivered');
  });

  it('to the office is sent once more when the channel works again, while it still matters', async () => {
    const demo = await startBurning();
    await refuses(demo);
    expect(demo.heardBy(OFFICE)).toEqual([]);
    demo.gateway.bad.length = 0;
    await passes(demo, 6);
    expect(demo.heardBy(OFFICE).filter((text) => text.includes('A warning did not reach'))).not.toEqual([]);
    // Once is enough.
    await passes(demo, 12);
    expect(demo.heardBy(OFFICE).filter((text) => text.includes('A warning did not reach Ana'))).toEqual([]);
  });

  it('to the office and answered by the crew meanwhile is not sent late', async () => {
    const demo = await startBurning();
    demo.gateway.refuses = (to) => to === OFFICE || to === CREW;
    await demo.reads(TURNED);
    for (let i = 0; i < 4; i += 1) await demo.service.watching.send();
    expect(demo.heardBy(LEAD)).toEqual([expect.stringContaining('PUT IT OUT')]);
    demo.pass(1);
    expect(await demo.inbound(LEAD, '1')).toBe('answer');
    demo.gateway.refuses = null;
    await passes(demo, 8);
    expect(demo.heardBy(OFFICE).filter((text) => text.includes('did not reach'))).toEqual([]);
  });

  it('to anybody of the office is told to the dispatch at once', async () => {
    const demo = await startBurning(desk);
    demo.gateway.refuses = (to) => to !== DESK;
    await demo.reads(TURNED);
    for (let i = 0; i < 5; i += 1) await demo.service.watching.send();
    expect(demo.heardBy(DESK)).toContainEqual(expect.stringContaining('A warning did not reach Ana'));
  });
});
