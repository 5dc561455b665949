// Readings of all whose word counts: everything of the chosen station, and of the others only what is beyond.

import type { ChosenStation, Watched } from './choose-station.ts';
import { inOrderOfTime, type Reading, type Side } from './latch.ts';
import { strictWatched } from './observed-by.ts';
import type { WatchContext } from './watch-context.ts';

export interface SideAt {
  readonly atMs: number;
  readonly side: Side;
}

/** In order of time. What came out of order and long after is beyond nothing any more. */
export function strictReadings(
  context: WatchContext,
  choice: ChosenStation,
  sidesOf: (watched: Watched) => readonly SideAt[],
): Reading[] {
  const readings = strictWatched(context, choice).flatMap((watched) => {
    const own = sidesOf(watched).map(({ atMs, side }): Reading => {
      const isLate = side === 'beyond' && watched.lateMs.has(atMs);
      const { health, station } = watched;
      return {
        atMs,
        freshUntilMs: atMs + health.freshForMs,
        side: isLate ? 'near' : side,
        station: station.id,
      };
    });
    return watched === choice.chosen ? own : own.filter((r) => r.side === 'beyond');
  });
  return inOrderOfTime(readings);
}
