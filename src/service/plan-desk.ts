// Answers what the API and the pages ask for, from what this process holds in memory. Where it cannot be known whether that
// is still what the store has, it refuses: no answer is no go.

import type { Config } from '#config/schema.ts';
import { contactOf } from '#config/site-contact.ts';
import { makePlan } from '#core/plan/make-plan.ts';
import { type WorkingDay, workingDayAt } from '#core/site/working-day.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import { builtSite } from '#memory/built-sites.ts';
import { organisationOf } from '#memory/definition-book.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { SiteDefinition } from '#memory/site-definition.ts';
import type { SiteState } from '#memory/site-state.ts';
import { freshnessOf } from '#publish/api/forecast-state.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { NotReady } from '#publish/not-ready.ts';
import { unknownSite } from '#publish/site-key.ts';
import { maySee } from '#publish/viewer.ts';
import type { CalendarShelf } from './calendar-shelf.ts';
import { definedFor } from './defined-for.ts';
import { dateOf, planHeld } from './plan-held.ts';
import { basisOf } from './planner.ts';
import { readWhatIf } from './read-what-if.ts';
import type { StoreWatch } from './store-watch.ts';
import type { WhatIfForecasts } from './what-if-forecasts.ts';

export interface DeskOptions {
  readonly config: Pick<Config, 'organisation' | 'preferences' | 'sources'>;
  readonly mirror: Mirror;
  readonly watch: StoreWatch;
  readonly forecasts: WhatIfForecasts;
  readonly calendars: CalendarShelf;
  readonly demo: boolean;
  readonly nowMs: () => number;
}

export function createPlanDesk(options: DeskOptions): PlanDesk {
  const { config, mirror, watch, calendars, demo, nowMs } = options;
  const { everyMin } = config.sources.nws;
  const refuseWhereSilent = (): void => {
    const silence = watch.whySilent();
    if (silence !== null) throw new ServiceError('store_unavailable', silence, { retryable: true });
  };
  const definitionOf = (key: string): SiteDefinition => {
    refuseWhereSilent();
    const definition = mirror.book().sites.get(key);
    if (definition) return definition;
    const why = mirror.book().broken.get(key);
    if (why !== undefined) throw new ServiceError('config_invalid', `site ${key} cannot be judged: ${why}`);
    throw unknownSite(key.slice(key.indexOf('/') + 1));
  };
  const site = (key: string, definition: SiteDefinition): DeskSite =>
    deskSite({ key, definition, state: mirror.state(key), everyMin }, nowMs());
  return {
    demo,
    organisation: config.organisation,
    preferences: config.preferences,
    nowMs,
    // Where answers are refused, none that was made before fits.
    versionOf: (key) => (watch.whySilent() === null ? mirror.state(key).version : -1),
    whyNotReady: () => watch.whyNotReady() ?? whyNoneUsable(mirror, nowMs()),
    sites: (viewer) =>
      [...mirror.book().sites]
        .filter(
          ([key, { fields }]) => organisationOf(key) === viewer.organisation && maySee(viewer, fields.id),
        )
        .map(([key, definition]) => site(key, definition)),
    site: (key) => site(key, definitionOf(key)),
    plan(key, firstDate, dayCount) {
      const definition = definitionOf(key);
      const { held, fault } = mirror.state(key);
      if (held === null) {
        const why = fault ? `: ${fault.message}` : ' yet; the first pull is under way';
        throw new ServiceError('no_forecast', `no forecast for ${definition.fields.id}${why}`, {
          retryable: true,
        });
      }
      const { forecast, alerts, pointTimeZone } = held;
      const { site: built, limits } = builtSite(definition, pointTimeZone);
      const calendar = calendars.get(built, firstDate, dayCount);
      return makePlan({
        site: built,
        limits,
        forecast,
        alerts,
        nowMs: nowMs(),
        firstDate,
        dayCount,
        calendar,
      });
    },
    async whatIf(viewer, body, day, signal) {
      // A ban that was entered elsewhere may not have come here.
      refuseWhereSilent();
      const parts = readWhatIf(definedFor(viewer, mirror.book()), body);
      const { fields } = parts;
      const held = await options.forecasts.at({ latDeg: fields.at[0], lonDeg: fields.at[1] }, signal);
      const date = dateOf(day, nowMs(), fields, fields.timeZone ?? held.pointTimeZone);
      return planHeld(parts, held, nowMs(), date, 1);
    },
  };
}

/** Null where some site can be answered for, or there is none yet. */
function whyNoneUsable(mirror: Mirror, nowMs: number): NotReady | null {
  const { sites, broken } = mirror.book();
  if (sites.size === 0 && broken.size > 0)
    return { code: 'no-sound-site', sentence: 'no site can be judged by its definition' };
  if (sites.size === 0) return null;
  for (const [key, definition] of sites) {
    const state = mirror.state(key);
    const zone = definition.fields.timeZone ?? state.held?.pointTimeZone ?? 'UTC';
    const freshness = freshnessOf(state, builtSite(definition, zone).site.quality, nowMs);
    if (freshness === 'fresh' || freshness === 'aging') return null;
  }
  return { code: 'no-fresh-forecast', sentence: 'no site has a forecast that is fresh enough' };
}

interface SiteParts {
  readonly key: string;
  readonly definition: SiteDefinition;
  readonly state: SiteState;
  /** Between pulls of a cell, at the most. */
  readonly everyMin: number;
}

function deskSite({ key, definition, state, everyMin }: SiteParts, nowMs: number): DeskSite {
  const { fields, limits } = definition;
  const zone = fields.timeZone ?? state.held?.pointTimeZone ?? null;
  const { site } = builtSite(definition, zone ?? 'UTC');
  const { id, name, place, orders: _, timeZone: __, ...told } = site;
  const basis = basisOf(definition, state);
  return {
    key,
    id,
    name,
    at: [place.latDeg, place.lonDeg],
    timeZone: zone,
    today: zone === null ? null : todayOf(definition, zone, nowMs),
    limits,
    contact: contactOf(fields),
    protected: site.protected,
    definition: { ...told, timeZone: fields.timeZone ?? null },
    state,
    madeFrom: basis && {
      definition: basis.definition,
      document: basis.document,
      alerts: basis.alerts,
      pointTimeZone: basis.pointTimeZone,
    },
    nextDueMs: nextDueMs(state, everyMin),
    warnAfterMin: site.quality.warnAfterMin,
    holdAfterMin: site.quality.holdAfterMin,
  };
}

/** A failed try is a try: after it the source is asked no later than after a good one. */
function nextDueMs({ checkedAtMs, fault }: SiteState, everyMin: number): number | null {
  const triedMs = Math.max(checkedAtMs ?? Number.NEGATIVE_INFINITY, fault?.atMs ?? Number.NEGATIVE_INFINITY);
  return Number.isFinite(triedMs) ? triedMs + everyMin * MINUTE_MS : null;
}

interface KnownToday extends WorkingDay {
  readonly zone: string;
  readonly atMs: number;
}

const todays = new WeakMap<SiteDefinition, KnownToday>();

/** Asked of every site for each list of them, and the same until it ends. */
function todayOf(definition: SiteDefinition, zone: string, nowMs: number): WorkingDay {
  const known = todays.get(definition);
  if (known && known.zone === zone && known.atMs <= nowMs && nowMs < known.untilMs) return known;
  const today = { ...workingDayAt(definition.fields.shift, nowMs, zone), zone, atMs: nowMs };
  todays.set(definition, today);
  return today;
}
