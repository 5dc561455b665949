// A glance at an invented pit that burns, with everything on it. No test in here.

import type { GlanceView } from '#publish/page/glance-view.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';

const at = (clock: string): string => `2026-11-25T${clock}:00-05:00`;

const LIVE: NowAnswer = {
  site: 'heron-bend-2',
  name: 'Heron Bend, pit 2',
  timeZone: 'America/New_York',
  asOf: at('12:10'),
  verdict: 'stop',
  unknown: false,
  whatToDo: 'No fire: put it down and cover.',
  text: 'Smoke goes to mill road: observed wind northwest 9 mph gust 14 mph at 12:08 pm (mast).',
  planVerdict: 'go',
  burn: {
    id: 'burn-1',
    site: 'heron-bend-2',
    state: 'charging',
    openedAt: at('09:05'),
    litAt: at('09:05'),
    since: at('09:40'),
    closedAt: null,
    incidentRef: null,
    briefedFrom: 210,
    briefings: [],
    taps: [
      {
        ...{ id: 'tap-1', tap: 'lit', tappedAt: at('09:05'), receivedAt: at('09:05'), by: 'Ana' },
        ...{ from: 'phone', corrects: null, withdraws: false, note: '', counts: true },
      },
    ],
  },
  lightUp: at('09:00'),
  lastCharge: at('13:45'),
  coveredBy: at('15:00'),
  observation: null,
  conditions: [],
  silences: [],
  notices: [],
  forecastMadeAt: at('11:59'),
  goodUntil: at('12:20'),
  demo: true,
  caution: '',
};

export const glanceView = (language: 'en' | 'es', scripts: readonly string[] = []): GlanceView => ({
  live: LIVE,
  toAnswer: ['message-1'],
  others: [],
  ended: [],
  covered: null,
  taps: { form: 'abcdefghijkl', by: 'Ana', key: 'crew phone' },
  reader: { language, units: 'us' },
  query: { lang: language },
  phone: {
    writtenMs: Date.parse(LIVE.asOf),
    voidAtMs: null,
    timeZone: LIVE.timeZone,
    language,
    reader: 'abcdefghijkl',
    scripts,
  },
});
