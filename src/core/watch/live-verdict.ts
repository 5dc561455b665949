// The verdict of a site at this moment: the worse of plan and watch, never better than the plan.

import { standingIn } from '#core/plan/light-up-by.ts';
import type { Plan } from '#core/plan/plan.ts';
import { type Finding, SEVERITY, type Verdict, worseOf } from '#core/rules/finding.ts';
import { type Window, windowAt } from '#core/windows/find-windows.ts';
import type { Burn } from './burn.ts';
import { isOpen } from './burn-plan.ts';
import type { Condition, ConditionCode } from './condition.ts';

export interface LiveVerdict {
  readonly verdict: Verdict;
  /** What the plan alone says; hold where there is none, or none of this moment, or it is too late to light and nothing burns. */
  readonly planVerdict: Verdict;
  /** Where it is too late to light and nothing burns: the end of the go in which charging would go on [epoch ms]. */
  readonly tooLateUntilMs: number | null;
  /** The plan's findings of this moment that are no go, gravest first. */
  readonly findings: readonly Finding[];
  /** What is true or unknown and counts, gravest first; true before unknown. */
  readonly conditions: readonly Condition[];
  /** True where it is a hold only because nobody can say. */
  readonly cannotSay: boolean;
}

/** True of these says only that nobody can say. */
const BLIND: ReadonlySet<ConditionCode> = new Set<ConditionCode>([
  'station-silent',
  'station-doubted',
  'reading-missing',
  'wind-unmeasured',
]);

/**
 * Unknown counts while a fire burns; before it a stop that was raised and is not known to be over, and thunder wherever
 * anybody tells of it: a station that falls silent gives no leave to light.
 */
const countsUnlit = ({ code, verdict }: Condition): boolean =>
  verdict === 'stop' || (code === 'thunder-near' && verdict !== 'go');

const counts = (c: Condition, burning: boolean): boolean =>
  c.truth === 'true' || (c.truth === 'unknown' && (burning || countsUnlit(c)));

const isKnown = ({ truth, code }: Condition): boolean => truth === 'true' && !BLIND.has(code);

/** What conditions alone say of a pit where nothing burns: without a plan, which is told apart. */
export function verdictUnlit(conditions: readonly Condition[]): Pick<LiveVerdict, 'verdict' | 'cannotSay'> {
  const counting = conditions.filter((c) => counts(c, false));
  const worst = (some: readonly Condition[]): Verdict =>
    some.reduce<Verdict>((sofar, c) => worseOf(sofar, c.verdict), 'go');
  const verdict = worst(counting);
  return { verdict, cannotSay: verdict === 'hold' && worst(counting.filter(isKnown)) === 'go' };
}

export function liveVerdict(
  plan: Plan | null,
  burn: Burn | null,
  conditions: readonly Condition[],
  nowMs: number,
): LiveVerdict {
  const window = plan && windowAt(plan.windows, nowMs);
  const tooLateUntilMs = plan && window && !isOpen(burn) ? lateUntilMs(plan, window, nowMs) : null;
  const planVerdict = tooLateUntilMs === null ? (window?.verdict ?? 'hold') : 'hold';
  const findings = (window?.findings ?? []).filter(
    (f) => f.verdict !== 'go' && f.fromMs <= nowMs && nowMs < f.toMs,
  );
  const counting = conditions
    .filter((c) => counts(c, isOpen(burn)))
    .sort(
      (a, b) =>
        SEVERITY[b.verdict] - SEVERITY[a.verdict] ||
        Number(b.code === 'authority-stop') - Number(a.code === 'authority-stop') ||
        Number(a.truth !== 'true') - Number(b.truth !== 'true'),
    );
  const known = counting.filter(isKnown).map((c) => c.verdict);
  const knownVerdict = [
    window === null || (tooLateUntilMs === null && findings.every((f) => f.unknown)) ? 'go' : planVerdict,
    ...known,
  ].reduce(worseOf);
  const verdict = [planVerdict, ...counting.map((c) => c.verdict)].reduce(worseOf);
  return {
    verdict,
    planVerdict,
    tooLateUntilMs,
    findings,
    conditions: counting,
    cannotSay: verdict === 'hold' && knownVerdict === 'go',
  };
}

/** Go to charge is no go to light. */
function lateUntilMs({ site }: Plan, window: Window, nowMs: number): number | null {
  const isLate = window.verdict === 'go' && standingIn(window, site.burn, nowMs) !== 'light';
  return isLate ? window.toMs : null;
}
