// Go windows of sites → one calendar.

import type { CalendarWindow } from '#core/plan/calendar-windows.ts';
import { lightUpByMs } from '#core/plan/light-up-by.ts';
import type { BurnTimes } from '#core/site/site.ts';
import { calendarWords } from '#publish/wording/calendar-words.ts';
import { type Language, momentText } from '#publish/wording/show.ts';
import { calendarText, instantValue, textValue } from './icalendar.ts';

export interface CalendarSite {
  readonly name: string;
  /** Latitude, longitude [deg]. */
  readonly at: readonly [number, number];
  readonly timeZone: string;
  readonly burn: BurnTimes | null;
}

export interface ToldWindow {
  readonly site: CalendarSite;
  readonly window: CalendarWindow;
}

/** How often a calendar may ask (RFC 7986, 5.7). */
const REFRESH = 'PT15M';

/** An object without any component is none (3.6): where there is no window, the zone that all times are in stands alone. */
const NO_WINDOW = [
  'BEGIN:VTIMEZONE',
  'TZID:Etc/UTC',
  'BEGIN:STANDARD',
  'DTSTART:19700101T000000',
  'TZOFFSETFROM:+0000',
  'TZOFFSETTO:+0000',
  'END:STANDARD',
  'END:VTIMEZONE',
];

export function windowsCalendar(
  told: readonly ToldWindow[],
  { language, demo, of }: { readonly language: Language; readonly demo: boolean; readonly of: string },
): string {
  const words = calendarWords(language);
  const name = textValue(`${words.calendar}: ${of}`);
  return calendarText([
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    `PRODID:-//Pitward//Go windows//${language.toUpperCase()}`,
    'CALSCALE:GREGORIAN',
    `NAME:${name}`,
    `REFRESH-INTERVAL;VALUE=DURATION:${REFRESH}`,
    ...(told.length === 0 ? NO_WINDOW : told.flatMap((one) => eventLines(one, language, demo))),
    'END:VCALENDAR',
  ]);
}

/** DTSTAMP: when it was last changed, since the calendar has no METHOD (3.8.7.2). */
function eventLines({ site, window }: ToldWindow, language: Language, demo: boolean): string[] {
  const words = calendarWords(language);
  const changed = instantValue(window.changedAtMs);
  const day = window.date;
  const lightBy =
    site.burn && words.lightBy(momentText(lightUpByMs(window, site.burn), site.timeZone, language, day));
  const said = [window.cancelled ? words.takenBack : lightBy, words.caution, demo ? words.demo : null];
  return [
    'BEGIN:VEVENT',
    `UID:${window.uid}`,
    `DTSTAMP:${changed}`,
    `LAST-MODIFIED:${changed}`,
    `SEQUENCE:${window.sequence}`,
    `STATUS:${window.cancelled ? 'CANCELLED' : 'TENTATIVE'}`,
    `DTSTART:${instantValue(window.fromMs)}`,
    `DTEND:${instantValue(window.toMs)}`,
    `SUMMARY:${textValue(words.go(site.name))}`,
    `DESCRIPTION:${textValue(said.filter((line) => line !== null).join('\n'))}`,
    `LOCATION:${textValue(site.name)}`,
    `GEO:${site.at[0].toFixed(6)};${site.at[1].toFixed(6)}`,
    'TRANSP:TRANSPARENT',
    'END:VEVENT',
  ];
}
