// A position in the notations that people read out: decimal degrees, degrees and minutes, and the reference of the national
// grid.

import { gridReference } from '#core/units/grid-reference.ts';
import { degreesMinutes } from '#core/units/position.ts';
import type { BoardWords } from '#publish/wording/board-words.ts';

/** Five decimals are about a metre. */
export const decimalText = ([lat, lon]: readonly [number, number]): string =>
  `${lat.toFixed(5)}, ${lon.toFixed(5)}`;

export function positionText(
  at: readonly [number, number],
  { letters, datum }: Pick<BoardWords, 'letters' | 'datum'>,
): string {
  const [north, south, east, west] = letters;
  const [lat, lon] = at;
  const minutes = `${axis(lat, north, south)} ${axis(lon, east, west)}`;
  const grid = gridReference({ latDeg: lat, lonDeg: lon });
  return `${decimalText(at)}; ${minutes} (${datum})${grid === null ? '' : `; USNG ${grid}`}`;
}

function axis(deg: number, positive: string, negative: string): string {
  const { degrees, minutes, isNegative } = degreesMinutes(deg);
  return `${degrees}° ${minutes.toFixed(3)}′ ${isNegative ? negative : positive}`;
}
