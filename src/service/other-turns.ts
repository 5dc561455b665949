// The turns beside forecasts: the call to a watchdog elsewhere, and letting go of what is older than asked.

import type { Config } from '#config/schema.ts';
import { DAY_MS } from '#core/units/time.ts';
import type { Periods } from '#jobs/due.ts';
import type { OtherTurns } from '#jobs/take-turn.ts';
import { isWatchLate, whyNotWhole } from '#jobs/whole-round.ts';
import type { Mirror } from '#memory/mirror.ts';
import { callHeartbeat } from '#sources/heartbeat.ts';
import type { Store } from '#store/store.ts';
import { tooOld } from './site-freshness.ts';

export interface OtherTurnsOptions {
  readonly config: Pick<Config, 'heartbeat' | 'store'>;
  readonly store: Store;
  readonly mirror: Mirror;
  readonly periods: Periods;
  readonly nowMs: () => number;
  readonly watching: Pick<OtherTurns, 'watch' | 'observe'>;
  /** Makes all plans that are due. */
  readonly planAll: () => Promise<void>;
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
  planAll,
}: OtherTurnsOptions): OtherTurns {
  const isTooOld = tooOld(mirror);
  return {
    ...watching,
    async heartbeat(signal) {
      const { heartbeat } = config;
      if (heartbeat === undefined) return;
      // Silence is the message: a store that cannot write, or a round that is not whole, or a watch that does not
      // look, is not called well.
      // What was pulled is of no use before it is planned.
      await planAll();
      if (whyNotWhole({ mirror, periods, isTooOld }, nowMs()) !== null) return;
      if (isWatchLate(await store.forecasts.lastDoneMs('watch'), nowMs())) return;
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
