// The three marks of a burn on the axis: light-up, last charge, covered; where their words stand so that none is cut off.

import { type Anchor, breadthOf, NARROWEST } from './place-words.ts';
import type { TimeScale } from './time-scale.ts';

export interface WantedMark {
  readonly ms: number;
  readonly label: string;
  /** With its date where that is another than the day's. */
  readonly moment: string;
  /** The clock alone, where the date has no room. */
  readonly clock: string;
}

export interface DayMark {
  readonly ms: number;
  /** Of its line and of its words [% of the width]. */
  readonly x: number;
  readonly wordsX: number;
  readonly label: string;
  readonly clock: string;
  /** Each has one of its own, so that no two marks' words can meet. */
  readonly row: number;
  readonly anchor: Anchor;
}

/** Between a line and its words [px]. */
const GAP_PX = 5;

export function dayMarks(wanted: readonly WantedMark[], scale: TimeScale): DayMark[] {
  const marks = wanted.map(({ ms, label, moment, clock }, row): DayMark => {
    const x = scale.x(ms);
    const at = (x / 100) * NARROWEST;
    const breadth = (text: string): number => GAP_PX + breadthOf(`${label} `) + breadthOf(text, true);
    const hasRoom = (text: string): boolean => at + breadth(text) <= NARROWEST || at >= breadth(text);
    const text = hasRoom(moment) ? moment : clock;
    const mark = { ms, x, wordsX: x, label, clock: text, row };
    if (at + breadth(text) <= NARROWEST) return { ...mark, anchor: 'start' };
    if (at >= breadth(text)) return { ...mark, anchor: 'end' };
    return { ...mark, wordsX: 50, anchor: 'middle' };
  });
  // Words that run to the left stay clear of the earlier mark's line where they stand above its beginning.
  const [, second, third] = marks;
  const bothLeft = second?.anchor === 'end' && third?.anchor === 'end';
  return bothLeft ? marks.map((m) => ({ ...m, row: m.row === 0 ? 0 : 3 - m.row })) : marks;
}
