// One turn from claim to commit. Whoever is first to claim it does it; a process that dies leaves it to the next.

import { ServiceError } from '#errors.ts';
import type { Batch } from '#store/batch.ts';
import type { TurnDeps } from './deps.ts';
import { locatePlace } from './locate-place.ts';
import { pullCell } from './pull-cell.ts';
import { readAlerts } from './read-alerts.ts';
import { type Turn, workOf } from './turn.ts';

export interface TurnTaker {
  /** Throws where the turn is left undone (`store_unavailable`, `claim_lost`, or the signal's reason). */
  take(turn: Turn, signal: AbortSignal): Promise<'done' | 'taken'>;
}

/** What kinds of turn beside forecasts do; they write for themselves. */
export interface OtherTurns {
  /** Looks at every site that is watched, see watchAll. */
  watch(signal: AbortSignal): Promise<void>;
  /** Asks the stations of the sites that are watched. */
  observe(signal: AbortSignal): Promise<void>;
  heartbeat(signal: AbortSignal): Promise<void>;
  expire(signal: AbortSignal): Promise<void>;
}

export interface TakerOptions extends TurnDeps {
  readonly others: OtherTurns;
  /** A claim that nobody renews for so long belongs to a dead process; the same in all processes [ms]. */
  readonly deadAfterMs: number;
  /** Told that a place has become known, and with it perhaps a cell that is due. */
  readonly located: () => void;
  /** Makes all plans that are due, see planSites; one run at a time. */
  readonly planAll: () => Promise<void>;
  /** The same for these sites alone. */
  readonly planSome: (siteKeys: readonly string[]) => Promise<void>;
  /** Calls again and again until stopped; injected by tests. */
  readonly every: (ms: number, call: () => void) => () => void;
}

/** Renewals within the life of a claim: one or two may be lost or late. */
const RENEWALS = 3;

export function createTurnTaker(options: TakerOptions): TurnTaker {
  const { store, worker, deadAfterMs } = options;
  // A claim tells processes apart. One that the queue hands the same work twice must not be at it twice either.
  const underWay = new Set<string>();

  async function takeClaimed(turn: Turn, signal: AbortSignal): Promise<'done' | 'taken'> {
    const work = workOf(turn);
    const { cycle } = turn;
    const claim = () => store.forecasts.claim({ work, cycle, worker, deadAfterMs });
    const claimed = await claim();
    if (claimed !== 'ours') return claimed;
    const renewing = renewAgainAndAgain(options, work, claim);
    let batch: Batch;
    try {
      batch = await doTurn(options, turn, AbortSignal.any([signal, renewing.lost]));
      renewing.lost.throwIfAborted();
      await store.commit({ ...batch, done: [{ work, cycle, worker }] });
    } catch (fault) {
      // A renewal under way would take back what is let go of.
      await renewing.stop();
      await store.forecasts.release({ work, cycle, worker }).catch(() => undefined);
      throw fault;
    } finally {
      void renewing.stop();
    }
    await afterwards(options, turn, batch);
    return 'done';
  }

  return {
    async take(turn, signal) {
      const work = workOf(turn);
      if (underWay.has(work)) return 'taken';
      underWay.add(work);
      try {
        return await takeClaimed(turn, signal);
      } finally {
        underWay.delete(work);
      }
    },
  };
}

interface Renewing {
  /** Aborted with `claim_lost` where the work is somebody else's by now: nothing more is to be asked for it. */
  readonly lost: AbortSignal;
  stop(): Promise<unknown>;
}

function renewAgainAndAgain(
  { every, deadAfterMs, log }: TakerOptions,
  work: string,
  claim: () => Promise<'ours' | 'taken' | 'done'>,
): Renewing {
  const lost = new AbortController();
  const lose = (): void =>
    lost.abort(
      new ServiceError('claim_lost', `another worker has taken over "${work}"`, { facts: { work } }),
    );
  let failed = 0;
  let renewal: Promise<unknown> = Promise.resolve();
  const renew = async (): Promise<void> => {
    try {
      if ((await claim()) !== 'ours') lose();
      failed = 0;
    } catch (fault) {
      log.warn({ work, fault: String(fault) }, 'claim not renewed');
      failed += 1;
      // As long as a claim lives: whoever can reach the store may have it.
      if (failed >= RENEWALS) lose();
    }
  };
  const stop = every(deadAfterMs / RENEWALS, () => {
    renewal = renew();
  });
  return {
    lost: lost.signal,
    stop() {
      stop();
      return renewal;
    },
  };
}

/** What has been written is at once in force here, and the plans that rest on it are made. */
async function afterwards(
  { mirror, planAll, planSome, located }: TakerOptions,
  { kind, subject }: Turn,
  batch: Batch,
): Promise<void> {
  // A place resolved brings no answer yet, but perhaps a cell that is due.
  if (kind === 'locate') return located();
  if (kind !== 'pull' && kind !== 'alerts') return;
  if (kind === 'pull' && (batch.places ?? []).length === 0) return await planSome(mirror.sitesIn(subject));
  await mirror.sync();
  await planAll();
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
    case 'watch':
      await options.others.watch(signal);
      return {};
    case 'observe':
      await options.others.observe(signal);
      return {};
    case 'heartbeat':
      await options.others.heartbeat(signal);
      return {};
    case 'expire':
      await options.others.expire(signal);
      return {};
  }
}
