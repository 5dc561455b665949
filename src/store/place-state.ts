// What is known of the place of a site: its cell, and the official alerts that touch it.

import type { StoredFault } from './cell-state.ts';

export interface PlaceState {
  /** `38.97,-92.33`: at most four decimals, as the source takes it. */
  readonly place: string;
  /** `BMX 59,84`; null while the place was never resolved. */
  readonly cell: string | null;
  readonly timeZone: string | null;
  /** What the source wants back to go on where it was: the resolved point. JSON. */
  readonly located: unknown;
  readonly locatedAtMs: number | null;
  /** What the source remembers of alerts from one reading to the next. JSON. */
  readonly remembered: unknown;
  /** Hash of the list of alerts in force (a document of kind `alerts`); null before the first reading. */
  readonly alerts: string | null;
  /** When the list was last read [epoch ms]. A newer reading of the same list changes this alone, and no version. */
  readonly alertsFetchedAtMs: number | null;
  /** Set by a failed resolving, cleared by the next good one. */
  readonly fault: StoredFault | null;
  /** Rises by one with every write. */
  readonly version: number;
}
