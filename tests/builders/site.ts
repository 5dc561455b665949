// An invented site, whole and plain: works 07:00-17:00 every day, may burn by night, has nothing to protect.

import type { ProtectedPlace, Shift, Site } from '#core/site/site.ts';
import { DAY_NAMES, type DayName } from '#core/units/local-time.ts';
import { CHICAGO } from './time.ts';

export const shiftOf = (
  from: string,
  to: string,
  days: readonly DayName[] = DAY_NAMES,
  holidays: readonly string[] = [],
): Shift => ({ days, from, to, holidays });

export const PLAIN_SITE: Site = {
  id: 'quarry-field',
  name: 'Quarry field, pit 1',
  place: { latDeg: 40.5, lonDeg: -90.1 },
  timeZone: CHICAGO,
  shifts: [shiftOf('07:00', '17:00')],
  daylight: null,
  burn: { warmUpMin: 10, kindlingMin: 20, burnDownMin: 60, coverMin: 30, shortestRunMin: 120 },
  protected: [],
  smoke: { reachM: 3000, unsureBelowMps: 1.5 },
  windShift: { atLeastDeg: 45, atLeastMps: 2.5, withinHours: 2 },
  quality: { warnAfterMin: 480, holdAfterMin: 840, alertsHoldAfterMin: 120 },
  gustFactor: null,
  orders: [],
  alertVerdicts: {
    'Red Flag Warning': 'stop',
    'High Wind Warning': 'stop',
    'Severe Thunderstorm Warning': 'stop',
    'Tornado Warning': 'stop',
    'Fire Weather Watch': 'hold',
    'Wind Advisory': 'hold',
    'Air Quality Alert': 'hold',
    'Air Stagnation Advisory': 'hold',
    'Dense Smoke Advisory': 'hold',
  },
};

export const siteWith = (changes: Partial<Site>): Site => ({ ...PLAIN_SITE, ...changes });

/** A school that lies to the east: smoke of a west wind (from 270) goes to 90. */
export const EAST_SCHOOL: ProtectedPlace = {
  name: 'east school',
  fromBearingDeg: 80,
  toBearingDeg: 110,
  distanceM: 800,
  marginDeg: 20,
  verdict: 'stop',
};
