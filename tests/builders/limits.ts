// Limits in people's units: `limitOf('windSpeed', { low: { hold: '3 mph' }, high: { hold: '12 mph', stop: '15 mph' } })`.

import type { Bound, ElementLimit, LimitSet, SideBounds } from '#core/score/limit.ts';
import { ELEMENTS, type Element } from '#core/series/elements.ts';
import { parseQuantity } from '#core/units/quantity.ts';

interface SideText {
  readonly hold?: string;
  readonly stop?: string;
}

export interface LimitText {
  readonly low?: SideText;
  readonly high?: SideText;
  readonly when?: ElementLimit['when'];
  readonly inclusive?: boolean;
  readonly source?: string;
}

export function boundOf(element: Element, text: string): Bound {
  const parsed = parseQuantity(text, ELEMENTS[element].dimension);
  if ('fault' in parsed) throw new Error(parsed.fault);
  return parsed;
}

function sideOf(element: Element, side: SideText | undefined): SideBounds | null {
  if (side === undefined) return null;
  const read = (text: string | undefined) => (text === undefined ? null : boundOf(element, text));
  return { hold: read(side.hold), stop: read(side.stop) };
}

export const limitOf = (element: Element, text: LimitText): ElementLimit => ({
  element,
  when: text.when ?? 'always',
  atLeast: sideOf(element, text.low),
  atMost: sideOf(element, text.high),
  inclusive: text.inclusive ?? false,
  source: text.source ?? 'our rule',
  categories: null,
});

export const limitSet = (elements: readonly ElementLimit[], more: Partial<LimitSet> = {}): LimitSet => ({
  name: 'test set',
  elements,
  clock: [],
  seasons: [],
  ...more,
});

/** Wind 3-12 mph, stop at 15; humidity from 30 %, stop at 20; mixing height from 1700 ft. Common practice, no source. */
export const PLAIN_LIMITS: LimitSet = limitSet([
  limitOf('windSpeed', { low: { hold: '3 mph' }, high: { hold: '12 mph', stop: '15 mph' } }),
  limitOf('relativeHumidity', { low: { hold: '30 %', stop: '20 %' } }),
  limitOf('mixingHeight', { low: { hold: '1700 ft' } }),
]);
