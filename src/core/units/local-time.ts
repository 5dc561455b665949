// The one file that knows time zones. Days, shifts and clock hours are local to the site; instants are epoch ms.

/** Calendar date at the site, `YYYY-MM-DD`. */
export type LocalDate = string;
/** Clock time at the site, `HH:MM`. */
export type ClockTime = string;

export const DAY_NAMES = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
export type DayName = (typeof DAY_NAMES)[number];

/**
 * True for an IANA zone name that this runtime knows. A bare offset is none: it would be an hour wrong for half of the
 * year wherever the clock changes.
 */
export function isTimeZone(name: string): boolean {
  if (!/^[A-Za-z][A-Za-z0-9_+-]*(\/[A-Za-z0-9_+-]+)*$/.test(name)) return false;
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(name);
    return true;
  } catch {
    return false;
  }
}

/** True for an existing calendar date written `YYYY-MM-DD`. */
export function isLocalDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  try {
    return Temporal.PlainDate.from(text, { overflow: 'reject' }).toString() === text;
  } catch {
    return false;
  }
}

/** The site's calendar date at an instant. */
export function localDateAt(ms: number, timeZone: string): LocalDate {
  return zonedAt(ms, timeZone).toPlainDate().toString();
}

export const addDays = (date: LocalDate, days: number): LocalDate =>
  Temporal.PlainDate.from(date).add({ days }).toString();

/** `count` dates from `first` on, each with its day of the week. */
export function datesFrom(first: LocalDate, count: number): { date: LocalDate; dayName: DayName }[] {
  const dates: { date: LocalDate; dayName: DayName }[] = [];
  let plain = Temporal.PlainDate.from(first);
  for (let i = 0; i < count; i += 1) {
    dates.push({ date: plain.toString(), dayName: DAY_NAMES[plain.dayOfWeek - 1] as DayName });
    plain = plain.add({ days: 1 });
  }
  return dates;
}

export const daysBetween = (from: LocalDate, to: LocalDate): number =>
  Temporal.PlainDate.from(from).until(to).days;

/** Day of the week of a local date. */
export function dayNameOf(date: LocalDate): DayName {
  return DAY_NAMES[Temporal.PlainDate.from(date).dayOfWeek - 1] as DayName;
}

/** First instant of a local date (not always 00:00: some zones skip midnight). */
export function startOfDayMs(date: LocalDate, timeZone: string): number {
  return Temporal.PlainDate.from(date).toZonedDateTime(timeZone).epochMilliseconds;
}

/**
 * Instant of a clock time on a local date. Which instant a doubled clock time means is the caller's choice:
 * `earlier` or `later`; a clock time that the date skips moves forward by the gap (RFC 5545 practice).
 */
export function clockTimeMs(
  date: LocalDate,
  clock: ClockTime,
  timeZone: string,
  doubled: 'earlier' | 'later' = 'earlier',
): number {
  const plain = Temporal.PlainDateTime.from(`${date}T${clock}`);
  const zoned = plain.toZonedDateTime(timeZone, { disambiguation: 'compatible' });
  if (doubled === 'earlier') return zoned.epochMilliseconds;
  const later = plain.toZonedDateTime(timeZone, { disambiguation: 'later' });
  return later.toPlainDateTime().equals(plain) ? later.epochMilliseconds : zoned.epochMilliseconds;
}

/** RFC 3339 text of an instant in a zone, with offset, to the second. */
export function rfc3339(ms: number, timeZone: string): string {
  return zonedAt(ms, timeZone).toString({
    smallestUnit: 'second',
    timeZoneName: 'never',
    roundingMode: 'floor',
  });
}

/** The parts of an instant on the site's clock. */
export function clockPartsAt(
  ms: number,
  timeZone: string,
): { date: LocalDate; hour: number; minute: number } {
  const zoned = zonedAt(ms, timeZone);
  return { date: zoned.toPlainDate().toString(), hour: zoned.hour, minute: zoned.minute };
}

/** Parses RFC 3339 text to epoch ms; null where it is no such text or names no offset. */
export function parseInstantMs(text: string): number | null {
  try {
    return Temporal.Instant.from(text).epochMilliseconds;
  } catch {
    return null;
  }
}

/** The same for what somebody types: years have four digits. */
export const parseTypedInstantMs = (text: string): number | null =>
  /^\d{4}-/.test(text) ? parseInstantMs(text) : null;

const zonedAt = (ms: number, timeZone: string) =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(ms)).toZonedDateTimeISO(timeZone);
