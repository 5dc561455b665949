// Invented days at an invented pit, planned by the core, as the pages get them. No test in here.

import { buildSite } from '#config/build-site.ts';
import { parseConfig } from '#config/load.ts';
import { makePlan } from '#core/plan/make-plan.ts';
import type { Plan } from '#core/plan/plan.ts';
import type { Element } from '#core/series/elements.ts';
import type { Forecast } from '#core/series/forecast.ts';
import { type Column, makeSeries } from '#core/series/hourly-series.ts';
import type { AlertsSeen, OfficialAlert } from '#core/series/official-alert.ts';
import {
  addDays,
  clockPartsAt,
  clockTimeMs,
  localDateAt,
  rfc3339,
  startOfDayMs,
} from '#core/units/local-time.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import { hoursAnswer } from '#publish/answers/hours.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import type { HomeView } from '#publish/page/home-page.ts';
import type { SiteView } from '#publish/page/site-page.ts';
import type { ForecastState } from '#publish/wire.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';
import { textOf } from './invented-text.ts';
import { GALE, GOOD, GUSTY_NOON, STILL, type Weather } from './invented-weather.ts';

export const ZONE = 'America/New_York';

const CONFIG = `
contact: office@quillpatch.example
limitSets:
  lowland:
    - { element: windSpeed, atLeast: { hold: 4 mph }, atMost: { hold: 12 mph, stop: 15 mph }, source: our rule }
    - { element: windGust, atMost: { hold: 20 mph, stop: 25 mph }, source: our rule }
    - { element: relativeHumidity, atLeast: { hold: 30 %, stop: 20 % }, atMost: { hold: 80 % }, source: our rule }
    - { element: mixingHeight, atLeast: { hold: 1640 ft }, source: permit Q-17 }
    - { element: probabilityOfThunder, atMost: { hold: 15 %, stop: 30 % }, source: our rule }
    - { clock: { lightFrom: "08:00", lastChargeBy: "15:00", outBy: "17:00" }, source: permit Q-17 }
sites:
  - id: heron-bend-2
    name: NAME
    at: [LATLON]
    timeZone: ZONE
    limits: lowland
    shift: SHIFT
    protected:
      - { name: PLACE, bearing: [80, 140], within: 0.5 mi }
`;

export interface Story {
  /** Local date and clock time of the reader. */
  readonly now: string;
  readonly clock: string;
  readonly day: string;
  readonly weather?: Weather;
  /** Per date, in place of `weather`. */
  readonly others?: Readonly<Record<string, Weather>>;
  readonly ageMin?: number;
  readonly alerts?: readonly OfficialAlert[];
  readonly name?: string;
  readonly place?: string;
  readonly forecastDays?: number;
  readonly zone?: string;
  readonly language?: Language;
  readonly units?: UnitSystem;
  readonly demo?: boolean;
  /** Where the pit is, and when people are there, as configured. */
  readonly at?: string;
  readonly shift?: string;
}

const SHIFT =
  '{ days: [mon, tue, wed, thu, fri, sat], from: "07:00", to: "17:30", holidays: ["2026-11-26"] }';

export function planOf(story: Story, firstDate: string, dayCount: number): Plan {
  const zone = story.zone ?? ZONE;
  const nowMs = clockTimeMs(story.now, story.clock, zone);
  const text = CONFIG.replace('NAME', JSON.stringify(story.name ?? 'Heron Bend, pit 2'))
    .replace('PLACE', JSON.stringify(story.place ?? 'mill road'))
    .replace('ZONE', zone)
    .replace('SHIFT', story.shift ?? SHIFT)
    .replace('LATLON', story.at ?? '32.9, -83.6');
  const config = parseConfig(text, 'invented.yaml');
  const fields = config.sites[0];
  const built = fields && buildSite(config, fields, zone);
  if (!built) throw new Error('the invented configuration has no site');
  const forecast = forecastOf(story, nowMs - (story.ageMin ?? 47) * MINUTE_MS, nowMs, zone);
  const alerts: AlertsSeen = {
    fetchedAtMs: nowMs - 4 * MINUTE_MS,
    complete: true,
    alerts: story.alerts ?? [],
  };
  return makePlan({ ...built, forecast, alerts, nowMs, firstDate, dayCount });
}

function forecastOf(story: Story, issuedAtMs: number, nowMs: number, zone: string): Forecast {
  const startMs = startOfDayMs(addDays(story.now, -1), zone);
  const hours = (story.forecastDays ?? 8) * 24;
  const columns: Partial<Record<Element, Column>> = {};
  for (const element of Object.keys(GOOD) as Element[]) {
    const values = Float64Array.from({ length: hours }, (_, h) =>
      valueAt(story, element, startMs + h * HOUR_MS, zone),
    );
    columns[element] = {
      values,
      missing: values.map((v) => (Number.isNaN(v) ? 1 : 0)) as unknown as Uint8Array,
      derived: null,
    };
  }
  const series = makeSeries(startMs, hours, columns);
  const made = {
    source: 'nws',
    documentId: 'invented',
    cell: 'ZZZ 1,2',
    issuedAtMs,
    fetchedAtMs: nowMs - 30 * MINUTE_MS,
  };
  return { ...made, series, hazards: [], weather: [], faults: [] };
}

function valueAt(story: Story, element: Element, ms: number, zone: string): number {
  const { date, hour } = clockPartsAt(ms, zone);
  const weather = story.others?.[date] ?? story.weather ?? GOOD;
  return weather[element]?.(hour) ?? Number.NaN;
}

export function stateOf(story: Story): ForecastState {
  const zone = story.zone ?? ZONE;
  const nowMs = clockTimeMs(story.now, story.clock, zone);
  const ageMin = story.ageMin ?? 47;
  const at = (ms: number) => rfc3339(ms, zone);
  const state = stateAt(ageMin);
  const fault =
    state === 'stale'
      ? { code: 'source_unreachable', message: 'the forecast source did not answer', at: at(nowMs) }
      : null;
  return {
    state,
    madeAt: at(nowMs - ageMin * MINUTE_MS),
    ageMin,
    checkedAt: at(nowMs),
    nextDueAt: at(nowMs + 20 * MINUTE_MS),
    alertsReadAt: at(nowMs),
    fault,
  };
}

const readerOf = (story: Story, day: string) => ({
  language: story.language ?? 'en',
  units: story.units ?? 'us',
  timeZone: story.zone ?? ZONE,
  day,
});

function dayAnswers(story: Story, firstDate: string, dayCount: number) {
  const plan = planOf(story, firstDate, dayCount);
  const wanted = (day: string) => ({
    reader: readerOf(story, day),
    demo: story.demo ?? true,
    madeFrom: null,
  });
  return plan.days.map((d) => dayPlanAnswer(plan, d, wanted(d.day.date)));
}

/** As the page route puts it together. */
export function siteView(story: Story): SiteView {
  const zone = story.zone ?? ZONE;
  const nowMs = clockTimeMs(story.now, story.clock, zone);
  const today = localDateAt(nowMs, zone);
  const plan = planOf(story, story.day, 1);
  const around = planOf(story, today, 1);
  const wanted = { reader: readerOf(story, story.day), demo: story.demo ?? true, madeFrom: null };
  const day = plan.days[0];
  if (!day) throw new Error('no day');
  const nowWindow = windowAt(around.windows, nowMs);
  return {
    forecast: stateOf(story),
    nowMs,
    now:
      (nowWindow &&
        windowsAnswer(around, nowWindow, { ...wanted, reader: readerOf(story, today) }).windows[0]) ??
      null,
    live: null,
    silences: [],
    reading: null,
    canPlay: false,
    plan: dayPlanAnswer(plan, day, wanted),
    windows: windowsAnswer(plan, day.day, wanted),
    hours: hoursAnswer(plan, day.day, wanted),
    keepOff: plan.site.protected.map((p) => ({
      name: p.name,
      fromDeg: p.fromBearingDeg,
      toDeg: p.toBearingDeg,
    })),
    text: textOf(story, planOf(story, story.day, 1)),
    week: dayAnswers(story, today, 7),
    reader: { language: story.language ?? 'en', units: story.units ?? 'us' },
    dayLabel: labelOf(story.day, today),
    query: { day: story.day },
  };
}

function labelOf(day: string, today: string): SiteView['dayLabel'] {
  if (day === today) return 'today';
  return day === addDays(today, 1) ? 'tomorrow' : null;
}

function stateAt(ageMin: number): ForecastState['state'] {
  if (ageMin >= 840) return 'stale';
  return ageMin >= 480 ? 'aging' : 'fresh';
}

/** One row of the list of sites. */
export function homeRow(id: string, story: Story): HomeView['sites'][number] {
  const [today, tomorrow] = dayAnswers(story, story.now, 2);
  const name = story.name ?? 'Heron Bend, pit 2';
  return {
    id,
    name,
    timeZone: ZONE,
    forecast: stateOf(story),
    live: null,
    now: siteView(story).now,
    today: today ?? null,
    tomorrow: tomorrow ?? null,
    needs: [],
    moved: [],
    crew: undefined,
  };
}

/** A list of these rows, with nothing to count. */
export function homeOf(sites: HomeView['sites'], more: Partial<HomeView> = {}): HomeView {
  const none = { go: 0, hold: 0, stop: 0, unsaid: 0 };
  const count = sites.length;
  return {
    sites,
    page: 1,
    pages: 1,
    head: {
      counts: { total: count, today: none, tomorrow: none, needs: 0, burning: 0, changed: 0 },
      evening: null,
      found: count,
      from: 1,
      to: count,
    },
    asOf: '2026-11-25T10:10:00-05:00',
    demo: true,
    reader: { language: 'en', units: 'us' },
    query: {},
    ...more,
  };
}

export const NO_FORECAST: ForecastState = {
  state: 'none',
  madeAt: null,
  ageMin: null,
  checkedAt: null,
  nextDueAt: null,
  alertsReadAt: null,
  fault: {
    code: 'source_unreachable',
    message: 'the forecast source did not answer in 10 s',
    at: '2026-11-24T16:50:00-05:00',
  },
};

export function alert(event: string, headline: string, date: string): OfficialAlert {
  const fromMs = clockTimeMs(date, '06:00', ZONE);
  const span = { fromMs, toMs: fromMs + 14 * HOUR_MS, sentMs: fromMs - HOUR_MS };
  return { id: 'invented-1', event, ...span, senderName: 'Weather office Z', headline, possible: false };
}

const EVENING = { now: '2026-11-24', clock: '17:02', day: '2026-11-25' } as const;

/** The days that the tests and the eyes look at. */
export const STORIES = {
  go: EVENING,
  holdLifts: { now: '2026-11-25', clock: '07:40', day: '2026-11-25' },
  over: { now: '2026-11-25', clock: '14:20', day: '2026-11-25' },
  pause: { ...EVENING, weather: GUSTY_NOON },
  holdDay: { ...EVENING, weather: STILL },
  stopDay: {
    ...EVENING,
    others: { '2026-11-25': GALE },
    alerts: [alert('Red Flag Warning', 'Red flag warning for the lowland', '2026-11-25')],
  },
  stale: { now: '2026-11-25', clock: '09:10', day: '2026-11-25', ageMin: 15 * 60 },
  tooFar: { ...EVENING, day: '2026-11-30', forecastDays: 4 },
} as const satisfies Record<string, Story>;
