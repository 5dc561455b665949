// Plan → the windows answer.

import { lightUpByMs, standingIn } from '#core/plan/light-up-by.ts';
import type { Plan } from '#core/plan/plan.ts';
import { tightestIn } from '#core/plan/tightest-in.ts';
import { narrowed } from '#core/rules/limit-figures.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import type { Span } from '#core/units/time.ts';
import { cutWindows, type Window, windowAt } from '#core/windows/find-windows.ts';
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
      ...lightingIn(plan, w),
      reasons: w.findings.map((f) => reasonOf(narrowed(plan, f, w), reader)),
      tightest: tightestOf(plan, tightestIn(plan, [w]), reader),
    })),
  };
}

/** Whether and until when a go may be lit; it may begin or end outside of the span that was asked for. */
function lightingIn(
  { site, nowMs, windows }: Plan,
  cut: Window,
): Pick<WindowsAnswer['windows'][number], 'standing' | 'lightUpBy'> {
  if (cut.verdict !== 'go') return { standing: 'none', lightUpBy: null };
  const whole = windowAt(windows, cut.fromMs) ?? cut;
  return {
    standing: standingIn(whole, site.burn, nowMs),
    lightUpBy: rfc3339(lightUpByMs(whole, site.burn), site.timeZone),
  };
}
