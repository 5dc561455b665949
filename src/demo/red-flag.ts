// The invented Red Flag Warning of the demonstration, in the shape of the NWS API's alerts: for fire zones only, without
// an outline, so that a query by point does not bring it; and its message expires before the event ends.

import { createHash } from 'node:crypto';
import {
  addDays,
  clockTimeMs,
  daysBetween,
  type LocalDate,
  localDateAt,
  rfc3339,
  startOfDayMs,
} from '#core/units/local-time.ts';
import { floorToHour, MINUTE_MS, type Span } from '#core/units/time.ts';
import type { DemoCell } from './cells.ts';

/** The event of one local date: 1 am to 10 pm. */
export function redFlagSpan(date: LocalDate, timeZone: string): Span {
  return { fromMs: clockTimeMs(date, '01:00', timeZone), toMs: clockTimeMs(date, '22:00', timeZone) };
}

export interface RedFlag {
  /** When the list last changed: a message came, or an event ended. */
  readonly changedMs: number;
  readonly features: readonly unknown[];
}

/** The newest message of each event that has not ended: today's and tomorrow's, each a feature of the same message. */
export function redFlagAt(cell: DemoCell, nowMs: number, baseUrl: string): RedFlag {
  const { timeZone } = cell;
  const today = localDateAt(floorToHour(nowMs), timeZone);
  const message = newestMessage(today, timeZone, nowMs);
  const endedMs = redFlagSpan(today, timeZone).toMs;
  const dates = nowMs < endedMs ? [today, addDays(today, 1)] : [addDays(today, 1)];
  return {
    changedMs: nowMs < endedMs ? message.sentMs : Math.max(message.sentMs, endedMs),
    features: dates.map((date) => featureOf(cell, date, message, baseUrl)),
  };
}

interface Message {
  readonly sentMs: number;
  /** When the message was sent that this one takes the place of. */
  readonly earlierMs: number;
  readonly expiresMs: number;
  /** First message of the day: it names tomorrow's event for the first time. */
  readonly isFirst: boolean;
}

/** Two messages a day: shortly before midnight, and in the afternoon. */
function newestMessage(today: LocalDate, timeZone: string, nowMs: number): Message {
  const nightMs = startOfDayMs(today, timeZone) - 19 * MINUTE_MS;
  const afternoonMs = clockTimeMs(today, '14:41', timeZone);
  if (nowMs >= afternoonMs) {
    const expiresMs = clockTimeMs(today, '21:45', timeZone);
    return { sentMs: afternoonMs, earlierMs: nightMs, expiresMs, isFirst: false };
  }
  const earlierMs = clockTimeMs(addDays(today, -1), '14:41', timeZone);
  return { sentMs: nightMs, earlierMs, expiresMs: clockTimeMs(today, '15:00', timeZone), isFirst: true };
}

function featureOf(cell: DemoCell, date: LocalDate, message: Message, baseUrl: string): unknown {
  const { timeZone, fireZone, gridId } = cell;
  const span = redFlagSpan(date, timeZone);
  const urn = urnOf(fireZone, date, message.sentMs);
  const url = `${baseUrl}/alerts/${urn}`;
  const isNew = message.isFirst && message.sentMs < startOfDayMs(addDays(date, -1), timeZone);
  const time = (ms: number) => rfc3339(ms, timeZone);
  return {
    id: url,
    type: 'Feature',
    geometry: null,
    properties: {
      '@id': url,
      '@type': 'wx:Alert',
      id: urn,
      areaDesc: 'Tamber Hills',
      geocode: { SAME: ['000041'], UGC: [fireZone] },
      affectedZones: [`${baseUrl}/zones/fire/${fireZone}`],
      references: isNew
        ? []
        : [referenceOf(urnOf(fireZone, date, message.earlierMs), time(message.earlierMs), baseUrl)],
      sent: time(message.sentMs),
      effective: time(message.sentMs),
      onset: time(span.fromMs),
      expires: time(message.expiresMs),
      ends: time(span.toMs),
      status: 'Actual',
      messageType: isNew ? 'Alert' : 'Update',
      category: 'Met',
      severity: 'Severe',
      certainty: 'Likely',
      urgency: 'Expected',
      event: 'Red Flag Warning',
      sender: SENDER,
      senderName: 'Demonstration Office XXV',
      headline: headlineOf(message.sentMs, span.toMs, timeZone),
      description: DESCRIPTION,
      instruction: 'An invented text for demonstration: light nothing, and put out what burns.',
      response: 'Prepare',
      parameters: {
        AWIPSidentifier: [`RFW${gridId}`],
        NWSheadline: ['INVENTED FOR DEMONSTRATION: DRY NORTH WIND OVER THE TAMBER HILLS'],
        VTEC: [
          `/O.${isNew ? 'NEW' : 'CON'}.K${gridId}.FW.W.${eventNumber(date)}.${vtecTime(span.fromMs)}-${vtecTime(span.toMs)}/`,
        ],
        eventEndingTime: [time(span.toMs)],
      },
      scope: 'Public',
      code: 'IPAWSv1.0',
      language: 'en-US',
      eventCode: { SAME: ['NWS'], NationalWeatherService: ['FWW'] },
    },
  };
}

const SENDER = 'office@xxv.example';

const referenceOf = (urn: string, sent: string, baseUrl: string) => ({
  '@id': `${baseUrl}/alerts/${urn}`,
  identifier: urn,
  sender: SENDER,
  sent,
});

const DESCRIPTION = [
  'Invented for demonstration.',
  '* AREA...The Tamber Hills, fire zone only.',
  '* WIND...North 20 to 25 mph, gusts to 40 mph.',
  '* HUMIDITY...10 to 18 percent, little better by night.',
].join('\n\n');

const urnOf = (zone: string, date: LocalDate, sentMs: number): string =>
  `urn:oid:2.49.0.1.840.0.${createHash('sha1').update(`${zone} ${date} ${sentMs}`).digest('hex')}.001.1`;

/** Numbers run through the year. */
const eventNumber = (date: LocalDate): string =>
  String(daysBetween(`${date.slice(0, 4)}-01-01`, date) + 1).padStart(4, '0');

const vtecTime = (ms: number): string => `${new Date(ms).toISOString().slice(2, 16).replace(/[-:]/g, '')}Z`;

/** Making one takes as long as writing a whole list of alerts. */
const formats = new Map<string, Intl.DateTimeFormat>();

function formatOf(timeZone: string): Intl.DateTimeFormat {
  const known = formats.get(timeZone);
  if (known) return known;
  const format = new Intl.DateTimeFormat('en-US', {
    timeZone,
    month: 'long',
    day: 'numeric',
    hour: 'numeric',
    minute: '2-digit',
    timeZoneName: 'short',
  });
  formats.set(timeZone, format);
  return format;
}

function headlineOf(sentMs: number, endMs: number, timeZone: string): string {
  const format = formatOf(timeZone);
  const text = (ms: number) => format.format(ms).replaceAll('\u202f', ' ');
  return `Red Flag Warning issued ${text(sentMs)} until ${text(endMs)} by Demonstration Office XXV`;
}
