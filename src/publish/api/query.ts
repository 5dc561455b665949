// Query parameters of the published routes, strict: an unknown parameter is a fault, not silence.

import { z } from 'zod';
import {
  addDays,
  daysBetween,
  isLocalDate,
  type LocalDate,
  localDateAt,
  parseTypedInstantMs,
  startOfDayMs,
} from '#core/units/local-time.ts';
import { DAY_MS, type Span } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';

const dayText = z
  .string()
  .refine(
    (text) => text === 'today' || text === 'tomorrow' || isLocalDate(text),
    'expected today, tomorrow or a date YYYY-MM-DD',
  )
  .describe('today, tomorrow or YYYY-MM-DD, in the time of the site');

const momentText = z
  .string()
  .refine(
    (text) => isLocalDate(text) || parseTypedInstantMs(text) !== null,
    'expected a date YYYY-MM-DD or an RFC 3339 instant with offset',
  )
  .describe('a date (from its beginning; `to`: through its end) or an RFC 3339 instant with offset');

/** An instant with its offset → epoch ms. */
export const typedInstant = z.string().transform((text, context): number => {
  const ms = parseTypedInstantMs(text);
  if (ms !== null) return ms;
  context.addIssue({ code: 'custom', message: 'expected an RFC 3339 instant with offset' });
  return z.NEVER;
});

const reader = {
  units: z.enum(['us', 'si'], 'expected us or si').optional().describe('US customary or SI units'),
  lang: z.enum(['en', 'es'], 'expected en or es').optional().describe('language of the sentences'),
};

/** For routes that only ask how to be spoken to. */
export const readerQuery = z.strictObject(reader);

/** For routes that take none: an unknown parameter is a fault there too. */
export const noQuery = z.strictObject({});

export const spanQuery = z.strictObject({
  day: dayText.optional(),
  from: momentText.optional(),
  to: momentText.optional(),
  ...reader,
});

export const dayQuery = z.strictObject({ day: dayText.optional(), ...reader });

export type ReaderQuery = z.output<typeof readerQuery>;

export const pageQuery = z.strictObject({
  day: dayText.optional(),
  look: z.enum(['day', 'night']).optional(),
  ...reader,
});

export type SpanQuery = z.output<typeof spanQuery>;

/** Longest span that one answer covers. */
export const MOST_DAYS = 10;

/** What a query asks for: the span, and the local dates that it touches. */
export interface Asked {
  readonly span: Span;
  readonly firstDate: LocalDate;
  readonly dayCount: number;
}

/** The date that a query means; `today` is the site's own, see `workingDayAt`. */
export function askedDay(day: string | undefined, today: LocalDate): LocalDate {
  if (day === undefined || day === 'today') return today;
  return day === 'tomorrow' ? addDays(today, 1) : day;
}

/** Throws ServiceError `bad_query`. */
export function askedSpan(query: SpanQuery, today: LocalDate, timeZone: string): Asked {
  const { day, from, to } = query;
  if (from === undefined && to === undefined) {
    const date = askedDay(day, today);
    const span = { fromMs: startOfDayMs(date, timeZone), toMs: startOfDayMs(addDays(date, 1), timeZone) };
    return { span, firstDate: date, dayCount: 1 };
  }
  if (day !== undefined) throw badQuery('day', 'expected either day, or from and to');
  if (from === undefined || to === undefined)
    throw badQuery(from === undefined ? 'from' : 'to', 'expected both from and to');
  const span = {
    fromMs: isLocalDate(from) ? startOfDayMs(from, timeZone) : (parseTypedInstantMs(from) ?? 0),
    toMs: isLocalDate(to) ? startOfDayMs(addDays(to, 1), timeZone) : (parseTypedInstantMs(to) ?? 0),
  };
  if (span.toMs <= span.fromMs) throw badQuery('to', 'expected a moment after from');
  if (span.toMs - span.fromMs > (MOST_DAYS + 0.1) * DAY_MS)
    throw badQuery('to', `expected at most ${MOST_DAYS} days after from`);
  const firstDate = localDateAt(span.fromMs, timeZone);
  return { span, firstDate, dayCount: daysBetween(firstDate, localDateAt(span.toMs - 1, timeZone)) + 1 };
}

export function badQuery(path: string, message: string): ServiceError {
  return new ServiceError('bad_query', `${path}: ${message}`, { facts: { faults: [{ path, message }] } });
}
