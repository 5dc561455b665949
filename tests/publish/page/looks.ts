// Days that somebody should look at: each is drawn, and held to the layout rules. No test in here.

import { STORIES, type Story } from './invented-days.ts';
import { GOOD, STILL, type Weather } from './invented-weather.ts';

const MPH = 0.44704;
const EVERY_DAY = '{ days: [mon, tue, wed, thu, fri, sat, sun], from: "07:00", to: "17:30" }';

/** No mixing height at all, no gusts for two hours, no direction for one. */
const HOLES: Weather = {
  ...GOOD,
  mixingHeight: () => Number.NaN,
  windGust: (h) => (h === 11 || h === 12 ? Number.NaN : 9 * MPH),
  windDirection: (h) => (h === 10 ? Number.NaN : 220),
};

/** A stop at noon parts the day in two. */
const PARTED: Weather = {
  ...GOOD,
  windGust: (h) => (h === 12 ? 27 : 12) * MPH,
  windSpeed: () => 8 * MPH,
  relativeHumidity: (h) => (h < 7 ? 88 : 55),
  mixingHeight: () => 1200,
};

/** A wind that goes round the compass, through the sector of the road and through north. */
const TURNING: Weather = {
  ...GOOD,
  windDirection: (h) => (h < 11 ? 190 : 190 + (h - 10) * 28) % 360,
  windSpeed: (h) => (h === 12 ? 1.5 : 8) * MPH,
};

const LONG =
  'Hackberry Bottom and Old Sawmill Reclamation Tract, northeast disposal pit number twenty-two (temporary)';

export const LOOKS = {
  go: STORIES.go,
  goToday: { ...STORIES.holdLifts, clock: '09:40' },
  hold: STORIES.holdDay,
  stop: STORIES.stopDay,
  stale: STORIES.stale,
  pause: STORIES.pause,
  late: { ...STORIES.over, clock: '13:15' },
  missingLayer: { ...STORIES.go, weather: HOLES },
  twoWindows: { now: '2026-06-09', clock: '17:02', day: '2026-06-10', weather: PARTED },
  noWindow: { ...STORIES.go, weather: STILL, shift: EVERY_DAY },
  tooFar: STORIES.tooFar,
  dayOff: { ...STORIES.go, day: '2026-11-26' },
  turning: { ...STORIES.go, weather: TURNING },
  spring: { now: '2026-03-07', clock: '17:02', day: '2026-03-08', shift: EVERY_DAY },
  /** A Sunday without a shift: all its hours are drawn. */
  autumn: { now: '2026-10-31', clock: '17:02', day: '2026-11-01' },
  farNorthSummer: {
    now: '2026-06-20',
    clock: '17:02',
    day: '2026-06-21',
    at: '64.8, -147.7',
    zone: 'America/Anchorage',
    shift: '{ days: [mon, tue, wed, thu, fri, sat, sun], from: "00:00", to: "00:00" }',
  },
  farNorthWinter: {
    now: '2026-12-20',
    clock: '17:02',
    day: '2026-12-21',
    at: '64.8, -147.7',
    zone: 'America/Anchorage',
    shift: EVERY_DAY,
  },
  longNames: {
    ...STORIES.stopDay,
    name: LONG,
    place: 'Saint Bartholomew Regional Long-Term Care and Rehabilitation Center',
  },
  metric: { ...STORIES.go, units: 'si' },
} as const satisfies Record<string, Story>;
