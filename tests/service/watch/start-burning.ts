// A pit that burns at the north block: lit in its go, told what lies ahead, and nothing else yet.

import { onTestFinished } from 'vitest';
import { CREW, LEAD, OFFICE, startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

/** 10:00 at the north block, in its go. */
export const TEN = '2026-04-14T17:00:00Z';
/** Smoke of this wind goes onto the road: a stop. */
export const TURNED = { fromDeg: 290 };

/** Closed when the test is over. */
export async function startForTest(...given: Parameters<typeof startWatchedDemo>): Promise<WatchedDemo> {
  const demo = await startWatchedDemo(...given);
  onTestFinished(demo.close);
  return demo;
}

export async function startBurning(
  change?: (yaml: string) => string,
  others?: Parameters<typeof startWatchedDemo>[2],
): Promise<WatchedDemo> {
  const demo = await startForTest(TEN, change, others);
  await demo.reads();
  await demo.lights();
  await demo.minute();
  demo.pass(5);
  for (const number of [CREW, LEAD, OFFICE]) demo.heardBy(number);
  return demo;
}
