// Plan of a day → the plan answer: verdict, the three times, their causes, and what would change it.

import type { DayPlan, Move, Plan } from '#core/plan/plan.ts';
import type { Finding } from '#core/rules/finding.ts';
import { limitFigures, narrowed } from '#core/rules/limit-figures.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import type { Span } from '#core/units/time.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import type { PlanAnswer } from '#publish/wire.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { dateText, differenceIn, momentText, unitFor, valueIn } from '#publish/wording/show.ts';
import { lowerFirst } from '#publish/wording/text-case.ts';
import type { Reader } from '#publish/wording/words.ts';
import { headOf, type Wanted } from './head.ts';
import { reasonOf, tightestOf } from './reasons.ts';

export function dayPlanAnswer(plan: Plan, day: DayPlan, wanted: Wanted): PlanAnswer {
  const { reader } = wanted;
  const { burn } = plan.site;
  const words = wordsFor(reader.language);
  const at = (ms: number | undefined) => (ms === undefined ? null : rfc3339(ms, plan.site.timeZone));
  const reasons = (findings: readonly Finding[], within: Span = day.frame) =>
    findings.map((f) => reasonOf(narrowed(plan, f, within), reader));
  const { times, wouldChange } = day;
  const { next } = wouldChange;
  return {
    ...headOf(plan, wanted),
    day: day.day.date,
    verdict: day.verdict,
    standing: day.standing,
    cannotSay: day.cannotSay,
    warmUp: at(times?.warmUpMs),
    lightUp: at(times?.lightUpMs),
    lightUpBy: at(times?.lightUpByMs),
    firstCharge: at(times?.firstChargeMs),
    lastCharge: at(times?.lastChargeMs),
    burnedDown: at(times?.burnedDownMs),
    coveredBy: at(times?.coveredByMs),
    pauses: (times?.pauses ?? []).map((p) => ({
      from: rfc3339(p.fromMs, plan.site.timeZone),
      to: rfc3339(p.toMs, plan.site.timeZone),
      reasons: reasons(
        p.findings.filter((f) => f.verdict !== 'go'),
        p,
      ),
    })),
    causes: {
      warmUp: times ? words.warmUp(burn.warmUpMin) : null,
      lightUp: (times?.lightUpCauses ?? []).map((f) => reasonOf(f, reader)),
      lastCharge: (times?.lastChargeCauses ?? []).map((f) => reasonOf(f, reader)),
      burnedDown: times ? words.burnDown(burn.burnDownMin) : null,
      coveredBy: times ? words.cover(burn.coverMin) : null,
    },
    tightest: tightestOf(plan, day.tightest, reader),
    wouldChange: {
      moves: wouldChange.moves.map((m) => moveAnswer(plan, m, reader)),
      barredBy: reasons(wouldChange.barredBy),
      next: next && {
        at: rfc3339(next.atMs, plan.site.timeZone),
        from: next.from,
        to: next.to,
        reasons: reasons(next.findings),
        text: words.nextChange(next.atMs, next.to, reader),
      },
    },
    text: headline(plan, day, reader),
  };
}

function moveAnswer(
  plan: Plan,
  { score, moveBy, towards }: Move,
  reader: Reader,
): PlanAnswer['wouldChange']['moves'][number] {
  const f = limitFigures(plan, score.limitIndex, score.hour);
  return {
    element: f.element,
    at: rfc3339(f.atMs, plan.site.timeZone),
    value: valueIn(f.element, f.value, reader.units),
    bound: valueIn(f.element, f.bound, reader.units),
    moveBy: differenceIn(f.element, moveBy, reader.units),
    unit: unitFor(f.element, reader.units),
    towards,
    source: f.source,
    text: wordsFor(reader.language).move(f, moveBy, towards, reader),
  };
}

/** The answer in one line: place, day, verdict, the three times with their pauses, and whether it is too late to light. */
export function headline(plan: Plan, day: DayPlan, reader: Reader): string {
  const words = wordsFor(reader.language);
  const where = `${plan.site.name}, ${dateText(day.day.date, reader.language)}`;
  if (day.times === null) {
    const said = day.cannotSay ? words.cannotSay : `${words.verdicts[day.verdict]}, ${words.labels.noWindow}`;
    return `${where}: ${said}`;
  }
  const moment = (ms: number) => momentText(ms, plan.site.timeZone, reader.language, day.day.date);
  const { lightUpMs, lastChargeMs, coveredByMs, pauses } = day.times;
  const held = pauses
    .map((p) => `, ${lowerFirst(words.labels.pause)} ${moment(p.fromMs)} - ${moment(p.toMs)}`)
    .join('');
  const { lightUp, lastCharge, coveredBy } = words.labels;
  const times = `${lightUp} ${moment(lightUpMs)}${held}, ${lowerFirst(lastCharge)} ${moment(lastChargeMs)}, ${lowerFirst(coveredBy)} ${moment(coveredByMs)}`;
  return [`${where}: ${words.verdicts[day.verdict]}.`, ...standingText(plan, day, reader), times].join(' ');
}

/** What the times do not tell by themselves: that it is too late, or over. */
function standingText(
  { site, windows, nowMs }: Plan,
  { day, standing, times }: DayPlan,
  reader: Reader,
): string[] {
  const words = wordsFor(reader.language);
  if (times === null) return [];
  if (standing === 'charge')
    return [words.tooLateToLight(windowAt(windows, nowMs)?.toMs ?? times.lastChargeMs, reader)];
  if (standing !== 'over') return [];
  const since = momentText(times.lastChargeMs, site.timeZone, reader.language, day.date);
  return [`${words.labels.noMoreWoodSince} ${since}.`];
}
