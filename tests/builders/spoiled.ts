// A whole plan input, spoiled in one place: what the tests of the first law are made of.

import { expect, it } from 'vitest';
import { makePlan, type PlanInput } from '#core/plan/make-plan.ts';
import type { ElementLimit } from '#core/score/limit.ts';
import type { Element } from '#core/series/elements.ts';
import type { Column } from '#core/series/hourly-series.ts';
import type { Site } from '#core/site/site.ts';
import { limitOf, limitSet } from './limits.ts';
import { hasGo, inputOf } from './plan.ts';
import { EAST_SCHOOL, siteWith } from './site.ts';
import { at } from './time.ts';

export const NOW = at('2026-03-02 06:00');
export const FAIR_INPUT = inputOf();
export const SCHOOL_INPUT = inputOf({ site: siteWith({ protected: [EAST_SCHOOL] }) });

export type Row = readonly [string, PlanInput];
/** No row may have a go on its day. */
export const nothingIsGo = (rows: readonly Row[]) =>
  it.each(rows)('%s', (_, input) => {
    const plan = makePlan(input);
    expect(
      plan.windows.filter(
        (w) => w.verdict === 'go' && w.fromMs < at('2026-03-03 00:00') && w.toMs > at('2026-03-02 00:00'),
      ),
    ).toEqual([]);
    expect(hasGo(plan)).toBe(false);
  });

export const forecastWith = (changes: Partial<PlanInput['forecast']>, input = FAIR_INPUT): PlanInput => ({
  ...input,
  forecast: { ...input.forecast, ...changes },
});
export const seriesWith = (element: Element, column: Column, input = FAIR_INPUT): PlanInput =>
  forecastWith(
    {
      series: { ...input.forecast.series, columns: { ...input.forecast.series.columns, [element]: column } },
    },
    input,
  );
/** A column of one value whose hours are said to be there, whatever the value. */
export const claimed = (value: number): Column => ({
  values: new Float64Array(144).fill(value),
  missing: new Uint8Array(144),
  derived: null,
});
export const siteOf = (changes: Partial<Site>): PlanInput => ({ ...FAIR_INPUT, site: siteWith(changes) });
export const limitsOf = (...elements: ElementLimit[]): PlanInput => ({
  ...FAIR_INPUT,
  limits: limitSet(elements),
});
export const highWind = limitOf('windSpeed', { high: { hold: '12 mph' } });
export const lowHumidity = limitOf('relativeHumidity', { low: { hold: '30 %' } });
