// ISO 8601 intervals as the grid writes them: `start/duration` and `start/end`. Numbers only and, for the common form, no
// allocation, since one document holds some thousand of them.

import { DAY_MS, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';

/** Where an interval is written to; half-open, epoch milliseconds. */
export interface IntervalOut {
  fromMs: number;
  toMs: number;
}

/**
 * Reads an interval, `2026-03-02T18:00:00+00:00/P1DT6H`, into `into`. Durations of days, hours, minutes and seconds of
 * any length; the end may be an instant instead. Returns null, or a short reason why it cannot be read: years, months
 * and weeks have no fixed length, `NOW` no fixed start. Empty and reversed intervals are read and left to the caller.
 * Source: OpenAPI document of api.weather.gov 3.8.1, schema ISO8601Interval; ISO 8601-1:2019, 5.5.
 */
export function readInterval(text: unknown, into: IntervalOut): string | null {
  if (typeof text !== 'string') return 'no text';
  if (readCommon(text, into)) return null;
  const slash = text.indexOf('/');
  if (slash < 0) return 'no slash';
  const start = text.slice(0, slash);
  const rest = text.slice(slash + 1);
  const fromMs = instantMs(start);
  if (Number.isNaN(fromMs)) return /now/i.test(start) ? 'no fixed start' : 'start not read';
  const toMs = rest.startsWith('P') ? fromMs + durationMs(rest) : instantMs(rest);
  if (!(toMs <= MOST_MS)) return reasonOf(rest);
  into.fromMs = fromMs;
  into.toMs = toMs;
  return null;
}

/** Intervals read last, by the hour at which they were to begin and the digit of their hours: layers share theirs. */
const MEMORY = 4096;
const texts: unknown[] = new Array(MEMORY).fill(null);
const fromsMs = new Float64Array(MEMORY);
const tosMs = new Float64Array(MEMORY);

/**
 * The same as `readInterval`, quicker for one of many intervals that follow on each other. `guessMs` is where it is likely
 * to begin, such as the end of the one before; a wrong guess changes nothing but the time that it takes.
 */
export function readNextInterval(text: unknown, guessMs: number, into: IntervalOut): string | null {
  if (typeof text !== 'string') return 'no text';
  const slot = (((guessMs / HOUR_MS) << 3) | (text.charCodeAt(28) & 7)) & (MEMORY - 1);
  if (texts[slot] === text) {
    into.fromMs = fromsMs[slot] as number;
    into.toMs = tosMs[slot] as number;
    return null;
  }
  const fault = readInterval(text, into);
  if (fault !== null) return fault;
  texts[slot] = text;
  fromsMs[slot] = into.fromMs;
  tosMs[slot] = into.toMs;
  return null;
}

/** Last instant that ECMAScript knows. */
const MOST_MS = 8.64e15;

function reasonOf(rest: string): string {
  if (/^-|-P/.test(rest)) return 'negative duration';
  if (/^P[^T]*[YMW]/.test(rest)) return 'years, months or weeks';
  if (/now/i.test(rest)) return 'no fixed end';
  return rest.startsWith('P') ? 'duration not read' : 'end not read';
}

/** Days met, `YYYYMMDD` → midnight in epoch ms: the layers of a document share eight or nine. */
const days = new Map<number, number>();
const MOST_DAYS = 64;
/** The day met last: intervals come in order of time. */
let lastKey = Number.NaN;
let lastMs = Number.NaN;

/** Midnight of the day that a text begins with; NaN where it is none. */
function dayMs(text: string): number {
  // NaN, where a pair is no number, is never a known key.
  const key = pair(text, 0) * 1_000_000 + pair(text, 2) * 10_000 + pair(text, 5) * 100 + pair(text, 8);
  if (key === lastKey) return lastMs;
  const known = days.get(key);
  if (known !== undefined) {
    lastKey = key;
    lastMs = known;
    return known;
  }
  const ms = instantMs(`${text.slice(0, 10)}T00:00Z`);
  if (Number.isNaN(ms)) return ms;
  if (days.size >= MOST_DAYS) days.clear();
  days.set(key, ms);
  return ms;
}

/**
 * The form that the service nearly always writes: a whole hour with the offset +00:00, and a duration. Many times faster
 * than the general reading; returns false, having written nothing, where the text looks otherwise.
 */
function readCommon(text: string, into: IntervalOut): boolean {
  if (text.length < 29 || !text.startsWith(':00:00+00:00/P', 13)) return false;
  const hour = pair(text, 11);
  if (
    !(hour <= 23) ||
    text.charCodeAt(4) !== MINUS ||
    text.charCodeAt(7) !== MINUS ||
    text.charCodeAt(10) !== T
  ) {
    return false;
  }
  const midnightMs = dayMs(text);
  const lengthMs = commonDurationMs(text);
  if (!(midnightMs + lengthMs <= MOST_MS / 2)) return false;
  into.fromMs = midnightMs + hour * HOUR_MS;
  into.toMs = into.fromMs + lengthMs;
  return true;
}

const T = 84;
const H = 72;
const MINUS = 45;

/** Length [ms] of the duration from the 27th letter on: `PT1H` and `PT12H` at sight, others in general. */
function commonDurationMs(text: string): number {
  const { length } = text;
  if (text.charCodeAt(27) === T && text.charCodeAt(length - 1) === H) {
    const digit = text.charCodeAt(28) - 48;
    if (length === 30 && digit >= 0 && digit <= 9) return digit * HOUR_MS;
    if (length === 31) return pair(text, 28) * HOUR_MS;
  }
  return durationMs(text.slice(26));
}

/** The number that two digits write; NaN where one of them is none. */
function pair(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48;
  const ones = text.charCodeAt(at + 1) - 48;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : Number.NaN;
}

const INSTANT =
  /^(\d{4})-(\d\d)-(\d\d)T([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d)(?:[.,](\d{1,9}))?)?(?:Z|([+-])([01]\d|2[0-3])(?::?([0-5]\d))?)$/;

/** Epoch ms of `YYYY-MM-DDTHH:MM[:SS[.f]]` with `Z` or an offset; NaN where it is no such text. */
function instantMs(text: string): number {
  const match = INSTANT.exec(text);
  if (!match) return Number.NaN;
  const part = (group: number): number => Number(match[group] ?? 0);
  const dayMs = dateMs(part(1), part(2), part(3));
  const timeMs = part(4) * HOUR_MS + part(5) * MINUTE_MS + part(6) * 1000 + fractionMs(match[7]);
  const offsetMs = part(9) * HOUR_MS + part(10) * MINUTE_MS;
  return dayMs + timeMs - (match[8] === '-' ? -offsetMs : offsetMs);
}

const DAYS_BEFORE_MONTH = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365];

/** Epoch ms of a date's midnight in UTC, Gregorian; NaN for a date that does not exist. */
function dateMs(year: number, month: number, day: number): number {
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const before = DAYS_BEFORE_MONTH[month - 1] ?? Number.NaN;
  const length = (DAYS_BEFORE_MONTH[month] ?? Number.NaN) - before + (leap && month === 2 ? 1 : 0);
  if (!(day >= 1 && day <= length)) return Number.NaN;
  const past = year - 1;
  const leapDays = Math.floor(past / 4) - Math.floor(past / 100) + Math.floor(past / 400) - 477;
  return (365 * (year - 1970) + leapDays + before + (leap && month > 2 ? 1 : 0) + day - 1) * DAY_MS;
}

const DURATION = /^P(?:(\d{1,12})D)?(T(?:(\d{1,12})H)?(?:(\d{1,12})M)?(?:(\d{1,12})(?:[.,](\d{1,9}))?S)?)?$/;

/** Length [ms] of `PnDTnHnMnS`; NaN where it is no such text or names no part. */
function durationMs(text: string): number {
  const match = DURATION.exec(text);
  if (!match || text.endsWith('P') || text.endsWith('T')) return Number.NaN;
  const part = (group: number): number => Number(match[group] ?? 0);
  return part(1) * DAY_MS + part(3) * HOUR_MS + part(4) * MINUTE_MS + part(5) * 1000 + fractionMs(match[6]);
}

/** Whole milliseconds of the decimals of a second. */
const fractionMs = (decimals: string | undefined): number =>
  decimals === undefined ? 0 : Number(decimals.slice(0, 3).padEnd(3, '0'));
