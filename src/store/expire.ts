// Retention: what is older than asked is dropped in small steps, what is in force never.
//
// A plan is in force until the next one of its site. So of each site the last plan made before the limit stays, whatever
// its age: moments after the limit can still be answered for. Documents go by when something last referred to them; what
// is still in force is noted as used at the limit, and what was used before it is swept.

import { setImmediate } from 'node:timers/promises';
import { type RawBuilder, sql, type Transaction } from 'kysely';
import { type WatchExpired, watchSteps } from '#store/watch/expire-watch.ts';
import type { DatabaseAccess } from './access.ts';
import { USED_TO_MS } from './documents.ts';
import { planAt } from './plans.ts';
import type { StoreCare } from './store.ts';
import type { Tables } from './tables.ts';

const ROWS_AT_ONCE = 500;

type Writing = <T>(write: (transaction: Transaction<Tables>) => Promise<T>) => Promise<T>;

export function createExpire(
  { reading, writing: writingAs }: DatabaseAccess,
  nowMs: () => number,
): StoreCare['expire'] {
  const writing: Writing = (write) => writingAs('expiry', write);
  return async ({ plansMs, claimsMs, repliesMs, burnsMs, observationsMs, auditMs }) => {
    const now = nowMs();
    const beforeMs = now - plansMs;
    const sites = await reading((db) =>
      db.selectFrom('newestPlans').select('site').orderBy('site').execute(),
    );
    let plans = 0;
    for (const { site } of sites) plans += await expirePlans(writing, site, beforeMs);
    return {
      plans,
      documents: await expireDocuments(writing, beforeMs - USED_TO_MS),
      events: await expireEvents(writing, beforeMs),
      calendar: await inSteps(
        writing,
        olderOf('calendarWindows', ['site', 'date', 'number'], 'toMs', beforeMs),
      ),
      audit: await inSteps(writing, oldestOf('audit', 'number', now - auditMs)),
      claims: await inSteps(writing, olderOf('claims', ['work', 'cycle'], 'claimedAtMs', now - claimsMs)),
      replies: await inSteps(writing, olderOf('replies', ['organisation', 'key'], 'atMs', now - repliesMs)),
      cap: await inSteps(writing, olderOf('capMessages', ['organisation', 'id'], 'expiresMs', now - burnsMs)),
      watch: await expireWatch(writing, now - burnsMs, now - observationsMs),
    };
  };
}

/** With the last that went: whoever reads on from before it is told that something is missing. */
async function expireEvents(writing: Writing, beforeMs: number): Promise<number> {
  for (let dropped = 0; ; ) {
    const gone = await writing(async (transaction) => {
      const old = await transaction
        .selectFrom('events')
        .select(['position', 'atMs'])
        .orderBy('position')
        .limit(ROWS_AT_ONCE)
        .execute();
      const stays = old.findIndex(({ atMs }) => atMs >= beforeMs);
      const last = old.slice(0, stays < 0 ? old.length : stays).at(-1)?.position;
      if (last === undefined) return 0;
      const { numDeletedRows } = await transaction
        .deleteFrom('events')
        .where('position', '<=', last)
        .executeTakeFirst();
      await transaction
        .insertInto('counters')
        .values({ name: 'events-dropped', value: last })
        .onConflict((c) => c.column('name').doUpdateSet({ value: last }))
        .execute();
      return Number(numDeletedRows);
    });
    dropped += gone;
    if (gone < ROWS_AT_ONCE) return dropped;
    await setImmediate();
  }
}

async function expireWatch(
  writing: Writing,
  beforeMs: number,
  observedBeforeMs: number,
): Promise<WatchExpired> {
  const dropped: Partial<Record<keyof WatchExpired, number>> = {};
  for (const [table, step] of watchSteps({ beforeMs, observedBeforeMs }, ROWS_AT_ONCE)) {
    dropped[table] = await inSteps(writing, step);
  }
  return dropped as WatchExpired;
}

/** Deletes step by step, letting other work in between, and gives how many rows went. */
async function inSteps(writing: Writing, step: RawBuilder<unknown>): Promise<number> {
  for (let dropped = 0; ; ) {
    const { numAffectedRows } = await writing((transaction) => step.execute(transaction));
    dropped += Number(numAffectedRows ?? 0);
    if (Number(numAffectedRows ?? 0) < ROWS_AT_ONCE) return dropped;
    await setImmediate();
  }
}

/** Rows of a table that is indexed by age. */
function olderOf(
  table: keyof Tables,
  key: readonly string[],
  age: string,
  beforeMs: number,
): RawBuilder<unknown> {
  const columns = sql.join(key.map((column) => sql.ref(column)));
  const old = sql`${sql.ref(age)} < ${beforeMs}`;
  return sql`delete from ${sql.table(table)} where ${old} and (${columns}) in
    (select ${columns} from ${sql.table(table)} where ${old} limit ${sql.lit(ROWS_AT_ONCE)})`;
}

/** Rows of a table that only ever grows: looked at from its old end, and no further than the first that stays. */
const oldestOf = (table: 'audit', key: string, beforeMs: number): RawBuilder<unknown> =>
  sql`delete from ${sql.table(table)} where ${sql.ref(key)} in
    (select ${sql.ref(key)} from
      (select ${sql.ref(key)}, at_ms from ${sql.table(table)} order by ${sql.ref(key)} limit ${sql.lit(ROWS_AT_ONCE)}) as oldest
      where at_ms < ${beforeMs})`;

async function expirePlans(writing: Writing, site: string, beforeMs: number): Promise<number> {
  const inForce = await writing(async (transaction) => {
    const plan = await planAt(transaction, site, beforeMs)
      .select(['number', 'madeAtMs', 'definition', 'document', 'alerts'])
      .executeTakeFirst();
    if (plan)
      await keepUsed(transaction, [plan.definition, plan.document, plan.alerts], beforeMs - USED_TO_MS);
    return plan;
  });
  if (!inForce) return 0;
  const { number, madeAtMs } = inForce;
  return inSteps(
    writing,
    sql`delete from plans where number in
      (select number from plans
        where site = ${site} and made_at_ms <= ${madeAtMs} and (made_at_ms < ${madeAtMs} or number < ${number})
        limit ${sql.lit(ROWS_AT_ONCE)})`,
  );
}

const keepUsed = (transaction: Transaction<Tables>, hashes: readonly string[], usedAtMs: number) =>
  transaction
    .updateTable('documents')
    .set({ usedAtMs })
    .where('hash', 'in', [...hashes].sort())
    .where('usedAtMs', '<', usedAtMs)
    .execute();

async function expireDocuments(writing: Writing, usedBeforeMs: number): Promise<number> {
  await writing((transaction) =>
    transaction
      .updateTable('documents')
      .set({ usedAtMs: usedBeforeMs })
      .where('usedAtMs', '<', usedBeforeMs)
      .where((e) =>
        e.or([
          e('hash', 'in', e.selectFrom('cells').select('document').where('document', 'is not', null)),
          e('hash', 'in', e.selectFrom('places').select('alerts').where('alerts', 'is not', null)),
        ]),
      )
      .execute(),
  );
  return inSteps(writing, olderOf('documents', ['hash'], 'usedAtMs', usedBeforeMs));
}
