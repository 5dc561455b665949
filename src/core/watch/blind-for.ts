import { MINUTE_MS } from '#core/units/time.ts';

/**
 * What cannot be read is told after so long: one answer that fails is soon followed by one that does not, and who comes back
 * after a pause reads first. Until then the verdict is a hold all the same. Ours: no source.
 */
export const BLIND_FOR_MS = 5 * MINUTE_MS;
