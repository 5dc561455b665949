// Records of the watch with everything filled in, to be changed where a test needs it.

import type { Answer } from '#core/notices/answer.ts';
import type { Delivery } from '#core/notices/delivery.ts';
import type { Message } from '#core/notices/message.ts';
import type { Notice } from '#core/notices/notice.ts';
import type { Silence } from '#core/notices/silence.ts';
import { HOUR_MS } from '#core/units/time.ts';
import type { Burn, BurnTap } from '#core/watch/burn.ts';
import type { WindBriefing } from '#core/watch/wind-briefing.ts';
import type { KeptDayText, KeptObservation, WatchPatch } from '#store/watch/records.ts';
import { noticeMessage, transitionOf } from './contacts.ts';
import { EIGHT_MS, gust, SITE, watched } from './notices.ts';
import { auditOf, eventOf } from './store.ts';

export const tapOf = (id: string, change: Partial<BurnTap> = {}): BurnTap => ({
  id,
  burn: 'b1',
  tap: 'lit',
  tappedAtMs: EIGHT_MS,
  receivedAtMs: EIGHT_MS + 1000,
  by: 'Ana',
  from: 'phone',
  corrects: null,
  withdraws: false,
  note: '',
  ...change,
});

export const burnOf = (id: string, change: Partial<Burn> = {}): Burn => ({
  id,
  site: SITE,
  state: 'lit',
  openedAtMs: EIGHT_MS,
  litAtMs: EIGHT_MS,
  sinceMs: EIGHT_MS,
  closedAtMs: null,
  briefedFromDeg: 187.5,
  ...change,
});

export const observationOf = (
  observedAtMs: number,
  change: Partial<KeptObservation> = {},
): KeptObservation => ({
  station: 'mast',
  observedAtMs,
  revision: 0,
  receivedAtMs: observedAtMs + 500,
  wind: { kind: 'blowing', fromDeg: 187.5, speedMps: 3.1 },
  windHeightM: 3,
  windAveragingS: 120,
  gustMps: null,
  relativeHumidityPct: 41.5,
  temperatureC: 12.25,
  dewPointC: null,
  pressurePa: null,
  thunder: null,
  windShiftAtMs: null,
  quality: 'unverified',
  corrects: false,
  raw: 'mast 12.3 °C ö\u2028',
  ...change,
});

export const deliveryOf = (message: string, change: Partial<Delivery> = {}): Delivery => ({
  message,
  site: SITE,
  contact: 'ana',
  step: 0,
  way: 0,
  repeat: 0,
  channel: 'text',
  to: '+15550100',
  asked: true,
  parts: [0],
  urgency: 0,
  dueAtMs: EIGHT_MS,
  notBeforeMs: null,
  validUntilMs: EIGHT_MS + HOUR_MS,
  triedAtMs: null,
  outcome: null,
  settledAtMs: null,
  detail: null,
  ...change,
});

export const answerOf = (id: string, message: string, change: Partial<Answer> = {}): Answer => ({
  id,
  message,
  site: SITE,
  contact: 'ana',
  said: 'got-it',
  via: 'digit',
  atMs: EIGHT_MS + 60_000,
  receivedAtMs: EIGHT_MS + 61_000,
  ...change,
});

export const briefingRow = (message: string, change: Partial<WindBriefing> = {}): WindBriefing => ({
  id: `answer ${message}`,
  burn: 'b1',
  fromDeg: 291.25,
  observedAtMs: EIGHT_MS + 30_000,
  by: 'ana',
  atMs: EIGHT_MS + 60_000,
  message,
  ...change,
});

export const silenceOf = (id: string, change: Partial<Silence> = {}): Silence => ({
  id,
  site: SITE,
  code: null,
  fromMs: EIGHT_MS,
  untilMs: EIGHT_MS + HOUR_MS,
  reason: 'the sensor is being moved',
  by: 'Ana',
  role: 'office',
  endedAtMs: null,
  endedBy: null,
  ...change,
});

export const dayTextOf = (message: string, date = '2026-03-02'): KeptDayText => ({
  site: SITE,
  date,
  kind: 'evening',
  atMs: EIGHT_MS,
  message,
  day: {
    date,
    changes: null,
    day: { date, verdict: 'go', cannotSay: false, times: null, reasons: [], windows: [] },
  },
});

/** What stands after a gust beyond its limit at one moment, with its transition and the message of it. */
export function raisedAt(
  site: string,
  id: string,
  atMs = EIGHT_MS,
): { readonly notice: Notice; readonly message: Message; readonly patch: Omit<WatchPatch, 'replaces'> } {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  const [made] = w.notices;
  if (made === undefined) throw new Error('it is raised');
  const key = `${site} observed-beyond-limit windGust`;
  const episode = `${id}`;
  const notice = { ...made, key, site, episode, steppedAtMs: atMs };
  const transition = { ...transitionOf(), notice: key, site, episode, atMs };
  const message = noticeMessage([transition], { id, site, atMs, validUntilMs: atMs + HOUR_MS });
  return {
    notice,
    message,
    patch: { site, notices: [notice], transitions: [transition], messages: [message] },
  };
}

/** One of everything that a look at a site may leave behind. */
export function lookOf(site: string, id: string): Omit<WatchPatch, 'replaces'> {
  const { patch } = raisedAt(site, id);
  return {
    ...patch,
    judgedAtMs: EIGHT_MS + 7,
    conditions: [gust('unknown', 'stop'), { ...gust('false', 'hold'), subject: 'windSpeed', asOfMs: null }],
    taps: [
      tapOf(`tap ${id}`),
      tapOf(`later ${id}`, { tap: 'charging', tappedAtMs: EIGHT_MS + 5, note: 'ö\u2028' }),
    ],
    burns: [burnOf('b1', { site })],
    observations: [observationOf(EIGHT_MS), observationOf(EIGHT_MS + 600_000, { wind: { kind: 'calm' } })],
    deliveries: [deliveryOf(id, { site }), deliveryOf(id, { site, contact: 'ben', way: 1 })],
    answers: [answerOf(`answer ${id}`, id, { site })],
    briefings: [briefingRow(id)],
    silences: [silenceOf(`silence ${id}`, { site })],
    optOuts: [
      {
        organisation: 'fern-hollow',
        contact: 'ana',
        address: '+15550100',
        optedOutAtMs: EIGHT_MS,
        word: 'BAJA',
      },
    ],
    dayTexts: [{ ...dayTextOf(id), site }],
    events: [eventOf(site)],
    audit: [auditOf({ what: 'opted-out' })],
  };
}
