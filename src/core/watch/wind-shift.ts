// The wind has turned, within a quarter of an hour, or between two observations where a station cannot see so finely.

import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { outOfReach, type Watched } from './choose-station.ts';
import type { Condition, Truth } from './condition.ts';
import { makeCondition } from './make-condition.ts';
import { chosenFor, raisedBefore, tellsWind, whileUnknown, windFigures } from './observed-by.ts';
import type { WatchContext } from './watch-context.ts';
import { isSteady } from './wind-records.ts';
import { type Turn, windTurns } from './wind-turns.ts';

const CODE = 'wind-shifted';

/**
 * `wind-shifted`: true for some time after a turn in what the chosen station told, or after a shift of which a report in
 * reach says itself that it was one (a WSHFT remark).
 */
export function windShift(context: WatchContext): Condition {
  const { nowMs, settings } = context;
  const { chosen } = chosenFor(context, tellsWind);
  const turns = chosen ? windTurns(chosen, settings, nowMs - lastsMs(context, chosen)) : [];
  const turn = turns.findLast((t) => t.lasted) ?? null;
  const remark = newestRemark(context);
  if (remark !== null && !(turn !== null && turn.atMs >= remark.atMs)) return ofRemark(context, remark);
  if (turn !== null) return ofTurn(context, chosen, turn);
  // A turn that was seen stays one when what it was seen by goes missing.
  const was = raisedBefore(context, CODE, '');
  const wasMs = was && (was.figures.atMs ?? was.figures.betweenMs?.[1]);
  if (was?.truth === 'true' && typeof wasMs === 'number' && lasts(context, chosen, wasMs)) return was;
  const truth: Truth = turns.length === 0 && chosen !== null && canSay(context, chosen) ? 'false' : 'unknown';
  return makeCondition(CODE, {
    truth,
    verdict: whileUnknown(context, CODE, '', tellsWind),
    basis: 'observed',
    asOfMs: truth === 'false' ? newestMs(chosen) : null,
    validUntilMs: nowMs + HOUR_MS,
    figures: { ...windFigures(chosen), what: settings.shift.definition },
  });
}

const newestMs = (watched: Watched | null): number | null => watched?.winds.at(-1)?.atMs ?? null;

/** An hourly station's turn is told for its hour: it may come late. */
const lastsMs = ({ settings }: WatchContext, watched: Watched | null): number =>
  Math.max(settings.shift.lastsMin, watched?.station.periodMin ?? 0) * MINUTE_MS;

const lasts = (context: WatchContext, watched: Watched | null, atMs: number): boolean =>
  context.nowMs - atMs <= lastsMs(context, watched);

function ofTurn(context: WatchContext, chosen: Watched | null, turn: Turn): Condition {
  const { settings } = context;
  return makeCondition(CODE, {
    truth: 'true',
    verdict: settings.shift.verdict,
    basis: 'observed',
    asOfMs: newestMs(chosen),
    validUntilMs: turn.atMs + HOUR_MS,
    figures: {
      ...windFigures(chosen),
      what: settings.shift.definition,
      atMs: turn.betweenMs ? null : turn.atMs,
      betweenMs: turn.betweenMs,
      wasFromDeg: turn.wasFromDeg,
    },
  });
}

interface Remark {
  readonly watched: Watched;
  readonly atMs: number;
  readonly observedAtMs: number;
}

const ofRemark = (context: WatchContext, { watched, atMs, observedAtMs }: Remark): Condition =>
  makeCondition(CODE, {
    truth: 'true',
    verdict: context.settings.shift.verdict,
    basis: 'observed',
    asOfMs: observedAtMs,
    validUntilMs: atMs + HOUR_MS,
    figures: { ...windFigures(watched), what: 'WSHFT', atMs },
  });

/** Of all stations in reach: a front at the airport is on its way. */
function newestRemark(context: WatchContext): Remark | null {
  const remarks = context.watched
    .filter(({ station }) => outOfReach(station, context.settings) === null)
    .flatMap((watched) =>
      watched.observations.flatMap(({ windShiftAtMs: atMs, observedAtMs }): Remark[] =>
        atMs !== null && lasts(context, watched, atMs) ? [{ watched, atMs, observedAtMs }] : [],
      ),
    );
  return remarks.sort((a, b) => b.atMs - a.atMs)[0] ?? null;
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
