// What stands while a pit burns is told again where the message that told it died: while the gateway was down, while the
// service was, in quiet hours, under a silence.

import { expect, it } from 'vitest';
import { startBurning, TURNED } from './start-burning.ts';
import { CREW, OFFICE, type WatchedDemo } from './watched-demo.ts';

const DOWN = Array<{ status: number }>(5000).fill({ status: 403 });

/** So many minutes with a reading in each fifth, looked at in each. */
async function go(demo: WatchedDemo, minutes: number, reading: Parameters<WatchedDemo['reads']>[0]) {
  for (let i = 0; i < minutes; i += 1) {
    demo.pass(1);
    // A vane that never moves at all would be doubted.
    if (i % 5 === 4)
      await demo.reads({ ...reading, fromDeg: (reading?.fromDeg ?? 210) + (i % 10 === 4 ? 1 : -2) });
    await demo.minute();
  }
}

it('a stop arrives when the gateway is mended, though that took longer than a message is good for', async () => {
  const demo = await startBurning();
  demo.gateway.bad.push(...DOWN);
  await demo.reads(TURNED);
  await demo.minute();
  await go(demo, 70, TURNED);
  expect(demo.heardBy(CREW)).toEqual([]);
  demo.gateway.bad.length = 0;
  await go(demo, 15, TURNED);
  expect(demo.heardBy(CREW)[0]).toMatch(/PUT IT OUT\. Still: /);
  expect(await demo.inbound(CREW, '1')).toBe('answer');
  demo.heardBy(OFFICE);
  await go(demo, 90, TURNED);
  expect([demo.heardBy(CREW), demo.heardBy(OFFICE)]).toEqual([[], []]);
});

it('a stop that waited while the service was down for two hours is told when it is up again', async () => {
  const demo = await startBurning();
  await demo.reads(TURNED);
  demo.pass(120);
  await demo.reads(TURNED);
  await demo.minute();
  expect(demo.heardBy(CREW)).toEqual([expect.stringContaining('PUT IT OUT')]);
});

it('a stop that the office has silenced for two hours is told when the silence is over', async () => {
  const demo = await startBurning();
  await demo.reads(TURNED);
  await demo.tells();
  const asked = { site: 'north-block', minutes: 120, reason: 'on the telephone with them' };
  const { status } = await demo.api('POST', '/v1/silences', asked);
  expect(status).toBe(201);
  demo.heardBy(CREW);
  await go(demo, 118, TURNED);
  expect(demo.heardBy(CREW)).toEqual([]);
  await go(demo, 3, TURNED);
  expect(demo.heardBy(CREW)).toEqual([expect.stringContaining('PUT IT OUT. Still: ')]);
});

it('a hold in quiet hours is told to the crew when they are over', async () => {
  const quiet = (yaml: string) =>
    yaml.replace(/(\{ id: (?:ana|ben),)/g, '$1 quiet: { from: "09:00", to: "12:10" },');
  const demo = await startBurning(quiet);
  // Nothing is heard of the mast any more: a hold.
  const until = Date.parse('2026-04-14T19:09:00Z');
  while (demo.clock.nowMs < until) {
    await demo.minute();
    demo.pass(1);
  }
  expect(demo.heardBy(CREW)).toEqual([]);
  demo.pass(1);
  await demo.minute();
  expect(demo.heardBy(CREW)).toContainEqual(expect.stringMatching(/NO WOOD\. Still: no reading/));
});
