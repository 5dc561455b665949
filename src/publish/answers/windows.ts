// Plan → the windows answer.

import type { Plan } from '#core/plan/plan.ts';
import { tightestIn } from '#core/plan/tightest-in.ts';
import { narrowed } from '#core/rules/limit-figures.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import type { Span } from '#core/units/time.ts';
import { cutWindows } from '#core/windows/find-windows.ts';
import type { WindowsAnswer } from '#publish/wire.ts';
import { headOf, type Wanted } from './head.ts';
import { reasonOf, tightestOf } from './reasons.ts';

/** Windows that tile `span`, each with its reasons, gravest first. */
export function windowsAnswer(plan: Plan, span: Span, wanted: Wanted): WindowsAnswer {
  const { reader } = wanted;
  const at = (ms: number) => rfc3339(ms, plan.site.timeZone);
  return {
    ...headOf(plan, wanted),
    from: at(span.fromMs),
    to: at(span.toMs),
    windows: cutWindows(plan.windows, span).map((w) => ({
      verdict: w.verdict,
      from: at(w.fromMs),
      to: at(w.toMs),
      reasons: w.findings.map((f) => reasonOf(narrowed(plan, f, w), reader)),
      tightest: tightestOf(plan, tightestIn(plan, [w]), reader),
    })),
  };
}
