import type { ConditionCode } from '#core/watch/condition.ts';

/** Codes whose notices tell from where the wind blows. */
export const OF_WIND: ReadonlySet<ConditionCode> = new Set<ConditionCode>([
  'wind-shifted',
  'wind-drifted',
  'smoke-turned-to-place',
]);
