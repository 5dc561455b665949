// What the look before says to this one: every condition as it stood, so that what was raised, told or known then still counts.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Burn } from '#core/watch/burn.ts';
import { isOpen } from '#core/watch/burn-plan.ts';
import type { Condition } from '#core/watch/condition.ts';
import type { WatchSettings } from '#core/watch/watch-settings.ts';
import type { WatchState } from '#store/watch/records.ts';

/**
 * All of it while the same fire burns, however long nobody looked. Without one, what stood longer ago than observations count
 * is of another day.
 */
export function stoodBefore(
  { conditions, judgedAtMs }: Pick<WatchState, 'conditions' | 'judgedAtMs'>,
  burn: Burn | null,
  { lookBackMin }: Pick<WatchSettings, 'lookBackMin'>,
  nowMs: number,
): readonly Condition[] {
  if (judgedAtMs === null) return [];
  const isOfThisFire = isOpen(burn) && burn.openedAtMs <= judgedAtMs;
  return isOfThisFire || nowMs - judgedAtMs <= lookBackMin * MINUTE_MS ? conditions : [];
}
