// What the commands about a site share: configuration, site, forecast (live, demo or saved), reader.

import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { partsOf } from '#config/build-site.ts';
import { loadConfig } from '#config/load.ts';
import type { Config } from '#config/schema.ts';
import { type SiteFields, siteFields } from '#config/sites.ts';
import type { Plan } from '#core/plan/plan.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import { isLocalDate, parseTypedInstantMs } from '#core/units/local-time.ts';
import { startStandIn } from '#demo/stand-in.ts';
import type { HeldForecast } from '#memory/site-state.ts';
import type { Wanted } from '#publish/answers/head.ts';
import { liveSource } from '#service/live-source.ts';
import { dateOf, planHeld } from '#service/plan-held.ts';
import { type Arguments, usage } from './arguments.ts';
import { readSaved } from './saved.ts';
import { logTo, type Terminal } from './terminal.ts';

const SHIPPED = (name: string): string => fileURLToPath(new URL(`../../config/${name}`, import.meta.url));

/** Configuration by --config, PITWARD_CONFIG or pitward.yaml; the demo's with --demo. */
export function configFileOf({ options }: Arguments, { environment }: Terminal): string {
  if (options.demo) return SHIPPED('demo.yaml');
  const given = typeof options.config === 'string' ? options.config : environment['PITWARD_CONFIG'];
  return resolve(given ?? 'pitward.yaml');
}

export interface Settings {
  readonly config: Config;
  readonly fields: SiteFields;
  readonly demo: boolean;
  readonly nowMs: number;
}

/** Throws ServiceError `usage`, `config_…`. */
export function readSettings(args: Arguments, terminal: Terminal): Settings {
  const { options, words } = args;
  if (words.length > 1) throw usage(`expected one site, found "${words.join(' ')}"`);
  const config = loadConfig(configFileOf(args, terminal));
  const nowMs = momentOf(options.now) ?? terminal.nowMs();
  const at = typeof options.at === 'string' ? options.at : null;
  if (at !== null && words.length > 0) throw usage('expected either a site or --at, not both');
  // A configured site has its own limits; another set asked for and not used would mislead.
  if (at === null && options.limits !== undefined) throw usage('--limits goes with --at');
  const fields = at === null ? namedSite(config, words[0]) : placeSite(config, at, options.limits);
  return { config, fields, demo: options.demo === true, nowMs };
}

function namedSite(config: Config, id: string | undefined): SiteFields {
  const known = config.sites.map((s) => s.id).join(', ');
  const only = config.sites.length === 1 ? config.sites[0] : undefined;
  const found = id === undefined ? only : config.sites.find((s) => s.id === id);
  if (found) return found;
  throw usage(
    id === undefined ? `which site? There are: ${known}` : `no site "${id}"; there are: ${known || 'none'}`,
  );
}

/** A place that is in no configuration, on an all-week shift from sunrise to sunset unless the limits say more. */
function placeSite(config: Config, at: string, limits: Arguments['options']['limits']): SiteFields {
  const numbers = at.split(',').map((text) => (text.trim() === '' ? Number.NaN : Number(text)));
  const set = typeof limits === 'string' ? limits : Object.keys(config.limitSets)[0];
  if (set === undefined || !Object.hasOwn(config.limitSets, set)) {
    throw usage(`no limit set "${set}"; there are: ${Object.keys(config.limitSets).join(', ')}`);
  }
  const parsed = siteFields.safeParse({
    id: 'here',
    name: at,
    at: numbers,
    limits: set,
    shift: { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '00:00', to: '00:00' },
  });
  if (!parsed.success)
    throw usage(`--at: expected latitude,longitude in degrees, for example 38.97,-92.33, found "${at}"`);
  return parsed.data;
}

export function momentOf(now: Arguments['options']['now']): number | null {
  if (typeof now !== 'string') return null;
  const ms = parseTypedInstantMs(now);
  if (ms === null)
    throw usage(
      `--now: expected an RFC 3339 instant with offset, for example 2026-03-02T05:10:00-06:00, found "${now}"`,
    );
  return ms;
}

/** The forecast of the site: from a file, from the demo's stand-in, or live. */
export async function holdForecast(
  args: Arguments,
  settings: Settings,
  terminal: Terminal,
): Promise<HeldForecast> {
  const { options } = args;
  const { config, fields, demo, nowMs } = settings;
  const place = { latDeg: fields.at[0], lonDeg: fields.at[1] };
  if (typeof options.forecast === 'string') {
    const alerts = typeof options.alerts === 'string' ? options.alerts : null;
    return readSaved(options.forecast, alerts, { place, timeZone: fields.timeZone ?? null }, nowMs);
  }
  if (typeof options.alerts === 'string') throw usage('--alerts goes with --forecast');
  const standIn = demo ? await startStandIn({ nowMs: () => nowMs }) : null;
  const baseUrl = standIn?.baseUrl ?? config.sources.nws.baseUrl;
  // A live pull goes by the real clock, whatever moment is judged.
  const clock = typeof options.now === 'string' && !demo ? terminal.nowMs : () => nowMs;
  const nws = { ...config.sources.nws, baseUrl };
  const source = liveSource({
    config: { ...config, sources: { nws } },
    nowMs: clock,
    log: logTo(terminal),
    sleep: terminal.sleep,
    ownSource: standIn !== null,
  });
  try {
    const { forecast, alerts, point } = await source.pull(place);
    return { forecast, alerts, pointTimeZone: point.timeZone };
  } finally {
    await source.close();
    await standIn?.close();
  }
}

export function readerOf(
  { options }: Arguments,
  config: Config,
  timeZone: string,
  day: LocalDate | null,
  demo: boolean,
): Wanted {
  const units = choice('units', options.units, ['us', 'si'] as const) ?? config.preferences.units;
  const language = choice('lang', options.lang, ['en', 'es'] as const) ?? config.preferences.language;
  return { reader: { units, language, timeZone, day }, demo, madeFrom: null };
}

function choice<T extends string>(
  name: string,
  given: string | boolean | undefined,
  known: readonly T[],
): T | null {
  if (given === undefined) return null;
  const found = known.find((k) => k === given);
  if (!found) throw usage(`--${name}: expected ${known.join(' or ')}, found "${given}"`);
  return found;
}

/** The local date asked for with --day. */
export function dayOf({ options }: Arguments, { fields, nowMs }: Settings, timeZone: string): LocalDate {
  const day = options.day ?? 'today';
  if (typeof day !== 'string' || (day !== 'today' && day !== 'tomorrow' && !isLocalDate(day))) {
    throw usage(`--day: expected today, tomorrow or YYYY-MM-DD, found "${day}"`);
  }
  return dateOf(day, nowMs, fields, timeZone);
}

export function planOf(settings: Settings, held: HeldForecast, firstDate: LocalDate, dayCount: number): Plan {
  const { config, fields, nowMs } = settings;
  const parts = partsOf(config, fields);
  if (parts === null) throw usage(`no limit set "${fields.limits}"`);
  return planHeld(parts, held, nowMs, firstDate, dayCount);
}

export const zoneOf = ({ fields }: Settings, held: HeldForecast): string =>
  fields.timeZone ?? held.pointTimeZone;
