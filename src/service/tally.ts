// Counts of this process since it was started, for /metrics.

import type { Tally } from '#jobs/deps.ts';
import type { GaugeReadings } from '#publish/gauges.ts';

export interface Counts extends Tally {
  pulls(): GaugeReadings['pulls'];
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
  let plans = 0;
  let events = 0;
  return {
    pulled: (outcome, fault) => count('grid', OUTCOMES[outcome] ?? fault ?? 'internal'),
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
    plansMade: () => plans,
    eventsMade: () => events,
  };
}

const OUTCOMES: Readonly<Record<string, string>> = { new: 'good', same: 'unchanged' };
