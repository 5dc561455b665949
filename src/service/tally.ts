// Counts of this process since it was started, for /metrics.

import type { Tally } from '#jobs/deps.ts';
import type { GaugeReadings } from '#publish/gauges.ts';

export interface Counts extends Tally {
  pulls(): GaugeReadings['pulls'];
  /** Of each cell that failed, by the code of the fault. */
  cellFailures(): GaugeReadings['cellFailures'];
  plansMade(): number;
  eventsMade(): number;
}

type PullKind = GaugeReadings['pulls'][number]['kind'];

export function createTally(): Counts {
  const pulls = new Map<string, { kind: PullKind; outcome: string; count: number }>();
  const count = (kind: PullKind, outcome: string, by = 1): void => {
    const key = `${kind} ${outcome}`;
    pulls.set(key, { kind, outcome, count: (pulls.get(key)?.count ?? 0) + by });
  };
  const failures = new Map<string, { cell: string; code: string; count: number }>();
  const failed = (cell: string, code: string): void => {
    const key = `${cell} ${code}`;
    failures.set(key, { cell, code, count: (failures.get(key)?.count ?? 0) + 1 });
  };
  let plans = 0;
  let events = 0;
  return {
    pulled(cell, outcome, fault) {
      const good = OUTCOMES[outcome];
      count('grid', good ?? fault ?? 'internal');
      if (good === undefined) failed(cell, fault ?? 'internal');
    },
    located: (fault) => count('point', fault ?? 'good'),
    alertsRead(complete, incomplete) {
      if (complete > 0) count('alerts', 'good', complete);
      if (incomplete > 0) count('alerts', 'source_unreachable', incomplete);
    },
    planned(made, differing) {
      plans += made;
      events += differing;
    },
    pulls: () => [...pulls.values()],
    cellFailures: () => [...failures.values()],
    plansMade: () => plans,
    eventsMade: () => events,
  };
}

const OUTCOMES: Readonly<Record<string, string>> = { new: 'good', same: 'unchanged' };
