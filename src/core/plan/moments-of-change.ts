// The moments at which an answer becomes another by the clock alone.

import type { BurnTimes } from '#core/site/site.ts';
import type { Window } from '#core/windows/find-windows.ts';
import { lightUpByMs } from './light-up-by.ts';
import type { DayPlan } from './plan.ts';

export interface MomentsOfChange {
  /** A verdict may turn. */
  readonly verdictsMs: readonly number[];
  /** Nothing but where a day or a window stands turns, as at light-up. */
  readonly standingsMs: readonly number[];
}

/** For the days of a plan; any order, past ones too. */
export function momentsOfChange(
  burn: BurnTimes,
  windows: readonly Window[],
  days: readonly DayPlan[],
): MomentsOfChange {
  const verdictsMs: number[] = [];
  const standingsMs: number[] = [];
  for (const { day, frame, standing, times, wouldChange } of days) {
    const fromMs = Math.min(day.fromMs, frame.fromMs);
    const toMs = Math.max(day.toMs, frame.toMs);
    // Without a burn, or after it, a stop that begins or ends is another verdict of the day.
    const edgesMs = standing === 'none' || standing === 'over' ? verdictsMs : standingsMs;
    edgesMs.push(frame.fromMs, frame.toMs);
    if (times) verdictsMs.push(times.lightUpByMs, times.lastChargeMs);
    if (wouldChange.next) verdictsMs.push(wouldChange.next.atMs);
    for (const w of windows) {
      if (w.toMs <= fromMs || w.fromMs >= toMs) continue;
      edgesMs.push(w.fromMs, w.toMs);
      if (w.verdict === 'go') verdictsMs.push(lightUpByMs(w, burn), w.toMs);
    }
  }
  return { verdictsMs, standingsMs };
}
