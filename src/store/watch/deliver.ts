// Deliveries handed out for sending, each to one worker at a time, and what came of them.

import type { Transaction } from 'kysely';
import { leaseFault } from '#core/notices/lease-fits.ts';
import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from '#store/access.ts';
import { chunks } from '#store/chunks.ts';
import { toJson } from '#store/json.ts';
import type { Tables } from '#store/tables.ts';
import type { ClaimDeliveries, ClaimedDelivery, Settlement, WatchRecords } from './records.ts';
import { asDelivery } from './rows.ts';

/** No try lies further ahead; what does was put there before the clock was set back. */
const AHEAD_MS = 300_000;
/** Clocks of two workers may differ by so much. */
const CLOCKS_DIFFER_MS = 60_000;

/** The first claim stays counted: what has none is claimed at once, and would be for ever. */
const NEVER_TRIED = { tries: 1, triedAtMs: null };

/** The detail of what a silence holds back. */
const HELD = 'silenced';

type Sending = 'claimDeliveries' | 'releaseHeld' | 'releaseClaims' | 'settle' | 'pending' | 'undelivered';

export function createDeliver({ database, reading, writing }: DatabaseAccess): Pick<WatchRecords, Sending> {
  return {
    claimDeliveries: async (claim) => {
      const fault = leaseFault(claim);
      if (fault !== null) throw new ServiceError('internal', `deliveries cannot be claimed: ${fault}`);
      return writing(
        'deliveries',
        (transaction) => claimDue(transaction, claim, database.kind === 'postgres'),
        (claimed) => claimed.length > 0,
      );
    },
    releaseHeld: releasing(writing),
    releaseClaims: () =>
      writing(
        'deliveries',
        async (transaction) => {
          const freed = await transaction
            .updateTable('deliveries')
            .set({ leaseUntilMs: null })
            .where('outcome', 'is', null)
            .where('leaseUntilMs', 'is not', null)
            .executeTakeFirst();
          return Number(freed.numUpdatedRows);
        },
        (freed) => freed > 0,
      ),
    settle: (settlements) =>
      writing(
        'deliveries',
        async (transaction) => {
          const lost: string[] = [];
          // In one order for all, so that nobody waits for ever.
          for (const one of settlements.toSorted((a, b) => (a.id < b.id ? -1 : 1))) {
            if (!(await settleOne(transaction, one))) lost.push(one.id);
          }
          return lost;
        },
        (lost) => lost.length < settlements.length,
      ),
    pending: (nowMs) =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('deliveries')
          .select(['dueAtMs', 'leaseUntilMs'])
          .where('outcome', 'is', null)
          .execute();
        const claimed = rows.filter((row) => (row.leaseUntilMs ?? 0) > nowMs).length;
        const oldestDueMs = rows.length === 0 ? null : Math.min(...rows.map((row) => row.dueAtMs));
        return { waiting: rows.length - claimed, claimed, oldestDueMs };
      }),
    undelivered: (sinceMs, most, sites) =>
      reading(async (db) => {
        const all = db
          .selectFrom('deliveries')
          .selectAll()
          .where('outcome', 'in', ['failed', 'uncertain', 'expired'])
          .where('dueAtMs', '>=', sinceMs)
          .orderBy('dueAtMs', 'desc')
          .orderBy('id')
          .limit(most);
        const queries = sites ? chunks(sites).map((some) => all.where('site', 'in', some)) : [all];
        const rows = [];
        for (const query of queries) rows.push(...(await query.execute()));
        return rows
          .sort((a, b) => b.dueAtMs - a.dueAtMs)
          .slice(0, most)
          .map(asDelivery);
      }),
  };
}

async function claimDue(
  transaction: Transaction<Tables>,
  claim: ClaimDeliveries,
  skipsLocked: boolean,
): Promise<ClaimedDelivery[]> {
  await expire(transaction, claim);
  const picked = await pick(transaction, claim, skipsLocked);
  const ids = picked.map(({ id }) => id);
  const tried = new Set(picked.flatMap(({ id, triedAtMs }) => (triedAtMs === null ? [] : [id])));
  const claimed: ClaimedDelivery[] = [];
  for (const some of chunks(ids)) claimed.push(...(await take(transaction, some, tried, claim)));
  return claimed.sort((a, b) => ids.indexOf(a.id) - ids.indexOf(b.id));
}

/** What nobody holds, or whoever held it has lost: a lease dated far ahead came from a clock that was wrong. */
const unheld = (transaction: Transaction<Tables>, { nowMs, leaseMs }: ClaimDeliveries) =>
  transaction
    .selectFrom('deliveries')
    .select('id')
    .where('outcome', 'is', null)
    .where((e) =>
      e.or([
        e('leaseUntilMs', 'is', null),
        e('leaseUntilMs', '<=', nowMs),
        e('leaseUntilMs', '>', nowMs + leaseMs + CLOCKS_DIFFER_MS),
      ]),
    );

async function expire(transaction: Transaction<Tables>, claim: ClaimDeliveries): Promise<void> {
  await transaction
    .updateTable('deliveries')
    .set({ outcome: 'expired', settledAtMs: claim.nowMs })
    .where('id', 'in', unheld(transaction, claim).where('validUntilMs', '<', claim.nowMs))
    .where('outcome', 'is', null)
    .execute();
}

/**
 * The most urgent of each channel that has room. On PostgreSQL those that another transaction is at are passed over;
 * SQLite has one at a time.
 */
async function pick(
  transaction: Transaction<Tables>,
  claim: ClaimDeliveries,
  skipsLocked: boolean,
): Promise<{ readonly id: string; readonly triedAtMs: number | null }[]> {
  const { nowMs, most, room = new Map<string, number>() } = claim;
  const due = unheld(transaction, claim)
    .select('triedAtMs')
    .where('validUntilMs', '>=', nowMs)
    .where((e) => {
      const next = e.fn.coalesce('notBeforeMs', 'dueAtMs');
      return e.or([e('tries', '=', 0), e(next, '<=', nowMs), e(next, '>', nowMs + AHEAD_MS)]);
    })
    .orderBy('urgency')
    .orderBy('dueAtMs');
  const named = [...room.keys()];
  const queries = [
    ...[...room].map(([channel, many]) => ({ many, query: due.where('channel', '=', channel) })),
    { many: most, query: named.length === 0 ? due : due.where('channel', 'not in', named) },
  ];
  const picked = [];
  for (const { many, query } of queries) {
    if (many <= 0) continue;
    const some = query.limit(many);
    const rows = await (skipsLocked ? some.forUpdate().skipLocked() : some).execute();
    picked.push(...rows);
  }
  return picked;
}

async function take(
  transaction: Transaction<Tables>,
  ids: readonly string[],
  tried: ReadonlySet<string>,
  { worker, nowMs, leaseMs }: ClaimDeliveries,
): Promise<ClaimedDelivery[]> {
  const rows = await transaction
    .updateTable('deliveries')
    .set((e) => ({
      worker,
      token: e('token', '+', 1),
      tries: e('tries', '+', 1),
      leaseUntilMs: nowMs + leaseMs,
      triedAtMs: e.fn.coalesce('triedAtMs', e.val(nowMs)),
    }))
    .where('id', 'in', ids)
    .returningAll()
    .execute();
  return rows.map((row) => ({
    ...asDelivery(row),
    token: row.token,
    wasTried: tried.has(row.id),
    leaseUntilMs: row.leaseUntilMs ?? nowMs + leaseMs,
  }));
}

/** False where another worker has taken it over, or settled it. */
async function settleOne(transaction: Transaction<Tables>, s: Settlement): Promise<boolean> {
  const came =
    s.outcome === 'again'
      ? { leaseUntilMs: null, notBeforeMs: Math.min(s.notBeforeMs ?? s.atMs, s.atMs + AHEAD_MS) }
      : { outcome: s.outcome, settledAtMs: s.atMs };
  const said = {
    ...(s.said === null ? {} : { said: s.said }),
    ...(s.parts === undefined ? {} : { parts: toJson(s.parts) }),
  };
  const settled = await transaction
    .updateTable('deliveries')
    .set((e) => ({
      ...came,
      ...(s.isUntried === true && (s.wasTried === true ? { tries: e('tries', '-', 1) } : NEVER_TRIED)),
      ...said,
      detail: s.detail,
    }))
    .where('id', '=', s.id)
    .where('token', '=', s.token)
    .where('outcome', 'is', null)
    .where('leaseUntilMs', 'is not', null)
    .executeTakeFirst();
  return settled.numUpdatedRows > 0n;
}

const releasing =
  (writing: DatabaseAccess['writing']): WatchRecords['releaseHeld'] =>
  (sites, nowMs) =>
    writing(
      'deliveries',
      (transaction) => release(transaction, sites, nowMs),
      (many) => many > 0,
    );

async function release(
  transaction: Transaction<Tables>,
  sites: Iterable<string>,
  nowMs: number,
): Promise<number> {
  let many = 0;
  for (const some of chunks([...sites])) {
    const freed = await transaction
      .updateTable('deliveries')
      .set({ notBeforeMs: nowMs })
      .where('site', 'in', some)
      .where('outcome', 'is', null)
      .where('detail', '=', HELD)
      .where('notBeforeMs', '>', nowMs)
      .executeTakeFirst();
    many += Number(freed.numUpdatedRows);
  }
  return many;
}
