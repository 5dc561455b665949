// One turn from claim to commit. Whoever is first to claim it does it; a process that dies leaves it to the next.

import type { Batch } from '#store/batch.ts';
import type { TurnDeps } from './deps.ts';
import { locatePlace } from './locate-place.ts';
import { pullCell } from './pull-cell.ts';
import { readAlerts } from './read-alerts.ts';
import { type Turn, type TurnKind, workOf } from './turn.ts';

export interface TurnTaker {
  /** Throws where the turn is left undone (`store_unavailable`, `claim_lost`, or the signal's reason). */
  take(turn: Turn, signal: AbortSignal): Promise<'done' | 'taken'>;
}

/** What kinds of turn beside forecasts do; they write for themselves. */
export interface OtherTurns {
  heartbeat(signal: AbortSignal): Promise<void>;
  expire(signal: AbortSignal): Promise<void>;
}

/** A claim that nobody renews for so long belongs to a dead process [ms]. */
export const DEAD_AFTER_MS = 30_000;
const RENEW_EVERY_MS = 10_000;

export interface TakerOptions extends TurnDeps {
  readonly others: OtherTurns;
  /** Makes all plans that are due, see planSites; one run at a time. */
  readonly planAll: () => Promise<void>;
  /** Calls again and again until stopped; injected by tests. */
  readonly every: (ms: number, call: () => void) => () => void;
}

export function createTurnTaker(options: TakerOptions): TurnTaker {
  const { store, mirror, planAll, worker, nowMs, log } = options;
  return {
    async take(turn, signal) {
      const work = workOf(turn);
      const claim = () =>
        store.forecasts.claim({
          work,
          cycle: turn.cycle,
          worker,
          nowMs: nowMs(),
          deadAfterMs: DEAD_AFTER_MS,
        });
      const claimed = await claim();
      if (claimed === 'done') return 'done';
      if (claimed === 'taken') return 'taken';
      let renewal: Promise<unknown> = Promise.resolve();
      const stopRenewing = options.every(RENEW_EVERY_MS, () => {
        renewal = claim().catch((fault: unknown) => {
          log.warn({ work, fault: String(fault) }, 'claim not renewed');
        });
      });
      try {
        const batch = await doTurn(options, turn, signal);
        await store.commit({ ...batch, done: [{ work, cycle: turn.cycle, worker }] });
      } catch (fault) {
        // A renewal under way would take back what is let go of.
        stopRenewing();
        await renewal;
        await store.forecasts.release({ work, cycle: turn.cycle, worker }).catch(() => undefined);
        throw fault;
      } finally {
        stopRenewing();
      }
      await afterwards(turn.kind);
      return 'done';
    },
  };

  /** What has been written is at once in force here, and the plans that rest on it are made. */
  async function afterwards(kind: TurnKind): Promise<void> {
    if (kind !== 'locate' && kind !== 'pull' && kind !== 'alerts') return;
    await mirror.sync();
    if (kind !== 'locate') await planAll();
  }
}

async function doTurn(options: TakerOptions, turn: Turn, signal: AbortSignal): Promise<Batch> {
  switch (turn.kind) {
    case 'locate':
      return await locatePlace(options, turn.subject, signal);
    case 'pull':
      return await pullCell(options, turn.subject, turn.cycle, signal);
    case 'alerts':
      return await readAlerts(options, turn.subject, signal);
    case 'plan':
      await options.planAll();
      return {};
    case 'heartbeat':
      await options.others.heartbeat(signal);
      return {};
    case 'expire':
      await options.others.expire(signal);
      return {};
  }
}
