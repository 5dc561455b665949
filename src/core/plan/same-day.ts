// Whether two summaries of a day tell people the same.

import { DAY_TIMES, type DaySummary } from './plan-summary.ts';

/** The verdict and the times; nothing of why. */
export const sameDay = (a: DaySummary, b: DaySummary): boolean =>
  a.date === b.date &&
  a.verdict === b.verdict &&
  a.cannotSay === b.cannotSay &&
  DAY_TIMES.every((time) => (a.times?.[time] ?? null) === (b.times?.[time] ?? null));
