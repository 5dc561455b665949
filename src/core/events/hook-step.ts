// What a try at a receiver makes of its subscription: on to the next event, again later, or no more. Pure.

import { DAY_MS, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { LoggedEvent } from './event.ts';

/** gone: it answered 410. failing: nothing was taken for too long. key: the key that wrote it has ended. */
export type HookEnd = 'gone' | 'failing' | 'key';

/** Events that it did not get and is told of: they can be read in the log, and sent anew. */
export interface Missed {
  /** Position of the first and of the last of them. */
  readonly from: number;
  readonly to: number;
  readonly count: number;
}

export interface HookStanding {
  /** Everything up to it was sent, or counted as missed. */
  readonly position: number;
  /** Times that what is next was refused. */
  readonly refusals: number;
  /** When what is next was first tried [epoch ms]; null: not yet. */
  readonly firstTriedAtMs: number | null;
  /** In a row, whatever they were at. */
  readonly failures: number;
  /** Since when nothing was taken [epoch ms]; null: the last try was taken. */
  readonly failingSinceMs: number | null;
  /** No try before it [epoch ms]. */
  readonly nextAtMs: number;
  readonly missed: Missed | null;
  readonly ended: { readonly why: HookEnd; readonly atMs: number } | null;
}

/** refused: it read that very message and will not have it. failed: anything else that is no success. */
export type TryOutcome = 'taken' | 'refused' | 'failed' | 'gone';

export interface Tried {
  readonly outcome: TryOutcome;
  /** A pause that it asked for [ms]. */
  readonly afterMs: number | null;
}

/** Ours: soon enough for a message of half an hour, rare enough for a receiver that is down for a day. */
export const WAITS_MS = [5, 15, 30, 60, 120, 300, 600, 900].map((s) => s * 1000);
/** What has no end of its own is tried for so long. */
export const FACT_LIFE_MS = DAY_MS;
/** Over a weekend somebody may not look. */
export const FAILING_FOR_MS = 72 * HOUR_MS;
/** And not by a clock that leapt alone. */
export const FAILURES_TO_END = 20;
/** What is refused so often is left out: it must not hold back a stop that comes after it. */
export const MOST_REFUSALS = 3;
/** No pause that a receiver asks for is longer. */
export const MOST_RETRY_AFTER_MS = 10 * MINUTE_MS;

export const fresh = (position: number): HookStanding => ({
  position,
  refusals: 0,
  firstTriedAtMs: null,
  failures: 0,
  failingSinceMs: null,
  nextAtMs: 0,
  missed: null,
  ended: null,
});

/** Between half of it and all, so that those who failed together do not come back together. `random` in [0, 1). */
export const waitMs = (failures: number, random: number): number =>
  Math.round((WAITS_MS[Math.min(failures, WAITS_MS.length) - 1] ?? 0) * (0.5 + random / 2));

/** The next of the log, or word of what was missed. */
export type Head = Pick<LoggedEvent, 'position' | 'validUntilMs'> | 'missed';

export function afterTry(
  was: HookStanding,
  head: Head,
  { outcome, afterMs }: Tried,
  nowMs: number,
  random: number,
): HookStanding {
  if (outcome === 'taken') {
    const { position, missed } = was;
    return head === 'missed' ? fresh(position) : { ...fresh(head.position), missed };
  }
  const failures = was.failures + 1;
  const failingSinceMs = was.failingSinceMs ?? nowMs;
  const refusals = was.refusals + (outcome === 'refused' ? 1 : 0);
  const firstTriedAtMs = was.firstTriedAtMs ?? nowMs;
  const waited = waitMs(outcome === 'refused' ? refusals : failures, random);
  const failed: HookStanding = {
    ...was,
    ...{ refusals, firstTriedAtMs, failures, failingSinceMs },
    nextAtMs: nowMs + Math.max(waited, afterMs ?? 0),
  };
  if (outcome === 'gone') return { ...failed, ended: { why: 'gone', atMs: nowMs } };
  if (failures >= FAILURES_TO_END && nowMs - failingSinceMs >= FAILING_FOR_MS)
    return { ...failed, ended: { why: 'failing', atMs: nowMs } };
  if (outcome === 'refused' && refusals >= MOST_REFUSALS) {
    // It answers: what comes next need not wait.
    if (head === 'missed')
      return { ...failed, missed: null, refusals: 0, firstTriedAtMs: null, nextAtMs: nowMs };
    return { ...withMissed(failed, head), nextAtMs: nowMs };
  }
  return failed;
}

/** Leaves out what of the next events nobody is to go by any more, while the receiver cannot be reached. */
export function leaveOutDead(
  was: HookStanding,
  next: readonly Pick<LoggedEvent, 'position' | 'validUntilMs'>[],
  nowMs: number,
): HookStanding {
  let standing = was;
  for (const event of next) {
    if (standing.failures === 0 || nowMs < endOf(standing, event)) break;
    standing = withMissed(standing, event);
  }
  return standing;
}

/** Until when an event is tried again [epoch ms]. One that had none is tried for a day. */
function endOf(
  { firstTriedAtMs }: HookStanding,
  { validUntilMs }: Pick<LoggedEvent, 'validUntilMs'>,
): number {
  if (validUntilMs !== null) return validUntilMs;
  return firstTriedAtMs === null ? Number.POSITIVE_INFINITY : firstTriedAtMs + FACT_LIFE_MS;
}

/** As if it had been sent, and counted. */
function withMissed(was: HookStanding, { position }: { readonly position: number }): HookStanding {
  const { from = position, count = 0 } = was.missed ?? {};
  return {
    ...was,
    position,
    refusals: 0,
    firstTriedAtMs: null,
    missed: { from, to: position, count: count + 1 },
  };
}

/** Retention dropped what was next: nobody knows how many of them it would have got. */
export const withDropped = (was: HookStanding, dropped: number): HookStanding => ({
  ...was,
  position: Math.max(was.position, dropped),
  missed: {
    from: was.missed?.from ?? was.position + 1,
    to: Math.max(dropped, was.missed?.to ?? 0),
    count: was.missed?.count ?? 0,
  },
});
