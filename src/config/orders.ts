// Burn bans and other local orders as the office writes them; times are local to each site.

import { z } from 'zod';
import { isInArea, type OrderArea } from '#core/site/order-area.ts';
import type { LocalOrder, Place } from '#core/site/site.ts';
import { addDays, clockTimeMs, isLocalDate, startOfDayMs } from '#core/units/local-time.ts';
import { definitionId, name, position, quantity, verdict } from './fields.ts';

const moment = z
  .union([z.string(), z.date()])
  .transform((text) => (typeof text === 'string' ? text : text.toISOString().slice(0, 10)))
  .refine((text) => {
    const [date, clock, ...rest] = text.split(/[T ]/);
    const clockFits = clock === undefined || /^([01]\d|2[0-3]):[0-5]\d$/.test(clock);
    return isLocalDate(date ?? '') && clockFits && rest.length === 0;
  }, 'expected a local date YYYY-MM-DD or date and time "YYYY-MM-DD HH:MM"');

type Position = readonly [number, number];

const placeOf = ([latDeg, lonDeg]: Position): Place => ({ latDeg, lonDeg });

const circle = z
  .strictObject({ at: position, radius: quantity('length') })
  .refine(({ radius }) => radius.value > 0, { message: 'expected more than nothing', path: ['radius'] });

const box = z
  .strictObject({ southWest: position, northEast: position })
  .refine(({ southWest, northEast }) => southWest[0] <= northEast[0], {
    message: 'expected the south-west corner first',
    path: ['southWest'],
  });

const within = z.union(
  [z.strictObject({ circle }), z.strictObject({ box })],
  'expected circle: { at: [latitude, longitude], radius: "5 mi" }, or box: { southWest: [latitude, longitude], northEast: […] }',
);

export const orderFields = z
  .strictObject({
    /** Names it in the store; one is made of name, issuer and place where it is left out. */
    id: definitionId.optional(),
    /** authority-stop: an authority puts sites on stop, and its name is the reason; it stands until it is lifted. */
    kind: z.enum(['order', 'authority-stop'], 'expected order or authority-stop').default('order'),
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
    /** Of these only those that lie there. */
    within: within.optional(),
    from: moment.optional(),
    /** A date alone means through the end of that day. */
    to: moment.optional(),
    verdict: verdict.default('stop'),
  })
  .refine(({ from, to }) => from === undefined || to === undefined || inOrder(from, to), {
    message: 'expected "to" not to come before "from"',
    path: ['to'],
  })
  .refine(({ kind, to }) => kind === 'order' || to === undefined, {
    message: 'expected no end: an authority stop stands until it is lifted',
    path: ['to'],
  })
  .refine(({ kind, verdict: said }) => kind === 'order' || said === 'stop', {
    message: 'expected stop: an authority stop is nothing less',
    path: ['verdict'],
  });

export type OrderFields = z.output<typeof orderFields>;

/** Whether an order is for a site: by its name, and by where it lies. */
export function isOrderFor(
  { sites, within: area }: Pick<OrderFields, 'sites' | 'within'>,
  id: string,
  at: Position,
): boolean {
  const isNamed = sites === 'all' || sites.includes(id);
  return isNamed && (area === undefined || isInArea(areaOf(area), placeOf(at)));
}

const areaOf = (area: NonNullable<OrderFields['within']>): OrderArea =>
  'circle' in area
    ? { kind: 'circle', at: placeOf(area.circle.at), radiusM: area.circle.radius.value }
    : { kind: 'box', southWest: placeOf(area.box.southWest), northEast: placeOf(area.box.northEast) };

export function orderOf(fields: OrderFields, timeZone: string): LocalOrder {
  return {
    kind: fields.kind,
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
