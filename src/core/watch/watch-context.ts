// What one evaluation of the watch goes by: the record given, and every station in rank with what it told.

import type { Plan } from '#core/plan/plan.ts';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import type { LimitSet } from '#core/score/limit.ts';
import type { AlertsSeen } from '#core/series/official-alert.ts';
import type { Site } from '#core/site/site.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { Burn } from './burn.ts';
import { burnDate } from './burn-plan.ts';
import { rankStations, type Watched } from './choose-station.ts';
import { type Condition, NO_FIGURES } from './condition.ts';
import type { Observation } from './observation.ts';
import type { Station } from './station.ts';
import { type StuckWind, stationHealth } from './station-health.ts';
import { settleObservations } from './take-observation.ts';
import type { WatchSettings } from './watch-settings.ts';
import type { WindBriefing } from './wind-briefing.ts';
import { stationWinds } from './wind-records.ts';

export interface WatchInput {
  readonly site: Site;
  readonly limits: LimitSet;
  readonly settings: WatchSettings;
  /** The moment as of which is judged. */
  readonly nowMs: number;
  /** The newest; null where there is no forecast. */
  readonly plan: Plan | null;
  /** What the crew was told; null where nothing was. */
  readonly briefed: BriefedPlan | null;
  /** What it had been told when it lit, whatever it was told since; null where nothing was, or no burn is open. */
  readonly litBy: BriefedPlan | null;
  /** The wind that the crew of the open burn has acknowledged last; null: none since light-up. */
  readonly rebriefed: WindBriefing | null;
  /** The one that is open, or the last one closed; null: none. */
  readonly burn: Burn | null;
  /** Those that are open beside it. */
  readonly alsoOpen: readonly OpenBurn[];
  /** Burns of the last days, in any order: those that were covered are looked at again. */
  readonly covered: readonly Burn[];
  /** When the wind that the crew acknowledged last was measured [epoch ms]; null: none since light-up. */
  readonly rebriefedAtMs: number | null;
  readonly stations: readonly Station[];
  /** Entries for the nearest stations of which none was found since the start. */
  readonly unfound: readonly Station[];
  /** Entries for the nearest stations to which their source has answered that there are none in reach. */
  readonly noneNear: readonly Station[];
  /** Of the last hours, any order. */
  readonly observations: readonly Observation[];
  /** Null where alerts were never read. */
  readonly alerts: AlertsSeen | null;
  /** What the evaluation before this one gave: what was raised is not over because data went missing. */
  readonly before: readonly Condition[];
}

/** With what the crew had been told when it was lit; null where nothing was. */
export interface OpenBurn {
  readonly burn: Burn;
  readonly litBy: BriefedPlan | null;
}

export interface BriefedPlan {
  readonly toldAtMs: number;
  readonly days: readonly DaySummary[];
}

export interface WatchContext extends WatchInput {
  /** The date to whose plan the burn belongs, or today's. */
  readonly date: LocalDate;
  /** In rank. */
  readonly watched: readonly Watched[];
}

export function watchContext(input: WatchInput): WatchContext {
  const { nowMs, settings, stations } = input;
  const oldestMs = nowMs - settings.lookBackMin * MINUTE_MS;
  const newestMs = nowMs + settings.futureMin * MINUTE_MS;
  const inTime = input.observations.filter((o) => o.observedAtMs >= oldestMs && o.observedAtMs <= newestMs);
  const settled = settleObservations(inTime);
  const told = new Map(stations.map(({ id }) => [id, settled.filter((o) => o.station === id)]));
  const watched = rankStations(stations).map((station) => {
    const observations = told.get(station.id) ?? [];
    const othersMove = (fromMs: number): boolean =>
      [...told].some(([id, others]) => id !== station.id && moves(others, fromMs));
    return {
      station,
      observations,
      ...stationWinds(station, observations, settings),
      health: stationHealth(station, observations, nowMs, settings, othersMove, stuckBefore(input, station)),
      lateMs: lateOf(observations, settings.lateMin * MINUTE_MS),
    };
  });
  return { ...input, date: burnDate(input), watched };
}

/** What a station was frozen at when it was last judged: its condition carries that. */
function stuckBefore({ before }: WatchInput, { id }: Station): StuckWind | null {
  const was = before.find(
    (c) =>
      c.code === 'station-doubted' && c.subject === id && c.truth !== 'false' && c.figures.what === 'frozen',
  );
  const { wasFromDeg: fromDeg, value: speedMps } = was?.figures ?? NO_FIGURES;
  return fromDeg === null ? null : { fromDeg, speedMps, asOfMs: was?.asOfMs ?? 0 };
}

/** True where the wind of a station changed since. */
function moves(observations: readonly Observation[], fromMs: number): boolean {
  const winds = observations.filter((o) => o.observedAtMs >= fromMs).map((o) => JSON.stringify(o.wind));
  return new Set(winds).size > 1;
}

/** Those that came more than `afterMs` after their own moment, when a newer one was there already. */
function lateOf(observations: readonly Observation[], afterMs: number): ReadonlySet<number> {
  const late = new Set<number>();
  let newerCameMs = Number.POSITIVE_INFINITY;
  for (const o of observations.toReversed()) {
    if (o.receivedAtMs - o.observedAtMs > afterMs && newerCameMs <= o.receivedAtMs) late.add(o.observedAtMs);
    newerCameMs = Math.min(newerCameMs, o.receivedAtMs);
  }
  return late;
}
