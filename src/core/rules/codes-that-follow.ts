// Codes of findings that bar no day of themselves, for whoever tells why a day has no go.

import type { FindingCode } from './finding.ts';

/** They come with the clock and the sun of any day. */
const OF_THE_CLOCK: readonly FindingCode[] = [
  'soon-after-sunrise',
  'near-sunset',
  'warming-up',
  'clock-before',
  'clock-charge',
  'clock-out',
];

/** Nobody is there, or nobody may be: time that no weather opens. */
export const SHUT: ReadonlySet<string> = new Set<FindingCode>(['dark', 'off-shift']);

/** They follow from other findings, or from the clock. */
export const MINOR: ReadonlySet<string> = new Set<string>([...SHUT, ...OF_THE_CLOCK, 'burn-down-ahead']);

/** They follow from limits, from each other or from the clock. */
export const FOLLOWING: ReadonlySet<string> = new Set<FindingCode>([
  ...OF_THE_CLOCK,
  'burn-down-ahead',
  'short-run',
  'over-limit',
  'under-limit',
]);
