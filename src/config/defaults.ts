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
