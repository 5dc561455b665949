// The weather of one local hour of the demonstration: which story its date reads, and the small variations by date.
// No chance in it: the same instant at the same site and now always reads the same.

import { addDays, clockPartsAt, daysBetween, type LocalDate, localDateAt } from '#core/units/local-time.ts';
import { floorToHour } from '#core/units/time.ts';
import { type DayStory, FAR_DAYS, NEAR_DAYS, type StoryName } from './day-stories.ts';
import { vary } from './vary.ts';

export interface HourWeather {
  readonly windKt: number;
  readonly gustKt: number;
  readonly fromDeg: number;
  readonly humidityPct: number;
  readonly mixingFt: number;
  readonly transportKt: number;
  readonly temperatureF: number;
  readonly dewPointF: number;
  readonly skyPct: number;
  readonly precipitationPct: number;
  /** Amount of this one hour. */
  readonly precipitationMm: number;
  readonly thunderPct: number;
  /** Scale of 1 to 6, 1 for none. */
  readonly lightning: number;
  readonly kind: 'none' | 'fog' | 'rain_showers';
}

/** How a site's hours read, given the moment at which the forecast is made. */
export function weatherAt(story: StoryName, timeZone: string, nowMs: number): (ms: number) => HourWeather {
  // Nothing may change within an hour, or a conditional request would miss it.
  const today = localDateAt(floorToHour(nowMs), timeZone);
  const days = new Map<LocalDate, DayOfSite>();
  // Every layer asks for the same hours; the local clock is the costly part.
  const hours = new Map<number, HourWeather>();
  return (ms) => {
    const known = hours.get(ms);
    if (known) return known;
    const { date, hour } = clockPartsAt(ms, timeZone);
    const day = days.get(date) ?? dayOf(story, date, today);
    days.set(date, day);
    const weather = hourOf(day, hour);
    hours.set(ms, weather);
    return weather;
  };
}

interface DayOfSite {
  readonly date: LocalDate;
  readonly story: DayStory;
  /** From this local hour on, the day runs one hour ahead of its story; 24 for never. */
  readonly aheadFrom: number;
  readonly meanF: number;
  readonly label: StoryName;
}

/** Sites are out of step in the far days, so that not all read the same. */
const FAR_OFFSET: Readonly<Record<StoryName, number>> = { turningWind: 0, lowMorning: 3, dryNorthWind: 2 };

/** The hottest time of the year, and days of a year. */
const WARMEST_DAY = 205;
const YEAR_DAYS = 365.25;

function dayOf(label: StoryName, date: LocalDate, today: LocalDate): DayOfSite {
  // Today reads what it read when it was tomorrow: midnight changes nothing of the day that begins.
  const near = date <= addDays(today, 1);
  const number = daysBetween('1970-01-01', date);
  const far = FAR_DAYS[(number + FAR_OFFSET[label]) % FAR_DAYS.length] as DayStory;
  // Every second day the gusts come an hour sooner, so that today and tomorrow differ.
  const aheadFrom = near && label === 'turningWind' && number % 2 === 1 ? 13 : 24;
  const season = Math.cos((2 * Math.PI * ((number % YEAR_DAYS) - WARMEST_DAY)) / YEAR_DAYS);
  const meanF = 62 + 16 * season + vary(`${label} ${date} mean`, 2);
  return { date, story: near ? NEAR_DAYS[label] : far, aheadFrom, meanF, label };
}

/** Share of the day's swing by local hour: coldest at 6, warmest at 15. */
const WARMTH = [
  -0.5, -0.62, -0.72, -0.82, -0.9, -0.97, -1, -0.86, -0.58, -0.24, 0.1, 0.4, 0.65, 0.84, 0.96, 1, 0.92, 0.7,
  0.42, 0.18, 0, -0.14, -0.27, -0.39,
];

function hourOf(day: DayOfSite, hour: number): HourWeather {
  const { story, meanF } = day;
  const at = (list: readonly number[]) =>
    list[Math.min(23, hour >= day.aheadFrom ? hour + 1 : hour)] as number;
  const name = `${day.label} ${day.date} ${hour}`;
  const humidityPct = Math.min(100, at(story.humidityPct) + vary(`${name} humidity`, 2));
  const temperatureF = Math.round(meanF + story.swingF * (WARMTH[hour] as number));
  const mixing = at(story.mixingFt);
  return {
    windKt: at(story.windKt),
    gustKt: at(story.gustKt),
    fromDeg: at(story.fromDeg),
    humidityPct,
    mixingFt: mixing + Math.round((mixing * vary(`${name} mixing`, 4)) / 100),
    transportKt: at(story.transportKt),
    temperatureF,
    dewPointF: Math.min(temperatureF, Math.round(dewPointF(temperatureF, humidityPct))),
    skyPct: clampPct(story.skyPct + vary(`${name} sky`, 9)),
    ...wetnessOf(story, hour),
  };
}

type Wetness = Pick<
  HourWeather,
  'precipitationPct' | 'precipitationMm' | 'thunderPct' | 'lightning' | 'kind'
>;

function wetnessOf(story: DayStory, hour: number): Wetness {
  const dry: Wetness = { precipitationPct: 0, precipitationMm: 0, thunderPct: 0, lightning: 1, kind: 'none' };
  if (story.sky === 'clear') return dry;
  if (story.sky === 'morning fog')
    return hour >= 4 && hour < 9 ? { ...dry, precipitationPct: 3, kind: 'fog' } : dry;
  const afternoon = hour >= 12 && hour < 20;
  return {
    precipitationPct: afternoon ? 70 : 40,
    precipitationMm: afternoon ? 0.762 : 0.127,
    thunderPct: afternoon ? 20 : 5,
    lightning: afternoon ? 3 : 1,
    kind: 'rain_showers',
  };
}

/** Dew point [°F] of a temperature [°F] and humidity [%]; Bolton 1980, equation 10, solved for the dew point. */
function dewPointF(temperatureF: number, humidityPct: number): number {
  const c = ((temperatureF - 32) * 5) / 9;
  const log = Math.log(humidityPct / 100) + (17.67 * c) / (c + 243.5);
  return ((243.5 * log) / (17.67 - log)) * (9 / 5) + 32;
}

const clampPct = (pct: number): number => Math.min(100, Math.max(0, pct));
