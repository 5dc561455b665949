// Plan → the hours answer: every hour, every value, every score.

import type { Plan } from '#core/plan/plan.ts';
import { appliesIn, tightestIn } from '#core/plan/tightest-in.ts';
import { worseOf } from '#core/rules/finding.ts';
import { limitFigures } from '#core/rules/limit-figures.ts';
import type { Bound, ElementLimit, SideBounds } from '#core/score/limit.ts';
import { CLASS_NAMES } from '#core/score/score-hours.ts';
import { derive } from '#core/series/derive.ts';
import { ELEMENT_NAMES } from '#core/series/elements.ts';
import { hourAt, missingReasonAt, valueAt } from '#core/series/hourly-series.ts';
import { downwindDeg } from '#core/units/direction.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { ceilToHour, floorToHour, HOUR_MS, type Span } from '#core/units/time.ts';
import { cutWindows } from '#core/windows/find-windows.ts';
import type { HoursAnswer } from '#publish/wire.ts';
import { differenceIn, roundTo, type UnitSystem, unitFor, valueIn } from '#publish/wording/show.ts';
import { headOf, type Wanted } from './head.ts';
import { tightestOf } from './reasons.ts';

type HourAnswer = HoursAnswer['hours'][number];

/** Hours that touch `span`; hours outside of the forecast are there too, without values. */
export function hoursAnswer(judged: Plan, span: Span, wanted: Wanted): HoursAnswer {
  // People see every element that can be worked out, not only those that a limit asks for.
  const plan = { ...judged, series: derive(judged.series, { gustFactor: judged.site.gustFactor }) };
  const at = (ms: number) => rfc3339(ms, plan.site.timeZone);
  const hours: HourAnswer[] = [];
  for (let ms = floorToHour(span.fromMs); ms < ceilToHour(span.toMs); ms += HOUR_MS)
    hours.push(hourAnswer(plan, ms, wanted));
  const limits = plan.scores.map(({ limit }, l) => limitAnswer(limit, l, wanted.reader.units));
  return { ...headOf(plan, wanted), from: at(span.fromMs), to: at(span.toMs), limits, hours };
}

function limitAnswer(limit: ElementLimit, index: number, units: UnitSystem): HoursAnswer['limits'][number] {
  const { element, when, inclusive, source } = limit;
  const bound = (b: Bound | null) => (b === null ? null : valueIn(element, b.value, units));
  const side = (bounds: SideBounds | null) =>
    bounds && { hold: bound(bounds.hold), stop: bound(bounds.stop) };
  const sides = { atLeast: side(limit.atLeast), atMost: side(limit.atMost) };
  return { limit: index, element, when, unit: unitFor(element, units), ...sides, inclusive, source };
}

function hourAnswer(plan: Plan, fromMs: number, { reader }: Wanted): HourAnswer {
  const span = { fromMs, toMs: fromMs + HOUR_MS };
  const hour = hourAt(plan.series, fromMs);
  const windFromDeg = valueAt(plan.series, 'windDirection', hour);
  const within = cutWindows(plan.windows, span);
  // An hour that no window covers is outside of what was judged: hold.
  const verdict =
    within.length === 0
      ? 'hold'
      : within.reduce((worst, w) => worseOf(worst, w.verdict), within[0]?.verdict ?? 'hold');
  return {
    from: rfc3339(fromMs, plan.site.timeZone),
    to: rfc3339(span.toMs, plan.site.timeZone),
    verdict,
    values: valuesOf(plan, hour, reader.units),
    smokeGoesToward: windFromDeg === null ? null : downwindDeg(windFromDeg),
    scores: plan.scores.map((_, l) => scoreAnswer(plan, l, hour, reader.units)),
    tightest: tightestOf(plan, tightestIn(plan, [span]), reader),
  };
}

function valuesOf(plan: Plan, hour: number, units: UnitSystem): HourAnswer['values'] {
  const values: HourAnswer['values'] = {};
  for (const element of ELEMENT_NAMES) {
    const value = valueAt(plan.series, element, hour);
    values[element] = {
      value: value === null ? null : valueIn(element, value, units),
      unit: unitFor(element, units),
      derived: plan.series.columns[element].derived?.[hour] === 1,
      missing: value === null ? missingReasonAt(plan.series, element, hour) : null,
    };
  }
  return values;
}

function scoreAnswer(
  plan: Plan,
  limit: number,
  hour: number,
  units: UnitSystem,
): HourAnswer['scores'][number] {
  const score = plan.scores[limit];
  if (!score) throw new Error(`no limit ${limit}`);
  const { element, source } = score.limit;
  const named = CLASS_NAMES[score.classes[hour] ?? 3] ?? 'missing';
  const base = {
    limit,
    element,
    class: named,
    applies: appliesIn(plan, limit, hour),
    unit: unitFor(element, units),
    source,
  };
  if (named === 'missing') {
    const missing = missingReasonAt(plan.series, element, hour);
    return { ...base, value: null, bound: null, room: null, roomFraction: null, derived: false, missing };
  }
  const f = limitFigures(plan, limit, hour);
  return {
    ...base,
    value: valueIn(element, f.value, units),
    bound: valueIn(element, f.bound, units),
    room: differenceIn(element, f.room, units),
    roomFraction: roundTo(f.roomFraction, 4),
    derived: f.derived,
    missing: null,
  };
}
