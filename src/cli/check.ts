// pitward check: may we light now? 0 only for go, so that silence can never be read as go.

import { standingIn } from '#core/plan/light-up-by.ts';
import type { Plan } from '#core/plan/plan.ts';
import type { Verdict } from '#core/rules/finding.ts';
import { type Window, windowAt } from '#core/windows/find-windows.ts';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import { theDay } from '#publish/api/site-answers.ts';
import type { Arguments } from './arguments.ts';
import { planText, windowsText } from './print.ts';
import { dayOf, holdForecast, planOf, readerOf, readSettings, zoneOf } from './settings.ts';
import { EXIT, type Terminal } from './terminal.ts';

export async function check(args: Arguments, terminal: Terminal): Promise<number> {
  const settings = await readSettings(args, terminal);
  const held = await holdForecast(args, settings, terminal);
  const timeZone = zoneOf(settings, held);
  const colour = terminal.colour && !args.options['no-color'];
  if (args.options.day !== undefined) {
    const date = dayOf(args, settings, timeZone);
    const made = planOf(settings, held, date, 1);
    const day = theDay(made);
    const answer = dayPlanAnswer(made, day, readerOf(args, settings.config, timeZone, date, settings.demo));
    terminal.out(args.options.json ? JSON.stringify(answer, null, 2) : planText(answer, { colour }));
    return exitOf(day.verdict, day.cannotSay);
  }
  const today = dayOf(args, settings, timeZone);
  const made = planOf(settings, held, today, 1);
  const window = windowAt(made.windows, settings.nowMs);
  if (window === null) return EXIT.cannotSay;
  const wanted = readerOf(args, settings.config, timeZone, today, settings.demo);
  const answer = windowsAnswer(made, window, wanted);
  const tooLate = isTooLate(made, window, settings.nowMs);
  terminal.out(args.options.json ? JSON.stringify(answer, null, 2) : windowsText(answer, { colour }, today));
  const barring = window.findings.filter(
    (f) => f.verdict !== 'go' && f.fromMs <= settings.nowMs && settings.nowMs < f.toMs,
  );
  if (tooLate) return EXIT.hold;
  return exitOf(window.verdict, window.verdict === 'hold' && barring.every((f) => f.unknown));
}

/** Go to charge is no go to light. */
const isTooLate = ({ site }: Plan, window: Window, nowMs: number): boolean =>
  window.verdict === 'go' && standingIn(window, site.burn, nowMs) !== 'light';

function exitOf(verdict: Verdict, cannotSay: boolean): number {
  if (cannotSay) return EXIT.cannotSay;
  return { go: EXIT.done, hold: EXIT.hold, stop: EXIT.stop }[verdict];
}
