// Each code of the watch with figures as the watch gives them.

import type { ConditionCode } from '#core/watch/condition.ts';
import { at, GUST, type TransitionText } from './requests.ts';

const WIND = {
  windFromDeg: GUST.windFromDeg ?? null,
  windSpeedMps: GUST.windSpeedMps ?? null,
  gustMps: GUST.gustMps ?? null,
  station: 'pit',
};

const forecast = { basis: 'forecast', asOfMs: at('12:10') } as const;

export const CODES: Readonly<Record<ConditionCode, TransitionText>> = {
  'wind-shifted': { verdict: 'hold', figures: { ...WIND, wasFromDeg: 225, atMs: at('13:35'), what: 'ours' } },
  'wind-drifted': { verdict: 'hold', figures: { ...WIND, wasFromDeg: 225 } },
  'smoke-turned-to-place': { subject: 'School', figures: { ...WIND, place: 'School' } },
  'wind-unsteady': { verdict: 'hold', figures: WIND },
  'observed-beyond-limit': { subject: 'windGust', figures: GUST },
  'thunder-near': { figures: { atMs: at('13:40'), station: 'airport' } },
  'official-alert': {
    basis: 'order',
    figures: { what: 'Red Flag Warning', source: 'NWS Testville', atMs: at('13:00'), wasMs: at('12:00') },
  },
  'local-order': { basis: 'order', figures: { what: 'Burn ban', source: 'County fire', atMs: at('12:00') } },
  'authority-stop': {
    basis: 'order',
    figures: { what: 'Smoke on the highway', source: 'County fire', atMs: at('12:00') },
  },
  'plan-worse': { ...forecast, figures: { what: 'stop', atMs: at('15:00') } },
  'plan-moved': {
    ...forecast,
    verdict: 'go',
    subject: 'lastCharge',
    figures: { what: 'lastCharge', atMs: at('13:30'), wasMs: at('14:30') },
  },
  'plan-verdict': {
    ...forecast,
    verdict: 'hold',
    figures: { what: 'hold', wasMs: at('09:00') + 86_400_000 },
  },
  'wind-shift-ahead': {
    ...forecast,
    verdict: 'hold',
    figures: {
      windFromDeg: 315,
      wasFromDeg: 180,
      windSpeedMps: WIND.windSpeedMps,
      atMs: at('15:00'),
      place: 'School',
    },
  },
  'forecast-stale': { ...forecast, verdict: 'hold', figures: { wasMs: at('03:10') } },
  'station-silent': {
    basis: 'record',
    verdict: 'hold',
    subject: 'pit',
    figures: { station: 'pit', wasMs: at('13:10') },
  },
  'station-doubted': {
    verdict: 'hold',
    subject: 'pit',
    figures: { station: 'pit', what: 'frozen', wasMs: at('13:10') },
  },
  'reading-missing': {
    basis: 'record',
    verdict: 'hold',
    subject: 'wind',
    figures: { element: 'windDirection', station: 'pit', wasMs: at('13:10') },
  },
  'wind-unmeasured': { basis: 'record', verdict: 'hold', asOfMs: null, figures: { station: 'meter' } },
  'lit-against-plan': { basis: 'record', verdict: 'hold', figures: { what: 'stop', atMs: at('13:20') } },
  'lit-without-go': { basis: 'record', verdict: 'hold', figures: { what: 'stop', atMs: at('13:20') } },
  'last-charge-soon': { ...forecast, verdict: 'go', figures: { what: 'lastCharge', atMs: at('14:10') } },
  'last-charge-due': { ...forecast, verdict: 'hold', figures: { what: 'lastCharge', atMs: at('13:40') } },
  'cover-due': { basis: 'record', verdict: 'hold', figures: { what: 'coveredBy', atMs: at('16:00') } },
  'not-covered-by-dusk': { basis: 'record', figures: { what: 'sunset', atMs: at('17:58') } },
  'look-again': {
    basis: 'record',
    verdict: 'go',
    subject: '3',
    figures: { atMs: at('08:00'), wasMs: at('16:00', '2026-02-27') },
  },
};
