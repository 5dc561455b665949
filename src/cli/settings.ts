// What the commands about a site share: configuration, site, forecast (live, demo or saved), reader.

import type { SiteParts } from '#config/build-site.ts';
import { readConfigFile } from '#config/load.ts';
import type { Config } from '#config/schema.ts';
import { siteFields } from '#config/sites.ts';
import type { Plan } from '#core/plan/plan.ts';
import { placeKeyAt } from '#core/site/place-key.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import { isLocalDate, parseTypedInstantMs } from '#core/units/local-time.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { ServiceError } from '#errors.ts';
import type { HeldForecast } from '#memory/site-state.ts';
import type { Wanted } from '#publish/answers/head.ts';
import { liveSource } from '#service/live-source.ts';
import { dateOf, planHeld } from '#service/plan-held.ts';
import { type Arguments, usage } from './arguments.ts';
import { configFileOf } from './config-file.ts';
import { type InForce, inForce } from './in-force.ts';
import { readSaved } from './saved.ts';
import { logTo, type Terminal } from './terminal.ts';

export interface Settings {
  readonly config: Config;
  /** The site with its limits and orders. */
  readonly parts: SiteParts;
  /** What the service remembers of the alerts of the place; null for nothing. */
  readonly alertsBefore: unknown;
  readonly demo: boolean;
  readonly nowMs: number;
}

/** Throws ServiceError `usage`, `config_…`, `store_…`. */
export async function readSettings(args: Arguments, terminal: Terminal): Promise<Settings> {
  const { options, words } = args;
  if (words.length > 1) throw usage(`expected one site, found "${words.join(' ')}"`);
  const read = readConfigFile(configFileOf(args, terminal));
  const nowMs = momentOf(options.now) ?? terminal.nowMs();
  const at = typeof options.at === 'string' ? options.at : null;
  if (at !== null && words.length > 0) throw usage('expected either a site or --at, not both');
  // A configured site has its own limits; another set asked for and not used would mislead.
  if (at === null && options.limits !== undefined) throw usage('--limits goes with --at');
  const { config } = read;
  const known = await inForce(args, read, terminal);
  try {
    const parts = at === null ? namedSite(known, words[0]) : placeSite(known, at, options.limits);
    if (at !== null) terminal.err(bareOf(parts));
    const alertsBefore = await known.alertsBefore(placeKeyAt(parts.fields.at));
    return { config, parts, alertsBefore, demo: options.demo === true, nowMs };
  } finally {
    await known.close();
  }
}

function namedSite({ sites, broken }: InForce, id: string | undefined): SiteParts {
  const ids = [...sites.keys(), ...broken.keys()];
  const wanted = id === undefined && ids.length === 1 ? ids[0] : id;
  const known = ids.join(', ');
  if (wanted === undefined) throw usage(`which site? There are: ${known}`);
  const found = sites.get(wanted);
  if (found) return found;
  const why = broken.get(wanted);
  if (why !== undefined) throw new ServiceError('config_invalid', `site ${wanted} cannot be judged: ${why}`);
  throw usage(`no site "${wanted}"; there are: ${known || 'none'}`);
}

/** A place that is in no configuration, on an all-week shift from sunrise to sunset unless the limits say more. */
function placeSite(known: InForce, at: string, limits: Arguments['options']['limits']): SiteParts {
  const set = limitSetOf(known, limits);
  const numbers = at.split(',').map((text) => (text.trim() === '' ? Number.NaN : Number(text)));
  const noSet = () => usage(`no limit set "${set}"; there are: ${known.limitSets.join(', ')}`);
  if (!known.limitSets.includes(set)) throw noSet();
  const fields = {
    id: 'here',
    name: at,
    at: numbers,
    limits: set,
    shift: { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '00:00', to: '00:00' },
  };
  const parsed = siteFields.safeParse(fields);
  if (!parsed.success)
    throw usage(`--at: expected latitude,longitude in degrees, for example 38.97,-92.33, found "${at}"`);
  const parts = known.at(parsed.data);
  if (parts === null) throw noSet();
  return parts;
}

/** Of several nobody is taken unasked: the first might be the laxest. */
function limitSetOf({ limitSets }: InForce, asked: Arguments['options']['limits']): string {
  if (typeof asked === 'string') return asked;
  const [only, ...others] = limitSets;
  if (only === undefined) throw usage('--at needs a limit set, and there is none');
  if (others.length > 0) throw usage(`--at needs --limits; there are: ${limitSets.join(', ')}`);
  return only;
}

const bareOf = ({ fields }: SiteParts): string =>
  `A place by --at is judged by limit set "${fields.limits}", orders, alerts and daylight alone: it has no protected places and no shift.`;

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
  const { config, parts, alertsBefore, demo, nowMs } = settings;
  const { fields } = parts;
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
    alertsBefore: new Map([[placeKeyAt(fields.at), alertsBefore]]),
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
export function dayOf({ options }: Arguments, { parts, nowMs }: Settings, timeZone: string): LocalDate {
  const day = options.day ?? 'today';
  if (typeof day !== 'string' || (day !== 'today' && day !== 'tomorrow' && !isLocalDate(day))) {
    throw usage(`--day: expected today, tomorrow or YYYY-MM-DD, found "${day}"`);
  }
  return dateOf(day, nowMs, parts.fields, timeZone);
}

export const planOf = (
  { parts, nowMs }: Settings,
  held: HeldForecast,
  firstDate: LocalDate,
  dayCount: number,
): Plan => planHeld(parts, held, nowMs, firstDate, dayCount);

export const zoneOf = ({ parts }: Settings, held: HeldForecast): string =>
  parts.fields.timeZone ?? held.pointTimeZone;
