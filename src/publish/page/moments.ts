// Instants of the answers as the page writes them: on the clock of the site.

import { localDateAt, parseInstantMs } from '#core/units/local-time.ts';
import { clockText, type Language, momentText } from '#publish/wording/show.ts';

/** Throws on text that is no instant: a fault of the program, since answers carry nothing else. */
export function msOf(instant: string): number {
  const ms = parseInstantMs(instant);
  if (ms === null) throw new RangeError(`no instant: ${instant}`);
  return ms;
}

export const clockAt = (instant: string, timeZone: string): string => clockText(msOf(instant), timeZone);

/** Clock time, with the date where it is on another day than `besides`; null always gives the date. */
export const momentAt = (
  instant: string,
  timeZone: string,
  language: Language,
  besides: string | null,
): string =>
  momentText(
    msOf(instant),
    timeZone,
    language,
    besides === null ? null : localDateAt(msOf(besides), timeZone),
  );

const localeOf = (language: Language): string => (language === 'es' ? 'es-US' : 'en-US');

/** Name of the zone as people say it: "Eastern Time". */
export const zoneName = (timeZone: string, language: Language, atMs: number): string =>
  zonePart(timeZone, language, atMs, 'longGeneric');

/** "EDT", "EST": tells the two equal hours of an autumn day apart. */
export const zoneShort = (timeZone: string, language: Language, atMs: number): string =>
  zonePart(timeZone, language, atMs, 'short');

/** Making one takes longer than the whole page. */
const FORMATS = new Map<string, Intl.DateTimeFormat>();

function zonePart(
  timeZone: string,
  language: Language,
  atMs: number,
  timeZoneName: 'longGeneric' | 'short',
): string {
  const key = `${language} ${timeZoneName} ${timeZone}`;
  const format = FORMATS.get(key) ?? new Intl.DateTimeFormat(localeOf(language), { timeZone, timeZoneName });
  FORMATS.set(key, format);
  return format.formatToParts(atMs).find((part) => part.type === 'timeZoneName')?.value ?? timeZone;
}
