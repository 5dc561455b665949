// Joins configuration, newest forecasts and the core: answers what the API and the command line ask for.

import { z } from 'zod';
import { buildSite } from '#config/build-site.ts';
import { limitList } from '#config/limits.ts';
import { faultsOf } from '#config/load.ts';
import { type Config, limitSetNamed } from '#config/schema.ts';
import { draftSite, type SiteFields, siteFields } from '#config/sites.ts';
import { makePlan, planCalendar } from '#core/plan/make-plan.ts';
import type { Plan } from '#core/plan/plan.ts';
import type { LimitSet } from '#core/score/limit.ts';
import { workingDayAt } from '#core/site/working-day.ts';
import { addDays, type LocalDate } from '#core/units/local-time.ts';
import { ServiceError } from '#errors.ts';
import { forecastStateOf } from '#publish/api/forecast-state.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { siteKeyOf, unknownSite } from '#publish/site-key.ts';
import { maySee } from '#publish/viewer.ts';
import type { ForecastSource } from '#sources/source.ts';
import type { HeldForecast, LatestForecasts } from '#store/latest.ts';
import { type CalendarShelf, createCalendarShelf } from './calendar-shelf.ts';

export interface DeskOptions {
  readonly config: Config;
  readonly latest: LatestForecasts;
  readonly source: ForecastSource;
  readonly demo: boolean;
  readonly nowMs: () => number;
}

export function createPlanDesk(options: DeskOptions): PlanDesk {
  const { config, latest, demo, nowMs } = options;
  const calendars = createCalendarShelf();
  const { organisation } = config;
  const byKey = new Map(config.sites.map((fields) => [siteKeyOf(organisation, fields.id), fields]));
  const fieldsOf = (key: string): SiteFields => {
    const fields = byKey.get(key);
    if (fields) return fields;
    throw unknownSite(key.slice(key.indexOf('/') + 1));
  };
  const idOf = (key: string): string => byKey.get(key)?.id ?? '';
  return {
    demo,
    organisation,
    preferences: config.preferences,
    nowMs,
    versionOf: (key) => latest.get(idOf(key)).version,
    ready: () =>
      config.sites.every((fields) => {
        const { state } = forecastStateOf(deskSite(options, fields), nowMs());
        return state === 'fresh' || state === 'aging';
      }),
    sites: (viewer) =>
      viewer.organisation === organisation
        ? config.sites.filter(({ id }) => maySee(viewer, id)).map((fields) => deskSite(options, fields))
        : [],
    site: (key) => deskSite(options, fieldsOf(key)),
    plan(key, firstDate, dayCount) {
      const fields = fieldsOf(key);
      const { id } = fields;
      const { held, fault } = latest.get(id);
      if (held === null) {
        const why = fault ? `: ${fault.message}` : ' yet; the first pull is under way';
        throw new ServiceError('no_forecast', `no forecast for ${id}${why}`, { retryable: true });
      }
      return planHeld(config, fields, held, nowMs(), firstDate, dayCount, calendars);
    },
    async whatIf(_viewer, body, day, signal) {
      const { fields, limits } = readWhatIf(config, body);
      const pulled = await options.source.pull(draftSite(fields).place, signal);
      const held = { forecast: pulled.forecast, alerts: pulled.alerts, pointTimeZone: pulled.point.timeZone };
      const zone = fields.timeZone ?? held.pointTimeZone;
      return planHeld(
        withLimits(config, limits),
        { ...fields, limits: limits.name },
        held,
        nowMs(),
        dateOf(day, nowMs(), fields, zone),
        1,
      );
    },
  };
}

/** `today`, `tomorrow` or a date → the local date of a site. */
export function dateOf(day: string, nowMs: number, fields: SiteFields, timeZone: string): LocalDate {
  if (day !== 'today' && day !== 'tomorrow') return day;
  const today = workingDayAt(draftSite(fields).shifts, nowMs, timeZone).date;
  return day === 'today' ? today : addDays(today, 1);
}

export function planHeld(
  config: Config,
  fields: SiteFields,
  held: HeldForecast,
  nowMs: number,
  firstDate: LocalDate,
  dayCount: number,
  calendars: CalendarShelf | null = null,
): Plan {
  const built = buildSite(config, fields, held.pointTimeZone);
  if (built === null) throw new ServiceError('config_invalid', `no limit set "${fields.limits}"`);
  const { forecast, alerts } = held;
  const calendar =
    calendars?.get(built.site, firstDate, dayCount) ?? planCalendar(built.site, firstDate, dayCount);
  return makePlan({ ...built, forecast, alerts, nowMs, firstDate, dayCount, calendar });
}

function deskSite({ config, latest, nowMs }: DeskOptions, fields: SiteFields): DeskSite {
  const state = latest.get(fields.id);
  const draft = draftSite(fields);
  const limits = limitSetNamed(config, fields.limits);
  if (limits === null) throw new ServiceError('config_invalid', `no limit set "${fields.limits}"`);
  const timeZone = fields.timeZone ?? state.held?.pointTimeZone ?? null;
  const { id, name, place, ...definition } = draft;
  return {
    key: siteKeyOf(config.organisation, id),
    id,
    name,
    at: [place.latDeg, place.lonDeg],
    timeZone,
    today: timeZone === null ? null : workingDayAt(draft.shifts, nowMs(), timeZone),
    limits,
    definition: { ...definition },
    state,
    warnAfterMin: draft.quality.warnAfterMin,
    holdAfterMin: draft.quality.holdAfterMin,
  };
}

const UNNAMED = { id: 'what-if', name: 'What-if', limits: 'in-the-body' };

/** `site` as in the configuration; `limits` a list beside it, or `site.limits` the name of a configured set. */
const whatIfBody = z.strictObject({
  site: z.preprocess(
    (site) => (typeof site === 'object' && site !== null ? { ...UNNAMED, ...site } : site),
    siteFields,
  ),
  limits: limitList.optional(),
});

function readWhatIf(config: Config, body: unknown): { fields: SiteFields; limits: LimitSet } {
  const parsed = whatIfBody.safeParse(body);
  if (!parsed.success) throw badBody(faultsOf(parsed.error));
  const { site, limits: own } = parsed.data;
  const limits = own ? { name: UNNAMED.limits, ...own } : limitSetNamed(config, site.limits);
  if (limits) return { fields: site, limits };
  const known = Object.keys(config.limitSets).join(', ');
  throw badBody([
    { path: 'limits', message: `expected a list of limits, or site.limits naming one of: ${known}` },
  ]);
}

function badBody(faults: readonly { path: string; message: string }[]): ServiceError {
  const lines = faults.map((f) => `${f.path}: ${f.message}`).join('; ');
  return new ServiceError('bad_body', lines, { facts: { faults } });
}

function withLimits(config: Config, { name, ...set }: LimitSet): Config {
  return {
    ...config,
    limitSets: {
      ...config.limitSets,
      [name]: { ...set, elements: [...set.elements], clock: [...set.clock], seasons: [...set.seasons] },
    },
  };
}
