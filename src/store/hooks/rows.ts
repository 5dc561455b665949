// Rows of subscriptions → what the rest of the program knows, and back.

import type { Selectable } from 'kysely';
import type { HookEnd, HookStanding, TryOutcome } from '#core/events/hook-step.ts';
import type { SubscriptionBody } from '#core/events/subscription.ts';
import { fromJson, toJson } from '#store/json.ts';
import type { HookAttempt, HookSecret, KeptHook, Subscription } from './records.ts';
import type { HookTables } from './tables.ts';

export type SubscriptionRow = Selectable<HookTables['subscriptions']>;
export type StateRow = Selectable<HookTables['hookStates']>;

export const asRow = ({ key, body, secrets, ...rest }: Subscription): SubscriptionRow => ({
  ...rest,
  ownerKey: key,
  body: toJson(body),
  secrets: toJson(secrets),
});

export const asKept = (row: SubscriptionRow & StateRow): KeptHook => ({
  subscription: {
    id: row.id,
    organisation: row.organisation,
    revision: row.revision,
    body: fromJson<SubscriptionBody>(row.body),
    key: row.ownerKey,
    secrets: fromJson<HookSecret[]>(row.secrets),
    madeAtMs: row.madeAtMs,
    changedAtMs: row.changedAtMs,
    changedBy: row.changedBy,
  },
  standing: standingOf(row),
  turn: row.turn,
  attempts: row.attempts,
  lastTakenAtMs: row.lastTakenAtMs,
});

function standingOf(row: StateRow): HookStanding {
  const { missedFrom, missedTo, missedCount, endedWhy, endedAtMs } = row;
  return {
    position: row.position,
    refusals: row.refusals,
    firstTriedAtMs: row.firstTriedAtMs,
    failures: row.failures,
    failingSinceMs: row.failingSinceMs,
    nextAtMs: row.nextAtMs,
    missed:
      missedFrom === null || missedTo === null
        ? null
        : { from: missedFrom, to: missedTo, count: missedCount },
    ended: endedWhy === null || endedAtMs === null ? null : { why: endedWhy as HookEnd, atMs: endedAtMs },
  };
}

export const standingColumns = ({ missed, ended, ...rest }: HookStanding) => ({
  ...rest,
  missedFrom: missed?.from ?? null,
  missedTo: missed?.to ?? null,
  missedCount: missed?.count ?? 0,
  endedWhy: ended?.why ?? null,
  endedAtMs: ended?.atMs ?? null,
});

export const asAttempt = ({
  subscription: _,
  ...row
}: Selectable<HookTables['hookAttempts']>): HookAttempt => ({
  ...row,
  outcome: row.outcome as TryOutcome,
});
