// A pit lit while the watch alone says stop: the plan has a go, the wind at the pit has not.

import { expect, it } from 'vitest';
import { startForTest, TEN, TURNED } from './start-burning.ts';
import { OFFICE } from './watched-demo.ts';

it('a pit lit while the watch alone says stop is told to the office at once, and once', async () => {
  const demo = await startForTest(TEN);
  await demo.reads(TURNED);
  await demo.minute();
  demo.heardBy(OFFICE);
  await demo.lights();
  await demo.tells();
  const told = demo.heardBy(OFFICE);
  expect(told).toEqual([expect.stringMatching(/Pit lit (at )?10:00 am, watch said NO FIRE/)]);
  demo.pass(5);
  await demo.reads(TURNED);
  await demo.minute();
  expect(demo.heardBy(OFFICE).filter((text) => text.includes('Pit lit'))).toEqual([]);
});

it('one lit in the go of both is not', async () => {
  const demo = await startForTest(TEN);
  await demo.reads();
  await demo.lights();
  await demo.minute();
  expect(demo.heardBy(OFFICE)).toEqual([]);
});
