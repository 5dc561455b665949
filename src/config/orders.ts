// Burn bans and other local orders as the office writes them; times are local to each site.

import { z } from 'zod';
import type { LocalOrder } from '#core/site/site.ts';
import { addDays, clockTimeMs, isLocalDate, startOfDayMs } from '#core/units/local-time.ts';
import { definitionId, name, verdict } from './fields.ts';

const moment = z
  .union([z.string(), z.date()])
  .transform((text) => (typeof text === 'string' ? text : text.toISOString().slice(0, 10)))
  .refine((text) => {
    const [date, clock, ...rest] = text.split(/[T ]/);
    const clockFits = clock === undefined || /^([01]\d|2[0-3]):[0-5]\d$/.test(clock);
    return isLocalDate(date ?? '') && clockFits && rest.length === 0;
  }, 'expected a local date YYYY-MM-DD or date and time "YYYY-MM-DD HH:MM"');

export const orderFields = z
  .strictObject({
    /** Names it in the store; one is made of name, issuer and place where it is left out. */
    id: definitionId.optional(),
    name,
    issuer: name,
    /** Where it holds, in words, as it was announced. */
    place: name.optional(),
    /** Site ids, or all sites. */
    sites: z
      .union(
        [z.literal('all'), z.array(z.string()).min(1, 'expected "all", or at least one site')],
        'expected all, or a list of site ids',
      )
      .default('all'),
    from: moment.optional(),
    /** A date alone means through the end of that day. */
    to: moment.optional(),
    verdict: verdict.default('stop'),
  })
  .refine(({ from, to }) => from === undefined || to === undefined || inOrder(from, to), {
    message: 'expected "to" not to come before "from"',
    path: ['to'],
  });

export type OrderFields = z.output<typeof orderFields>;

export function orderOf(fields: OrderFields, timeZone: string): LocalOrder {
  return {
    name: fields.place === undefined ? fields.name : `${fields.name}, ${fields.place}`,
    issuer: fields.issuer,
    fromMs: fields.from === undefined ? null : momentMs(fields.from, timeZone, 'begin'),
    toMs: fields.to === undefined ? null : momentMs(fields.to, timeZone, 'end'),
    verdict: fields.verdict,
  };
}

/** Whether an order has any length; in which zone does not matter, but for an hour in a year. */
const inOrder = (from: string, to: string): boolean =>
  momentMs(from, 'UTC', 'begin') < momentMs(to, 'UTC', 'end');

function momentMs(text: string, timeZone: string, edge: 'begin' | 'end'): number {
  const [date = text, clock] = text.split(/[T ]/);
  if (clock !== undefined) return clockTimeMs(date, clock, timeZone, edge === 'begin' ? 'earlier' : 'later');
  return edge === 'begin' ? startOfDayMs(date, timeZone) : startOfDayMs(addDays(date, 1), timeZone);
}
