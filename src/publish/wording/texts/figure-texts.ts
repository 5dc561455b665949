// Figures of a condition → text, in the reader's units and language and on the site's clock.

import type { Element } from '#core/series/elements.ts';
import { ELEMENTS } from '#core/series/elements.ts';
import { wrapDeg } from '#core/units/direction.ts';
import { clockPartsAt, dayNameOf, localDateAt } from '#core/units/local-time.ts';
import type { Condition } from '#core/watch/condition.ts';
import type { PitLit } from '#core/watch/pit-lit.ts';
import { amountText, clockOf } from '#publish/wording/show.ts';
import type { TextRequest } from './text-request.ts';
import type { FigureTexts, MeasuredBy, TextWords } from './text-words.ts';

/** How a name that people gave is put: cut for texts, whole for mail. */
export type NameForm = (name: string, otherwise: string) => string;

/** Compass word of a bearing, by eighths; null where there is none. */
export const compassWord = (deg: number | null, words: TextWords): string | null =>
  deg === null || !Number.isFinite(deg) ? null : (words.compass[Math.round(wrapDeg(deg) / 45) % 8] ?? null);

/** "1:42 pm"; on another day than `besidesMs` "Tue 7:00 am". */
export function clockWord(ms: number, besidesMs: number, timeZone: string, words: TextWords): string {
  const { date, hour, minute } = clockPartsAt(ms, timeZone);
  const clock = clockOf(hour, minute);
  return date === localDateAt(besidesMs, timeZone) ? clock : `${words.weekdays[dayNameOf(date)]} ${clock}`;
}

/** A value of an element with its unit; of a direction its compass word first. */
export function amountWord(
  element: Element,
  core: number | null,
  besides: number | null,
  { reader }: Pick<TextRequest, 'reader'>,
  words: TextWords,
): string | null {
  if (core === null || !Number.isFinite(core)) return null;
  const near = besides !== null && Number.isFinite(besides) ? besides : undefined;
  const amount = amountText(element, core, reader.units, reader.language, near);
  return ELEMENTS[element].dimension === 'angle' ? `${compassWord(core, words)} (${amount})` : amount;
}

/** The amount without its unit, where the one beside it has the same. */
export function withoutUnitOf(beside: string | null, amount: string | null): string | null {
  const unit = beside === null ? undefined : / [^\s()]+$/.exec(beside)?.[0];
  return unit !== undefined && amount?.endsWith(unit) ? amount.slice(0, -unit.length) : amount;
}

const QUARTER_MIN = 15;
const METRES = { us: ['mi', 1609.344], si: ['km', 1000] } as const;

function measuredBy(id: string, { reader, stationName, stationOf }: TextRequest, name: NameForm): MeasuredBy {
  const station = stationOf(id);
  const [unit, metres] = METRES[reader.units];
  const isAway = station?.kind === 'near' && Number.isFinite(station.distanceM);
  return {
    name: name(stationName(id), id),
    away: isAway ? `${Math.max(1, Math.round(station.distanceM / metres))} ${unit}` : null,
    everyMin:
      station && station.kind !== 'person' && station.periodMin > QUARTER_MIN ? station.periodMin : null,
  };
}

function readEveryMin(id: string | null, { stationOf }: TextRequest): number | null {
  const station = id === null ? null : stationOf(id);
  return station?.kind === 'person' ? station.periodMin : null;
}

export function figureTexts(
  { basis, figures: f, asOfMs, subject, verdict }: Condition,
  request: TextRequest,
  words: TextWords,
  name: NameForm,
): FigureTexts {
  const { message, site, stationName } = request;
  const clock = (ms: number | null) =>
    ms === null || !Number.isFinite(ms) ? null : clockWord(ms, message.atMs, site.timeZone, words);
  const speed = (core: number | null) => amountWord('windSpeed', core, null, request, words);
  const between = f.betweenMs && ([clock(f.betweenMs[0]), clock(f.betweenMs[1])] as const);
  const [fromClock, toClock] = between ?? [null, null];
  return {
    basis: words.bases[basis],
    element: f.element && words.elements[f.element],
    elementCode: f.element,
    value: f.element && amountWord(f.element, f.value, f.bound, request, words),
    bound: f.element && amountWord(f.element, f.bound, null, request, words),
    side: f.side,
    source: f.source === null ? null : name(f.source, ''),
    from: compassWord(f.windFromDeg, words),
    was: compassWord(f.wasFromDeg, words),
    to: compassWord(f.windFromDeg === null ? null : f.windFromDeg + 180, words),
    speed: speed(f.windSpeedMps),
    gust: speed(f.gustMps),
    place: f.place === null ? null : name(f.place, words.site),
    what: f.what === null ? null : name(f.what, ''),
    code: f.what,
    at: clock(f.atMs),
    wasAt: clock(f.wasMs),
    asOf: clock(asOfMs),
    between: fromClock === null || toClock === null ? null : [fromClock, toClock],
    station: f.station === null ? null : name(stationName(f.station), f.station),
    readEveryMin: readEveryMin(f.station, request),
    by: f.station === null ? null : measuredBy(f.station, request, name),
    subject,
    pit: pitText(f.pit ?? null, clock, words),
    verdict,
  };
}

/** Kept of an older version it may be missing. */
function pitText(
  pit: PitLit | null,
  clock: (ms: number | null) => string | null,
  words: TextWords,
): FigureTexts['pit'] {
  const lit = clock(pit?.litAtMs ?? null);
  return lit === null ? null : words.pit(lit, pit?.nth ?? null);
}
