// The wind has turned, within a quarter of an hour, or between two observations where a station cannot see so finely. What
// the crew goes by is the wind of its light-up: a turn from it is over when the wind is back, or the crew was told and said so.

import { angleBetweenDeg } from '#core/units/direction.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { isOpen } from './burn-plan.ts';
import type { Watched } from './choose-station.ts';
import type { Condition } from './condition.ts';
import { type Latched, latch } from './latch.ts';
import { makeCondition } from './make-condition.ts';
import { chosenFor, raisedBefore, tellsWind, whileUnknown, windFigures } from './observed-by.ts';
import { type ShiftEvent, shiftEvents } from './shift-events.ts';
import { shiftLastsMs } from './shift-lasts.ts';
import type { WatchContext } from './watch-context.ts';
import { windReadings } from './wind-readings.ts';
import { isSteady } from './wind-records.ts';
import { BACK_DEG } from './wind-turns.ts';

const CODE = 'wind-shifted';
const DUST_DEG = 1e-6;

/** `wind-shifted`: true from a turn on until the wind before it is back, or the crew was briefed on the new one. */
export function windShift(context: WatchContext): Condition {
  const { nowMs, settings } = context;
  const { chosen } = chosenFor(context, tellsWind);
  const { standing, mayBe } = standingOf(context, chosen);
  if (standing !== null) return ofEvent(context, chosen, standing);
  const isFalse = !mayBe && chosen !== null && canSay(context, chosen);
  return makeCondition(CODE, {
    truth: isFalse ? 'false' : 'unknown',
    verdict: whileUnknown(context, CODE, '', tellsWind),
    basis: 'observed',
    asOfMs: isFalse ? newestMs(chosen) : null,
    validUntilMs: nowMs + HOUR_MS,
    figures: { ...windFigures(chosen), what: settings.shift.definition },
  });
}

const newestMs = (watched: Watched | null): number | null => watched?.winds.at(-1)?.atMs ?? null;

/** A turn with the direction that the wind must come back to, and what the readings since say of that. */
interface Standing {
  readonly event: ShiftEvent;
  readonly originDeg: number | null;
  readonly latched: Latched;
}

/** What became of each turn in order of time: one that follows on another leads no nearer to the wind before both. */
function standingOf(
  context: WatchContext,
  chosen: Watched | null,
): { readonly standing: Standing | null; readonly mayBe: boolean } {
  const { nowMs } = context;
  const settledMs = settledAtMs(context);
  const lastsMs = shiftLastsMs(context, chosen);
  const { events, mayBe } = shiftEvents(context, chosen, Math.min(settledMs, nowMs - lastsMs));
  const known = withRemembered(context, events);
  let standing = null as Standing | null;
  for (const event of known) {
    // Of what the crew was briefed on since, each is told for its time alone.
    if (event.atMs <= settledMs && nowMs - event.atMs > event.lastsMs) continue;
    const goesOn = standing !== null && !isOverBy(context, standing, event.atMs);
    const originDeg = (goesOn ? standing?.originDeg : null) ?? event.wasFromDeg;
    standing = { event, originDeg, latched: readSince(context, event.atMs, originDeg, nowMs) };
  }
  const isStanding =
    standing !== null &&
    (nowMs - standing.event.atMs <= standing.event.lastsMs || standing.latched.truth !== 'false');
  return { standing: isStanding ? standing : null, mayBe };
}

/** Until then the crew knows the wind: it lit in it, or was told of it and said so. Without a fire nobody goes by any. */
function settledAtMs({ burn, rebriefedAtMs }: WatchContext): number {
  if (!isOpen(burn)) return Number.POSITIVE_INFINITY;
  return Math.max(burn.litAtMs ?? burn.openedAtMs, rebriefedAtMs ?? Number.NEGATIVE_INFINITY);
}

const isOverBy = (context: WatchContext, { event, originDeg }: Standing, ms: number): boolean =>
  readSince(context, event.atMs, originDeg, ms).truth === 'false';

/** Back is near to the direction before for some time; a calm, a light or a swinging wind is not, and silence says nothing. */
function readSince(context: WatchContext, sinceMs: number, originDeg: number | null, nowMs: number): Latched {
  const { settings } = context;
  const withinDeg = settings.shift.atLeastDeg - BACK_DEG + DUST_DEG;
  const readings = windReadings(context, ({ recent }) => {
    if (recent.speedMps === null) return null;
    if (recent.speedMps < settings.shift.atLeastMps) return 'near';
    if (!isSteady(recent, settings)) return 'unsure';
    if (originDeg === null) return 'near';
    return angleBetweenDeg(recent.fromDeg, originDeg) <= withinDeg ? 'clear' : 'beyond';
  });
  const since = readings.filter((r) => r.atMs >= sinceMs && r.atMs <= nowMs);
  return latch(since, nowMs, settings.clearsForMin * MINUTE_MS, { asOfMs: sinceMs });
}

/** A turn that was seen stays one when what it was seen by goes missing, or another station is chosen. */
function withRemembered(context: WatchContext, events: readonly ShiftEvent[]): readonly ShiftEvent[] {
  const was = raisedBefore(context, CODE, '');
  const atMs = was && (was.figures.atMs ?? was.figures.betweenMs?.[1]);
  if (!was || typeof atMs !== 'number' || events.some((e) => e.atMs === atMs)) return events;
  const { betweenMs, wasFromDeg, what, station } = was.figures;
  const watched = context.watched.find((w) => w.station.id === station) ?? null;
  const remembered = {
    atMs,
    betweenMs,
    wasFromDeg,
    what,
    watched,
    lastsMs: shiftLastsMs(context, watched),
    was,
  };
  return [...events, remembered].sort((a, b) => a.atMs - b.atMs);
}

function ofEvent(
  context: WatchContext,
  chosen: Watched | null,
  { event, originDeg, latched }: Standing,
): Condition {
  const { settings } = context;
  const isRemark = event.what === 'WSHFT';
  const wind = windFigures(isRemark ? event.watched : chosen);
  // What was seen by a station that tells no more is told as it was seen.
  const figures = event.was !== null && wind.windFromDeg === null ? event.was.figures : wind;
  const isBack =
    originDeg !== null &&
    figures.windFromDeg !== null &&
    angleBetweenDeg(figures.windFromDeg, originDeg) <= settings.shift.atLeastDeg - BACK_DEG + DUST_DEG;
  return makeCondition(CODE, {
    truth: 'true',
    verdict: settings.shift.verdict,
    basis: 'observed',
    asOfMs: latched.asOfMs,
    validUntilMs: context.nowMs + HOUR_MS,
    figures: {
      ...figures,
      what: event.what,
      atMs: event.betweenMs ? null : event.atMs,
      betweenMs: event.betweenMs,
      wasFromDeg: isBack ? event.wasFromDeg : originDeg,
    },
  });
}

/** Without a wind before, or with one that swings about, nobody can say whether it turned. A calm has not. */
function canSay(context: WatchContext, chosen: Watched): boolean {
  const { nowMs, settings } = context;
  const { health, winds } = chosen;
  const [newest, before] = [winds.at(-1), winds.at(-2)];
  if (!newest || !before || nowMs - newest.atMs > health.freshForMs) return false;
  if (newest.atMs - before.atMs > Math.max(HOUR_MS, health.freshForMs)) return false;
  const { recent } = newest;
  const isLight = recent.speedMps !== null && recent.speedMps < settings.shift.atLeastMps;
  return isLight || isSteady(recent, settings);
}
