// Faults counted by station, for a reading.

import { type FaultTally, makeFaultTally } from '#sources/nws/fault-tally.ts';
import type { StationFault } from './observation-source.ts';

export interface Faults {
  of(site: string, station: string): { readonly tally: FaultTally };
  rows(): StationFault[];
}

export function makeFaults(): Faults {
  const tallies = new Map<string, { site: string; station: string; tally: FaultTally }>();
  return {
    of(site, station) {
      const key = `${site} ${station}`;
      const known = tallies.get(key) ?? { site, station, tally: makeFaultTally() };
      tallies.set(key, known);
      return known;
    },
    rows: () =>
      [...tallies.values()].flatMap(({ site, station, tally }) =>
        tally.rows().map((row) => ({ site, station, ...row })),
      ),
  };
}
