// Small zod fields that the configuration is made of: quantities with units, clock times, dates, positions.

import { z } from 'zod';
import type { Bound } from '#core/score/limit.ts';
import { isLocalDate, isTimeZone } from '#core/units/local-time.ts';
import { type Dimension, parseQuantity } from '#core/units/quantity.ts';

/** "15 mph" → { value in core units, unit }; plain indices may be bare numbers. */
export const quantity = (dimension: Dimension) =>
  z.union([z.string(), z.number()]).transform((text, context): Bound => {
    const parsed = parseQuantity(text, dimension);
    if (!('fault' in parsed)) return parsed;
    context.addIssue({ code: 'custom', message: parsed.fault });
    return z.NEVER;
  });

/** A length of time in minutes, not negative and at most a day. */
export const minutes = quantity('duration').transform((bound, context) => {
  if (bound.value >= 0 && bound.value <= 1440) return bound.value;
  context.addIssue({ code: 'custom', message: 'expected a length of time from 0 min to 24 h' });
  return z.NEVER;
});

/** What a site, or an order, is called in addresses and records. */
export const definitionId = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,62}$/, 'expected small letters, digits and hyphens');

export const clockTime = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'expected a clock time "HH:MM" in quotes, from "00:00" to "23:59"');

export const localDate = z
  .union([z.string(), z.date()])
  .transform((text) => (typeof text === 'string' ? text : text.toISOString().slice(0, 10)))
  .refine(isLocalDate, 'expected a date YYYY-MM-DD');

const DAYS_IN = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

export const monthDay = z.string().refine((text) => {
  const match = /^(\d{2})-(\d{2})$/.exec(text);
  const most = match ? DAYS_IN[Number(match[1]) - 1] : undefined;
  return most !== undefined && Number(match?.[2]) >= 1 && Number(match?.[2]) <= most;
}, 'expected month and day "MM-DD"');

export const timeZone = z
  .string()
  .refine(isTimeZone, 'expected an IANA time zone name such as America/Chicago');

export const position = z.tuple(
  [z.number().min(-90).max(90), z.number().min(-180).max(180)],
  'expected [latitude, longitude] in degrees, north and east positive',
);

export const bearing = z.number().min(0).max(360);

export const source = z
  .string()
  .trim()
  .min(1, 'expected whose figure this is, for example "permit" or "our rule"');

export const name = z.string().trim().min(1, 'expected a name').max(120);

export const verdict = z.enum(['hold', 'stop']);

/**
 * Judges a value by the schema that `pick` chooses for it, so that faults name the fields of that schema:
 * a plain union only says that nothing fitted.
 */
export const chosen = <T extends z.ZodType>(pick: (value: unknown) => T) =>
  z.unknown().transform((value, context): z.output<T> => {
    const parsed = pick(value).safeParse(value);
    if (parsed.success) return parsed.data;
    for (const { message, path, ...rest } of parsed.error.issues) {
      const keys = 'keys' in rest ? `unknown key ${rest.keys.map((k) => `"${k}"`).join(', ')}` : message;
      context.addIssue({ code: 'custom', message: keys, path });
    }
    return z.NEVER;
  });
