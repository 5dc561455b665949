// What a silence keeps back from the office, and what it is not kept back: the day texts name it.

import { expect, it } from 'vitest';
import { startBurning, startForTest, TURNED } from './start-burning.ts';
import { CREW, OFFICE } from './watched-demo.ts';

it("a silence keeps back the office's 'nobody answers' that waits already, until it is over", async () => {
  const demo = await startBurning();
  await demo.reads(TURNED);
  await demo.minute();
  const { watching } = demo.service;
  const waits = async () =>
    (await demo.store.watch.openThreads(100)).some(
      ({ message }) => message.kind === 'office' && message.matter.what === 'not-answered',
    );
  demo.gateway.bad.push(...Array<{ status: number }>(5000).fill({ status: 503 }));
  for (let i = 0; i < 60 && !(await waits()); i += 1) {
    demo.pass(1);
    await watching.escalate();
    await watching.send();
  }
  expect(demo.heardBy(OFFICE)).toEqual([]);
  const asked = { site: 'north-block', minutes: 9, reason: 'on the radio' };
  expect([await waits(), (await demo.api('POST', '/v1/silences', asked)).status]).toEqual([true, 201]);
  demo.gateway.bad.length = 0;
  for (let i = 0; i < 8; i += 1) {
    await demo.tells();
    demo.pass(1);
  }
  expect(demo.heardBy(OFFICE)).toEqual([]);
  demo.pass(1);
  await demo.tells();
  expect(demo.heardBy(OFFICE).filter((text) => text.includes('Nobody answers a warning'))).toHaveLength(1);
});

it('a silence in force when the evening text goes out is named in it, with its end on the clock of the site', async () => {
  const demo = await startForTest('2026-04-14T00:05:00Z');
  const { nowMs } = demo.clock;
  const silence = {
    id: 's-1',
    site: 'own/north-block',
    code: null,
    fromMs: nowMs,
    untilMs: nowMs + 7_200_000,
  };
  const made = { reason: 'on the radio', by: 'Ana', role: 'office', endedAtMs: null, endedBy: null } as const;
  await demo.store.watch.commit([
    { site: 'own/north-block', replaces: null, silences: [{ ...silence, ...made }] },
  ]);
  await demo.minute();
  expect(demo.heardBy(CREW)).toContainEqual(expect.stringMatching(/(silenced until|No texts to) 7:05 pm/));
  const page = async (site: string) => (await demo.service.app.inject({ url: `/sites/${site}` })).body;
  expect(await page('north-block')).toMatch(/No texts go out until.*7:05 pm.*silenced by Ana: on the radio/);
  demo.pass(120);
  expect(await page('north-block')).not.toContain('silenced by');
});
