// The input of a watch with everything in order, to be spoiled by one change at a time.

import { makePlan } from '#core/plan/make-plan.ts';
import { summariseDays } from '#core/plan/plan-summary.ts';
import type { Burn } from '#core/watch/burn.ts';
import { type WatchContext, type WatchInput, watchContext } from '#core/watch/watch-context.ts';
import { DEFAULT_WATCH, type WatchSettings } from '#core/watch/watch-settings.ts';
import { alertsSeen } from './alerts.ts';
import { type InputText, inputOf } from './plan.ts';
import { clock, every, ON_SITE, WATCH_DATE } from './watch.ts';

export interface WatchText extends Partial<Omit<WatchInput, 'nowMs' | 'settings'>> {
  /** A clock time; 13:00 where nothing is said. */
  readonly now?: string;
  readonly planned?: InputText;
  readonly settings?: Partial<WatchSettings>;
}

/** Lit at 08:00 with a wind from 180, charging since 08:20. */
export const OPEN_BURN: Burn = {
  id: 'burn-1',
  site: 'org/quarry-field',
  state: 'charging',
  openedAtMs: clock('08:00'),
  litAtMs: clock('08:00'),
  sinceMs: clock('08:20'),
  closedAtMs: null,
  briefedFromDeg: 180,
};

/** Three hours of a wind that wanders a little about a direction: no two observations alike. */
export const wandering = (fromDeg: number, speedMps: number) => (minute: number) =>
  `${(((fromDeg + ((minute * 7) % 11) - 5) % 360) + 360) % 360 || 360} ${speedMps + ((minute * 3) % 7) / 10}`;

/** The plain site on the date of the watch, fair weather from 180, an open burn, a mast that tells every five minutes. */
export function watchInput(text: WatchText = {}): WatchInput {
  const { now = '13:00', planned = {}, settings = {}, ...given } = text;
  const nowMs = clock(now);
  const input = inputOf({ firstDate: WATCH_DATE, ...planned, nowMs: planned.nowMs ?? nowMs });
  const plan = makePlan(input);
  const briefed = { toldAtMs: clock('06:00'), days: summariseDays(plan) };
  return {
    site: input.site,
    limits: input.limits,
    plan,
    briefed,
    // Told before the light-up what it was told last, where nothing else is said.
    litBy: given.briefed === undefined ? briefed : given.briefed,
    rebriefed: null,
    burn: OPEN_BURN,
    alsoOpen: [],
    covered: [],
    rebriefedAtMs: null,
    stations: [ON_SITE],
    unfound: [],
    noneNear: [],
    observations: every(5, '10:00', now, wandering(180, 3), { relativeHumidityPct: 45, gustMps: 5 }),
    alerts: alertsSeen(nowMs),
    before: [],
    ...given,
    settings: { ...DEFAULT_WATCH, ...settings },
    nowMs,
  };
}

export const watchContextOf = (text: WatchText = {}): WatchContext => watchContext(watchInput(text));
