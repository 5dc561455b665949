// A pit lit where its plan was not against it and there was no leave to all the same: the watch said hold or stop, or there
// was no plan at all. Recorded, never refused.

import { SEVERITY } from '#core/rules/finding.ts';
import { DAY_MS, MINUTE_MS } from '#core/units/time.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import type { Burn } from './burn.ts';
import { briefedVerdict, dayIn } from './burn-plan.ts';
import type { Condition } from './condition.ts';
import { makeCondition } from './make-condition.ts';
import type { WatchContext } from './watch-context.ts';

const CODE = 'lit-without-go';
/** A look so long after a light-up sees another moment than that. Ours: no source. */
const SAME_MOMENT_MS = 5 * MINUTE_MS;

/**
 * Judged at the first look after the light-up and kept from then on: what comes later is told by itself. `beside` is what else
 * is judged at that look; `isAgainstPlan` where that is told already.
 */
export function litWithoutGo(
  context: WatchContext,
  burn: Burn,
  beside: readonly Condition[],
  isAgainstPlan: boolean,
): Condition {
  const { before, nowMs, plan } = context;
  const litMs = burn.litAtMs ?? burn.openedAtMs;
  const was = before.find((c) => c.code === CODE && c.asOfMs === litMs);
  const what = was ? was.figures.what : whatSpoke(context, litMs, isAgainstPlan ? null : beside);
  return makeCondition(CODE, {
    truth: what === null ? 'false' : 'true',
    verdict: (plan && windowAt(plan.windows, nowMs)?.verdict) ?? 'hold',
    basis: 'record',
    asOfMs: litMs,
    validUntilMs: litMs + DAY_MS,
    figures: { what, atMs: litMs },
  });
}

/** `hold` or `stop` of the watch, or `noPlan`. */
function whatSpoke(
  { date, litBy, nowMs, plan }: WatchContext,
  litMs: number,
  beside: readonly Condition[] | null,
): string | null {
  if (beside === null) return null;
  const said = beside.filter(({ truth, verdict }) => truth === 'true' && verdict !== 'go');
  const [worst] = said.toSorted((a, b) => SEVERITY[b.verdict] - SEVERITY[a.verdict]);
  if (worst !== undefined && nowMs - litMs <= SAME_MOMENT_MS) return worst.verdict;
  return plan === null && briefedVerdict(dayIn(litBy, date), litMs) === null ? 'noPlan' : null;
}
