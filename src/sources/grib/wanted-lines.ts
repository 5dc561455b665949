// Which lines of an index are fetched: what may be one of our elements. What the message then says of itself decides
// (`elements.ts`): an index is a list of contents, not a proof.

import type { IndexEntry } from './index-lines.ts';

type Qualified = (qualifiers: readonly string[]) => boolean;

/** The one forecast; its siblings are spreads, percentiles and probabilities. */
const single: Qualified = (qualifiers) => qualifiers.length === 0;
/** A hundredth of an inch and more. */
const measurable: Qualified = ([first]) => first === 'prob >0.254';
const probability: Qualified = (qualifiers) =>
  qualifiers.length === 1 && qualifiers[0] === 'probability forecast';

interface Wanted {
  readonly element: string;
  readonly level: string;
  readonly qualified: Qualified;
}

const wanted = (element: string, level: string, qualified = single): Wanted => ({
  element,
  level,
  qualified,
});

/** Elements and levels as the indices of NBM and HRRR write them. */
const LINES: readonly Wanted[] = [
  wanted('TMP', '2 m above ground'),
  wanted('DPT', '2 m above ground'),
  wanted('RH', '2 m above ground'),
  wanted('WDIR', '10 m above ground'),
  wanted('WIND', '10 m above ground'),
  wanted('UGRD', '10 m above ground'),
  wanted('VGRD', '10 m above ground'),
  wanted('GUST', '10 m above ground'),
  wanted('GUST', 'surface'),
  wanted('TCDC', 'surface'),
  wanted('MIXHT', 'entire atmosphere'),
  wanted('HPBL', 'surface'),
  wanted('APCP', 'surface'),
  wanted('APCP', 'surface', measurable),
  wanted('TSTM', 'surface', probability),
];

export const isWantedLine = ({ element, level, qualifiers }: IndexEntry): boolean =>
  LINES.some((line) => line.element === element && line.level === level && line.qualified(qualifiers));
