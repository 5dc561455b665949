// Where the words of the bounds stand in a lane: beside their lines, at the end and on the side that have most air.

import type { Lane, LaneBound } from './lane.ts';
import { middleMs } from './middle-ms.ts';
import { breadthOf, NARROWEST } from './place-words.ts';
import type { TimeScale } from './time-scale.ts';
import type { ValueScale } from './value-scale.ts';

export interface BoundWord {
  readonly label: string;
  readonly isRight: boolean;
  /** [px from the top] */
  readonly baseline: number;
}

/** Height of a word, and the air that is as good as any more [px]. */
const WORD_PX = 12;
const ENOUGH_PX = 12;

interface Place extends BoundWord {
  readonly air: number;
}

export function boundWords(
  { hours, bounds }: Pick<Lane, 'hours' | 'bounds'>,
  scale: TimeScale,
  values: ValueScale,
): BoundWord[] {
  const found: BoundWord[] = [];
  for (const bound of bounds) {
    const places = placesOf(bound, values).map((place): Place => {
      const middle = place.baseline - WORD_PX / 3;
      const breadth = ((breadthOf(place.label) + 8) / NARROWEST) * 100;
      const isBeside = (x: number): boolean => (place.isRight ? x > 100 - breadth : x < breadth);
      const lines = bounds.filter((b) => b !== bound).map((b) => values.y(b.value));
      const words = found.filter((w) => w.isRight === place.isRight).map((w) => w.baseline - WORD_PX / 3 - 4);
      const traced = hours.flatMap((hour) =>
        hour.value !== null && isBeside(scale.x(middleMs(hour))) ? [values.y(hour.value)] : [],
      );
      const air = Math.min(ENOUGH_PX, ...[...lines, ...words, ...traced].map((y) => Math.abs(y - middle)));
      return { ...place, air };
    });
    const best = places.reduce((a, b) => (b.air > a.air + 1 ? b : a));
    found.push({ label: best.label, isRight: best.isRight, baseline: best.baseline });
  }
  return found;
}

/** Outside of the limit before inside, left before right. */
function placesOf({ value, side, label }: LaneBound, { y }: ValueScale): BoundWord[] {
  const [above, below] = [Math.round(y(value) - 3), Math.round(y(value) + WORD_PX - 1)];
  const baselines = side === 'atMost' ? [above, below] : [below, above];
  return baselines.flatMap((baseline) => [
    { label, isRight: false, baseline },
    { label, isRight: true, baseline },
  ]);
}
