// What the operator writes as limits → the core's limits.

import { z } from 'zod';
import type {
  Bound,
  ClockLimit,
  ElementLimit,
  LimitSet,
  SeasonLimit,
  SideBounds,
} from '#core/score/limit.ts';
import { type CategoryTable, categoryBoundM2ps } from '#core/score/ventilation-category.ts';
import { ELEMENTS, type Element, isElement } from '#core/series/elements.ts';
import { inUnit } from '#core/units/quantity.ts';
import { chosen, clockTime, monthDay, quantity, source, verdict } from './fields.ts';
import { averagingS, heightM, windMeasureFaults, windMeasureOf } from './wind-measure.ts';

const written = z.union([z.string(), z.number()], 'expected a quantity such as "15 mph"');
const side = z.strictObject({ hold: written.optional(), stop: written.optional() });
const when = z.enum(['always', 'day', 'night']).default('always');

/** Directions are judged against protected places, never as a figure that is too high or too low. */
const NO_LIMIT: readonly Element[] = ['windDirection', 'transportWindDirection'];

const elementName = z.string().transform((text, context): Element => {
  if (isElement(text) && !NO_LIMIT.includes(text)) return text;
  const known = Object.keys(ELEMENTS).filter((e) => !NO_LIMIT.includes(e as Element));
  context.addIssue({ code: 'custom', message: `expected one of ${known.join(', ')}, found "${text}"` });
  return z.NEVER;
});

const elementLimit = z
  .strictObject({
    element: elementName,
    when,
    atLeast: side.optional(),
    atMost: side.optional(),
    inclusive: z.boolean().default(false),
    /** Of a limit on wind: above ground, and of how long it is a mean. */
    height: heightM.optional(),
    averaging: averagingS.optional(),
    source,
  })
  .transform((row, context): ElementLimit => {
    const read = (text: string | number | undefined, path: string[]): Bound | null => {
      if (text === undefined) return null;
      const parsed = quantity(ELEMENTS[row.element].dimension).safeParse(text);
      const faults = parsed.success ? rangeFaults(row.element, parsed.data) : parsed.error.issues;
      for (const { message } of faults) context.addIssue({ code: 'custom', message, path });
      return parsed.success ? parsed.data : null;
    };
    const sideOf = (given: z.infer<typeof side> | undefined, key: string): SideBounds | null =>
      given ? { hold: read(given.hold, [key, 'hold']), stop: read(given.stop, [key, 'stop']) } : null;
    const limit = { atLeast: sideOf(row.atLeast, 'atLeast'), atMost: sideOf(row.atMost, 'atMost') };
    // A figure that could not be read is told of already; what is left of the limit says nothing.
    if (context.issues.length > 0) return z.NEVER;
    const { atLeast, atMost } = limit;
    const measured = windMeasureOf(row);
    for (const fault of [
      ...boundFaults(atLeast, atMost),
      ...windMeasureFaults(row.element, row, atLeast, atMost),
    ]) {
      context.addIssue({ code: 'custom', ...fault });
    }
    return {
      element: row.element,
      when: row.when,
      ...limit,
      inclusive: row.inclusive,
      source: row.source,
      categories: null,
      ...(measured && { measured }),
    };
  });

/** A figure that no forecast value can reach would make a limit that never holds. */
function rangeFaults(element: Element, { value, unit }: Bound): { message: string }[] {
  const { least, most } = ELEMENTS[element];
  if (value >= least && value <= most) return [];
  const [from, to] = [least, most].map((core) => Math.round(inUnit(core, unit) * 10) / 10);
  return [{ message: `expected a figure from ${from} to ${to}${unit === '1' ? '' : ` ${unit}`}` }];
}

/** Bounds that contradict each other would make a limit that never, or always, holds. */
function boundFaults(low: SideBounds | null, high: SideBounds | null): { message: string; path: string[] }[] {
  const faults: { message: string; path: string[] }[] = [];
  const any = [low?.hold, low?.stop, high?.hold, high?.stop].some((b) => b);
  if (!any)
    faults.push({
      message: 'expected at least one of atLeast and atMost with a hold or stop figure',
      path: [],
    });
  if (low?.hold && low.stop && low.stop.value > low.hold.value) {
    faults.push({
      message: 'the stop figure of atLeast must not lie above its hold figure',
      path: ['atLeast', 'stop'],
    });
  }
  if (high?.hold && high.stop && high.stop.value < high.hold.value) {
    faults.push({
      message: 'the stop figure of atMost must not lie below its hold figure',
      path: ['atMost', 'stop'],
    });
  }
  const lowGo = Math.max(
    low?.hold?.value ?? Number.NEGATIVE_INFINITY,
    low?.stop?.value ?? Number.NEGATIVE_INFINITY,
  );
  const highGo = Math.min(
    high?.hold?.value ?? Number.POSITIVE_INFINITY,
    high?.stop?.value ?? Number.POSITIVE_INFINITY,
  );
  if (lowGo >= highGo) faults.push({ message: 'atLeast leaves no room below atMost', path: ['atLeast'] });
  return faults;
}

const categoryLimit = z
  .strictObject({
    ventilationCategory: z.strictObject({
      table: z.string().min(1),
      unit: z.enum(['kt-ft', 'mph-ft', 'm²/s', 'm2/s']),
      bounds: z.array(z.number().positive()).min(1),
      onBound: z.enum(['lower', 'upper']),
    }),
    when,
    atLeast: z.strictObject({ hold: z.int().min(2).optional(), stop: z.int().min(2).optional() }),
    source,
  })
  .transform((row, context): ElementLimit => {
    const { table, unit, bounds, onBound } = row.ventilationCategory;
    const categories: CategoryTable = { name: table, unit, bounds, onBound };
    if (bounds.some((b, i) => i > 0 && b <= (bounds[i - 1] ?? 0))) {
      context.addIssue({
        code: 'custom',
        message: 'expected rising bounds',
        path: ['ventilationCategory', 'bounds'],
      });
    }
    const boundOf = (category: number | undefined, key: string): Bound | null => {
      if (category === undefined) return null;
      if (category - 2 < bounds.length) return { value: categoryBoundM2ps(categories, category - 2), unit };
      context.addIssue({
        code: 'custom',
        message: `the table has ${bounds.length + 1} categories`,
        path: ['atLeast', key],
      });
      return null;
    };
    const atLeast = { hold: boundOf(row.atLeast.hold, 'hold'), stop: boundOf(row.atLeast.stop, 'stop') };
    if (context.issues.length > 0) return z.NEVER;
    for (const fault of boundFaults(atLeast, null)) context.addIssue({ code: 'custom', ...fault });
    const inclusive = onBound === 'upper';
    return {
      element: 'ventilationRate',
      when: row.when,
      atLeast,
      atMost: null,
      inclusive,
      source: row.source,
      categories,
    };
  });

/** Clock times that are given must rise through the day. */
function inDayOrder(clocks: readonly (string | undefined)[]): boolean {
  const given = clocks.filter((c) => c !== undefined);
  return given.every((c, i) => i === 0 || c > (given[i - 1] ?? ''));
}

const clockLimit = z
  .strictObject({
    clock: z
      .strictObject({
        lightFrom: clockTime.optional(),
        lastChargeBy: clockTime.optional(),
        outBy: clockTime.optional(),
      })
      .refine((c) => c.lightFrom ?? c.lastChargeBy ?? c.outBy, 'expected lightFrom, lastChargeBy or outBy')
      .refine(
        (c) => inDayOrder([c.lightFrom, c.lastChargeBy, c.outBy]),
        "expected lightFrom before lastChargeBy and outBy; hours past midnight are the shift's",
      ),
    source,
  })
  .transform(
    ({ clock, source: whose }): ClockLimit => ({
      lightFrom: clock.lightFrom ?? null,
      lastChargeBy: clock.lastChargeBy ?? null,
      outBy: clock.outBy ?? null,
      source: whose,
    }),
  );

const seasonLimit = z
  .strictObject({
    season: z.strictObject({ from: monthDay, to: monthDay }),
    verdict: verdict.default('stop'),
    source,
  })
  .transform(
    ({ season, verdict: v, source: whose }): SeasonLimit => ({ ...season, verdict: v, source: whose }),
  );

/** Which schema a row wants to be judged by, told by its telling key; so that faults name the right fields. */
const KINDS = { clock: clockLimit, season: seasonLimit, ventilationCategory: categoryLimit } as const;

type Row = ElementLimit | ClockLimit | SeasonLimit;

const limitRow = chosen((row): z.ZodType<Row> => {
  const keys = typeof row === 'object' && row !== null ? Object.keys(row) : [];
  const kind = (Object.keys(KINDS) as (keyof typeof KINDS)[]).find((k) => keys.includes(k));
  return kind ? KINDS[kind] : elementLimit;
});

/** A list of limits → a limit set without a name. At least one element must be judged: nothing judged is never go. */
export const limitList = z
  .array(limitRow)
  .min(1)
  .transform(
    (rows): Omit<LimitSet, 'name'> => ({
      elements: rows.filter((r): r is ElementLimit => 'element' in r),
      clock: rows.filter((r): r is ClockLimit => 'lightFrom' in r),
      seasons: rows.filter((r): r is SeasonLimit => 'from' in r),
    }),
  )
  .refine((set) => set.elements.length > 0, 'expected at least one limit on a forecast element');
