// What is observed against the site's limits: each bound is broken at once, and over only with a margin and some time.

import { SEVERITY, type Verdict, worseOf } from '#core/rules/finding.ts';
import { type Bound, boundsOf, type ElementLimit } from '#core/score/limit.ts';
import { fractionOf } from '#core/score/tightest.ts';
import { ELEMENTS, type Element } from '#core/series/elements.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { boundReadings, onlyBound } from './bound-readings.ts';
import type { Condition, Truth } from './condition.ts';
import { type Latched, latch, type Reading } from './latch.ts';
import { limitsInForce } from './limits-in-force.ts';
import { makeCondition } from './make-condition.ts';
import { chosenFor, raisedBefore, type Tells, watchedOf, whileUnknown, windFigures } from './observed-by.ts';
import { OBSERVABLE, observedValue } from './observed-value.ts';
import { observedValues, type ValueAt } from './observed-values.ts';
import { strictReadings } from './strict-readings.ts';
import type { WatchContext } from './watch-context.ts';

const CODE = 'observed-beyond-limit';

/** `observed-beyond-limit` for each element that can be observed and has a limit in force, by the element's name. */
export function observedLimits(context: WatchContext): Condition[] {
  const inForce = limitsInForce(context);
  return OBSERVABLE.flatMap((element) => {
    const limits = inForce.filter((limit) => limit.element === element);
    return limits.length === 0 ? [] : [ofElement(context, element, limits)];
  });
}

/** One bound of one limit, and what became of it. */
interface Judged extends Latched {
  readonly limit: ElementLimit;
  readonly bound: Bound;
  readonly isLow: boolean;
  readonly verdict: Verdict;
  /** The newest value, and its least room as a part of the bound. */
  readonly value: ValueAt | null;
  readonly roomFraction: number;
}

function ofElement(context: WatchContext, element: Element, limits: readonly ElementLimit[]): Condition {
  const { nowMs, settings } = context;
  const tells: Tells = (o, station) => {
    const value = observedValue(element, o, station, settings);
    // A gust of which only the least is known is none that is told.
    return value !== null && value.high < ELEMENTS[element].most;
  };
  const judged = limits
    .flatMap((limit) => boundsOf(limit).map((bound, i) => bound && judgeBound(context, limit, i, tells)))
    .filter((j) => j !== null)
    .sort(gravestFirst);
  const raised = judged.filter((j) => j.raised).map((j) => j.verdict);
  const verdict = raised.length > 0 ? raised.reduce(worseOf) : whileUnknown(context, CODE, element, tells);
  return makeCondition(CODE, {
    subject: element,
    truth: truthOf(judged),
    verdict,
    basis: 'observed',
    asOfMs: asOfOf(judged),
    holdsForMs: verdict === 'stop' ? 0 : settings.limits.holdsForMin * MINUTE_MS,
    validUntilMs: nowMs + HOUR_MS,
    figures: figuresOf(context, element, judged[0]),
  });
}

/** Raised: of the gravest bound, so that each is over by itself. Else of the newest value, or null where nobody can say. */
function asOfOf(judged: readonly Judged[]): number | null {
  const [gravest] = judged;
  if (gravest === undefined || gravest.raised) return gravest?.asOfMs ?? null;
  return judged.every((j) => j.asOfMs !== null) ? gravest.asOfMs : null;
}

/** Unknown only where no bound is known to be broken; false only where there is one and none is unknown. */
function truthOf(judged: readonly Judged[]): Truth {
  if (judged.length === 0) return 'unknown';
  if (judged.some((j) => j.truth === 'true')) return 'true';
  return judged.some((j) => j.truth === 'unknown') ? 'unknown' : 'false';
}

function judgeBound(
  context: WatchContext,
  limit: ElementLimit,
  boundIndex: number,
  tells: Tells,
): Judged | null {
  const { nowMs, settings } = context;
  const bound = boundsOf(limit)[boundIndex];
  if (!bound) return null;
  const single = onlyBound(limit, boundIndex);
  const readings = strictReadings(context, chosenFor(context, tells), (watched) =>
    boundReadings(watched, single, settings),
  );
  const isLow = boundIndex < 2;
  const verdict = boundIndex === 0 || boundIndex === 3 ? 'stop' : 'hold';
  const was = raisedBefore(context, CODE, limit.element);
  const isSame =
    was?.figures.side === (isLow ? 'atLeast' : 'atMost') && SEVERITY[verdict] <= SEVERITY[was.verdict];
  const latched = latch(readings, nowMs, settings.clearsForMin * MINUTE_MS, isSame ? was : null);
  const value = valueRead(context, limit, latched.cause);
  const room = isLow ? (value?.low ?? Number.NaN) - bound.value : bound.value - (value?.high ?? Number.NaN);
  return {
    ...latched,
    limit,
    bound,
    isLow,
    verdict,
    value,
    roomFraction: value
      ? fractionOf(room, bound.value, ELEMENTS[limit.element].roomScale)
      : Number.POSITIVE_INFINITY,
  };
}

/** Broken stops before broken holds, then by the least room. */
const gravestFirst = (a: Judged, b: Judged): number =>
  gravity(b) - gravity(a) || a.roomFraction - b.roomFraction;

const gravity = ({ raised, verdict }: Judged): number =>
  (raised ? 1 : 0) + (raised && verdict === 'stop' ? 1 : 0);

function valueRead(
  context: WatchContext,
  { element, measured }: ElementLimit,
  reading: Reading | null,
): ValueAt | null {
  const watched = watchedOf(context, reading);
  if (watched === null) return null;
  const values = observedValues(element, watched, context.settings, measured).filter(
    (v) => v.atMs === reading?.atMs,
  );
  // Of one moment the peak is what went beyond, and the observation what did not.
  const [first] = values;
  return reading?.side === 'beyond'
    ? (values.find((v) => v.peak !== null) ?? first ?? null)
    : (values.at(-1) ?? null);
}

function figuresOf(context: WatchContext, element: Element, judged: Judged | undefined) {
  if (judged === undefined) return { element };
  return {
    ...windFigures(watchedOf(context, judged.cause)),
    element,
    // Neither within nor beyond, since it was measured otherwise than the limit says.
    what: judged.cause?.side === 'unsure' && judged.value?.isOther ? 'other-wind' : null,
    value: judged.value?.value ?? null,
    bound: judged.bound.value,
    boundUnit: judged.bound.unit,
    side: judged.isLow ? ('atLeast' as const) : ('atMost' as const),
    source: judged.limit.source,
    atMs: judged.cause?.atMs ?? null,
  };
}
