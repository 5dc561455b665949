// Counts of what was handed over, for whoever watches the service.

import type { SendCounts } from '#jobs/watch/send-deps.ts';

export interface SendTally extends SendCounts {
  /** Words that failed, so that the fixed ones went out. */
  unworded(): void;
  read(): {
    readonly deliveries: readonly {
      readonly channel: string;
      readonly outcome: string;
      readonly reason: string;
      readonly count: number;
    }[];
    readonly unworded: number;
    readonly slowestMs: number;
  };
}

export function createSendTally(): SendTally {
  const counts = new Map<string, number>();
  let unworded = 0;
  let slowestMs = 0;
  return {
    delivered(channel, outcome, reason, waitedMs) {
      const key = JSON.stringify([channel, outcome, reason ?? 'none']);
      counts.set(key, (counts.get(key) ?? 0) + 1);
      slowestMs = Math.max(slowestMs, waitedMs);
    },
    unworded() {
      unworded += 1;
    },
    read: () => ({
      deliveries: [...counts].map(([key, count]) => {
        const [channel = '', outcome = '', reason = ''] = JSON.parse(key) as string[];
        return { channel, outcome, reason, count };
      }),
      unworded,
      slowestMs,
    }),
  };
}
