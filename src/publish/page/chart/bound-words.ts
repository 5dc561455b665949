// Where the words of the bounds stand in a lane: beside their lines, where they have most air.

import type { Lane, LaneBound } from './lane.ts';
import { middleMs } from './middle-ms.ts';
import { breadthOf, NARROWEST } from './place-words.ts';
import type { TimeScale } from './time-scale.ts';
import type { ValueScale } from './value-scale.ts';

export interface BoundWord {
  readonly label: string;
  /** At the left edge, at the right one, or with its middle there [% of the width]. */
  readonly x: number;
  /** [px from the top] */
  readonly baseline: number;
}

/** Height of a word, and the air that is as good as any more [px]. */
const WORD_PX = 12;
const ENOUGH_PX = 12;
/** From one value of the line to the next. */
const STEPS = 6;
/** The edges are read first. */
const PLACES_X = [0, 100, 50, 30, 70];

interface Placed extends BoundWord {
  readonly air: number;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

export function boundWords(
  { hours, bounds }: Pick<Lane, 'hours' | 'bounds'>,
  scale: TimeScale,
  values: ValueScale,
): BoundWord[] {
  const found: BoundWord[] = [];
  const trace = traceOf(hours, scale, values);
  for (const bound of bounds) {
    const lines = bounds.filter((b) => b !== bound).map((b) => values.y(b.value));
    const places = placesOf(bound, values).map((place): Placed => {
      const middle = middleOf(place);
      const [from, to] = extentOf(place);
      const traced = trace.filter(({ x }) => from < x && x < to).map(({ y }) => y);
      const words = found
        .filter((w) => extentOf(w)[0] < to && from < extentOf(w)[1])
        .map((w) => middleOf(w) - 4);
      const air = Math.min(ENOUGH_PX, ...[...lines, ...words, ...traced].map((y) => Math.abs(y - middle)));
      return { ...place, air };
    });
    const best = places.reduce((a, b) => (b.air > a.air + 1 ? b : a));
    found.push({ label: best.label, x: best.x, baseline: best.baseline });
  }
  return found;
}

const middleOf = ({ baseline }: BoundWord): number => baseline - WORD_PX / 3;

/** Where it begins and ends on the narrowest screen [% of the width]. */
function extentOf({ label, x }: BoundWord): [number, number] {
  const breadth = ((breadthOf(label) + 8) / NARROWEST) * 100;
  const from = Math.min(100 - breadth, Math.max(0, x - breadth / 2));
  return [from, from + breadth];
}

/** The line as it is drawn: the values, and points on the way from each to the next. */
function traceOf(hours: Lane['hours'], { x }: TimeScale, { y }: ValueScale): Point[] {
  return hours.flatMap((hour, i) => {
    if (hour.value === null) return [];
    const here = { x: x(middleMs(hour)), y: y(hour.value) };
    const next = hours[i + 1];
    if (next === undefined || next.value === null) return [here];
    const there = { x: x(middleMs(next)), y: y(next.value) };
    return Array.from({ length: STEPS }, (_, step) => ({
      x: here.x + ((there.x - here.x) * step) / STEPS,
      y: here.y + ((there.y - here.y) * step) / STEPS,
    }));
  });
}

/** Outside of the limit before inside, left before right, the edges before the midst. */
function placesOf({ value, side, label }: LaneBound, { y }: ValueScale): BoundWord[] {
  const [above, below] = [Math.round(y(value) - 3), Math.round(y(value) + WORD_PX - 1)];
  const baselines = side === 'atMost' ? [above, below] : [below, above];
  return baselines.flatMap((baseline) => PLACES_X.map((x) => ({ label, x, baseline })));
}
