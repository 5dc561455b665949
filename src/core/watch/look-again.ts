// Somebody looks again at a covered pit, some days after: a buried fire can come up, whatever was lit there since.

import { addDays, clockTimeMs, localDateAt, startOfDayMs } from '#core/units/local-time.ts';
import type { Burn } from './burn.ts';
import type { Condition } from './condition.ts';
import { makeCondition } from './make-condition.ts';
import type { WatchContext } from './watch-context.ts';

/**
 * `look-again` by the number of days after the cover: true from a clock time of that date to its end, of whichever burn has
 * come to it; of several the one covered last, and that it is several.
 */
export function lookAgain(context: WatchContext): Condition[] {
  const byCover = context.covered.filter(wasCovered).sort((a, b) => a.closedAtMs - b.closedAtMs);
  if (byCover.length === 0) return [];
  return context.settings.burn.lookAgainDays.flatMap((days) => {
    const all = byCover.map((burn) => lookAt(context, burn, days));
    const due = all.filter(({ truth }) => truth === 'true');
    const [last] = [...due, ...(due.length > 0 ? [] : all)].slice(-1);
    if (last === undefined) return [];
    return due.length > 1 ? { ...last, figures: { ...last.figures, what: 'several' } } : last;
  });
}

/** One of which no tap counts any more has ended without a cover. */
const wasCovered = (burn: Burn): burn is Burn & { readonly closedAtMs: number } =>
  burn.closedAtMs !== null && burn.state === 'covered';

function lookAt(
  { nowMs, settings, site: { timeZone } }: WatchContext,
  { closedAtMs }: { readonly closedAtMs: number },
  days: number,
): Condition {
  const date = addDays(localDateAt(closedAtMs, timeZone), days);
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
}
