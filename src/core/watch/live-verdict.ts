// The verdict of a site at this moment: the worse of plan and watch, never better than the plan.

import type { Plan } from '#core/plan/plan.ts';
import { type Finding, SEVERITY, type Verdict, worseOf } from '#core/rules/finding.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import type { Burn } from './burn.ts';
import { isOpen } from './burn-plan.ts';
import type { Condition } from './condition.ts';

export interface LiveVerdict {
  readonly verdict: Verdict;
  /** What the plan alone says; hold where there is none, or none of this moment. */
  readonly planVerdict: Verdict;
  /** The plan's findings of this moment that are no go, gravest first. */
  readonly findings: readonly Finding[];
  /** What is true or unknown and counts, gravest first; true before unknown. */
  readonly conditions: readonly Condition[];
  /** True where it is a hold only because nobody can say. */
  readonly cannotSay: boolean;
}

/** What is unknown counts while a fire burns. */
export function liveVerdict(
  plan: Plan | null,
  burn: Burn | null,
  conditions: readonly Condition[],
  nowMs: number,
): LiveVerdict {
  const window = plan && windowAt(plan.windows, nowMs);
  const planVerdict = window?.verdict ?? 'hold';
  const findings = (window?.findings ?? []).filter(
    (f) => f.verdict !== 'go' && f.fromMs <= nowMs && nowMs < f.toMs,
  );
  const counting = conditions
    .filter((c) => c.truth === 'true' || (c.truth === 'unknown' && isOpen(burn)))
    .sort(
      (a, b) =>
        SEVERITY[b.verdict] - SEVERITY[a.verdict] || Number(a.truth !== 'true') - Number(b.truth !== 'true'),
    );
  const known = counting.filter((c) => c.truth === 'true').map((c) => c.verdict);
  const knownVerdict = [
    window === null || findings.every((f) => f.unknown) ? 'go' : planVerdict,
    ...known,
  ].reduce(worseOf);
  const verdict = [planVerdict, ...counting.map((c) => c.verdict)].reduce(worseOf);
  return {
    verdict,
    planVerdict,
    findings,
    conditions: counting,
    cannotSay: verdict === 'hold' && knownVerdict === 'go',
  };
}
