// Somebody looks again at a covered pit, some days after: a buried fire can come up.

import { addDays, clockTimeMs, localDateAt, startOfDayMs } from '#core/units/local-time.ts';
import type { Burn } from './burn.ts';
import type { Condition } from './condition.ts';
import { makeCondition } from './make-condition.ts';
import type { WatchContext } from './watch-context.ts';

/** `look-again` by the number of days after the cover: true from a clock time of that date to its end. */
export function lookAgain({ nowMs, settings, site }: WatchContext, burn: Burn): Condition[] {
  const { closedAtMs } = burn;
  if (closedAtMs === null) return [];
  const { timeZone } = site;
  const coveredOn = localDateAt(closedAtMs, timeZone);
  return settings.burn.lookAgainDays.map((days) => {
    const date = addDays(coveredOn, days);
    const atMs = clockTimeMs(date, settings.burn.lookAgainAt, timeZone);
    const endMs = startOfDayMs(addDays(date, 1), timeZone);
    return makeCondition('look-again', {
      subject: String(days),
      truth: nowMs >= atMs && nowMs < endMs ? 'true' : 'false',
      verdict: 'go',
      basis: 'record',
      asOfMs: closedAtMs,
      validUntilMs: endMs,
      figures: { atMs, wasMs: closedAtMs },
    });
  });
}
