// What the page of a past day asks of the watch.

import type { KeptObservation } from './records.ts';

export interface HistoryReads {
  /** The newest revisions of what was observed within [from, to), in order of time; at most `most`. */
  observedWithin(site: string, fromMs: number, toMs: number, most: number): Promise<KeptObservation[]>;
}
