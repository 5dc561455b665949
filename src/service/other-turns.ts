// The turns beside forecasts: the call to a watchdog elsewhere, and letting go of what is older than asked.

import type { Config } from '#config/schema.ts';
import { DAY_MS } from '#core/units/time.ts';
import type { Periods } from '#jobs/due.ts';
import type { OtherTurns } from '#jobs/take-turn.ts';
import { whyNotWhole } from '#jobs/whole-round.ts';
import type { Mirror } from '#memory/mirror.ts';
import { callHeartbeat } from '#sources/heartbeat.ts';
import type { Store } from '#store/store.ts';

export interface OtherTurnsOptions {
  readonly config: Pick<Config, 'heartbeat' | 'store'>;
  readonly store: Store;
  readonly mirror: Mirror;
  readonly periods: Periods;
  readonly nowMs: () => number;
  readonly watching: Pick<OtherTurns, 'watch' | 'observe'>;
}

/** Claims and replies are of use for hours only. */
const KEEP_CLAIMS_MS = 3 * DAY_MS;

export function otherTurns({
  config,
  store,
  mirror,
  periods,
  nowMs,
  watching,
}: OtherTurnsOptions): OtherTurns {
  return {
    ...watching,
    async heartbeat(signal) {
      const { heartbeat } = config;
      if (heartbeat === undefined) return;
      // Silence is the message: a store that cannot write, or a round that is not whole, is not called well.
      if (whyNotWhole(mirror, periods, nowMs()) !== null) return;
      await store.care.probe(nowMs());
      await callHeartbeat({ url: heartbeat.url }, signal);
    },
    async expire() {
      await store.care.expire({
        plansMs: config.store.keepPlansDays * DAY_MS,
        claimsMs: KEEP_CLAIMS_MS,
        repliesMs: KEEP_CLAIMS_MS,
        burnsMs: config.store.keepBurnsDays * DAY_MS,
        observationsMs: config.store.keepObservationsDays * DAY_MS,
        // Who changed what is part of either record.
        auditMs: Math.max(config.store.keepPlansDays, config.store.keepBurnsDays) * DAY_MS,
      });
    },
  };
}
