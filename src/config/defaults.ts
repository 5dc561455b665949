// Defaults of everything that a site may leave out. Common practice, no source, where no other is named.

import type {
  AlertVerdict,
  BurnTimes,
  DaylightMargins,
  QualitySettings,
  SmokeSettings,
  WindShiftSettings,
} from '#core/site/site.ts';

const KNOT_MPS = 1852 / 3600;

export const DEFAULT_DAYLIGHT: DaylightMargins = { lightUpAfterSunriseMin: 60, outBeforeSunsetMin: 60 };

export const DEFAULT_BURN: BurnTimes = {
  warmUpMin: 10,
  kindlingMin: 20,
  burnDownMin: 60,
  coverMin: 30,
  shortestRunMin: 120,
};

export const DEFAULT_SMOKE: SmokeSettings = { reachM: 3218.688, unsureBelowMps: 3 * KNOT_MPS };

/** A place's sector is widened by this on both sides: forecast directions come in steps of 10° and err by more. */
export const DEFAULT_MARGIN_DEG = 20;

export const DEFAULT_WIND_SHIFT: WindShiftSettings = {
  atLeastDeg: 45,
  atLeastMps: 5 * KNOT_MPS,
  withinHours: 2,
};

export const DEFAULT_QUALITY: QualitySettings = {
  warnAfterMin: 480,
  holdAfterMin: 840,
  alertsHoldAfterMin: 120,
};

/**
 * Stations. Calm at an airport is below 3 kt (FMH-1 chapter 5): the bound lies between 2 and 3 kt, since the same wind is
 * told in knots and in rounded km/h. Elsewhere it is the start of a usual anemometer (from memory, EPA-454/R-99-005: 0.5 m/s).
 */
export const DEFAULT_STATIONS = {
  withinM: 48_280.32, // 30 mi
  withinHeightM: 304.8, // 1,000 ft
  most: 2,
  /** No farther than this from the pit an instrument is on site. */
  onSiteM: 500,
  periodMin: { person: 60, instrument: 5, nws: 60 },
  calmBelowMps: { nws: 2.5 * KNOT_MPS, posted: 0.5, mqtt: 0.5, nmea: 0.5 },
} as const;

/** Official events and what they mean for a pit; any other event is advice. */
export const DEFAULT_ALERTS: Readonly<Record<string, AlertVerdict>> = {
  'Red Flag Warning': 'stop',
  'High Wind Warning': 'stop',
  'Severe Thunderstorm Warning': 'stop',
  'Tornado Warning': 'stop',
  'Extreme Wind Warning': 'stop',
  'Hurricane Warning': 'stop',
  'Tropical Storm Warning': 'stop',
  'Dust Storm Warning': 'stop',
  'Fire Warning': 'stop',
  'Extreme Fire Danger': 'stop',
  'Evacuation Immediate': 'stop',
  'Fire Weather Watch': 'hold',
  'Wind Advisory': 'hold',
  'Air Quality Alert': 'hold',
  'Air Stagnation Advisory': 'hold',
  'Dense Smoke Advisory': 'hold',
  'High Wind Watch': 'hold',
  'Severe Thunderstorm Watch': 'hold',
  'Tornado Watch': 'hold',
  'Blowing Dust Advisory': 'hold',
  'Air Quality Warning': 'hold',
};
