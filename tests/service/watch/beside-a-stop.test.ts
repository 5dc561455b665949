// What is told while a stop stands: never an order that is less.

import { expect, it } from 'vitest';
import { startBurning, TURNED } from './start-burning.ts';
import { CREW, type WatchedDemo } from './watched-demo.ts';

async function minutes(demo: WatchedDemo, count: number): Promise<void> {
  for (let i = 0; i < count; i += 1) {
    demo.pass(1);
    await demo.minute();
  }
}

it('a mast that falls silent after a stop is told with the order of the stop', async () => {
  const demo = await startBurning();
  await demo.reads(TURNED);
  await demo.minute();
  demo.pass(1);
  expect(await demo.inbound(CREW, '1')).toBe('answer');
  demo.heardBy(CREW);
  await minutes(demo, 40);
  const texts = demo.heardBy(CREW);
  expect(texts).toContainEqual(expect.stringMatching(/PUT IT OUT\. No reading from mast/));
  for (const text of texts) expect(text).not.toContain('NO WOOD');
});

it('a hold that was told before a stop is repeated with the order of the stop', async () => {
  const demo = await startBurning();
  for (let i = 0; i < 8; i += 1) {
    demo.pass(1);
    await demo.reads({ fromDeg: 150 });
    await demo.minute();
  }
  expect(demo.heardBy(CREW)).toEqual([expect.stringContaining('NO WOOD. Observed wind southeast')]);
  demo.pass(1);
  await demo.reads({ fromDeg: 150, gustMph: 40 });
  await demo.minute();
  // Five minutes after the hold was told nobody has answered it.
  expect(demo.heardBy(CREW)).toEqual([
    expect.stringContaining('PUT IT OUT. Observed gust'),
    expect.stringContaining('Again: PUT IT OUT. Observed wind southeast'),
  ]);
});
