// Plans as they were made, and what differed from one to the next.

import type { Kysely, Selectable, Transaction } from 'kysely';
import type { DatabaseAccess } from './access.ts';
import type { Batch } from './batch.ts';
import { chunks } from './chunks.ts';
import { fromJson, toJson } from './json.ts';
import type { PlanRecord } from './plan-record.ts';
import type { PlanRecords } from './store.ts';
import type { Tables } from './tables.ts';

const BASIS = [
  'p.definition',
  'p.document',
  'p.documentReceivedAtMs',
  'p.alerts',
  'p.alertsFetchedAtMs',
  'p.pointTimeZone',
] as const;

export function createPlans({ reading }: DatabaseAccess): PlanRecords {
  return {
    newest: (sites) =>
      reading(async (db) => {
        const all = db
          .selectFrom('newestPlans as n')
          .innerJoin('plans as p', 'p.number', 'n.number')
          .selectAll('p');
        const queries = sites ? chunks(sites).map((some) => all.where('n.site', 'in', some)) : [all];
        const rows = [];
        for (const query of queries) rows.push(...(await query.execute()));
        return rows.map(asPlan).sort((a, b) => (a.site < b.site ? -1 : 1));
      }),
    heads: (sites) =>
      reading(async (db) => {
        const all = db
          .selectFrom('newestPlans as n')
          .innerJoin('plans as p', 'p.number', 'n.number')
          .select(['p.planId', 'p.site', 'p.madeAtMs', 'p.firstDate', 'p.goodUntilMs', ...BASIS]);
        const queries = sites ? chunks(sites).map((some) => all.where('n.site', 'in', some)) : [all];
        const rows = [];
        for (const query of queries) rows.push(...(await query.execute()));
        return rows.map(({ planId, site, madeAtMs, firstDate, goodUntilMs, ...basis }) => ({
          planId,
          site,
          madeAtMs,
          firstDate,
          goodUntilMs,
          basis,
        }));
      }),
    at: (site, atMs) =>
      reading(async (db) => {
        const row = await planAt(db, site, atMs).selectAll().executeTakeFirst();
        return row ? asPlan(row) : null;
      }),
    within: (site, fromMs, toMs, most) =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('plans')
          .selectAll()
          .where('site', '=', site)
          .where('madeAtMs', '>=', fromMs)
          .where('madeAtMs', '<', toMs)
          .orderBy('madeAtMs')
          .orderBy('number')
          .limit(most)
          .execute();
        return rows.map(asPlan);
      }),
  };
}

/** The plan of a site that was the newest at a moment. */
export const planAt = (db: Kysely<Tables>, site: string, atMs: number) =>
  db
    .selectFrom('plans')
    .where('site', '=', site)
    .where('madeAtMs', '<=', atMs)
    .orderBy('madeAtMs', 'desc')
    .orderBy('number', 'desc')
    .limit(1);

/**
 * The plans whose site has the same newest plan still as when they were made. `locks`: others who would follow the same plan wait
 * until this is written; where there is one writer nobody else is at it.
 */
export async function stillNext(
  transaction: Transaction<Tables>,
  { plans = [], follows }: Pick<Batch, 'plans' | 'follows'>,
  locks: boolean,
): Promise<readonly PlanRecord[]> {
  if (follows === undefined || plans.length === 0) return plans;
  const newest = new Map<string, string>();
  for (const some of chunks([...new Set(plans.map(({ site }) => site))].sort())) {
    // First the locks and then a look: what is read while one waits may be old.
    if (locks)
      await transaction
        .selectFrom('newestPlans')
        .select('site')
        .where('site', 'in', some)
        .orderBy('site')
        .forUpdate()
        .execute();
    const rows = await transaction
      .selectFrom('newestPlans as n')
      .innerJoin('plans as p', 'p.number', 'n.number')
      .select(['n.site', 'p.planId'])
      .where('n.site', 'in', some)
      .execute();
    for (const { site, planId } of rows) newest.set(site, planId);
  }
  return plans.filter(({ site }) => (newest.get(site) ?? null) === (follows.get(site) ?? null));
}

/**
 * Adds plans and tells which. One that is kept already is left as it is. `areNext`: each follows the newest of its site, and is
 * the newest from then on whatever a clock that was set back says; else the last made is.
 */
export async function addPlans(
  transaction: Transaction<Tables>,
  plans: NonNullable<Batch['plans']>,
  areNext: boolean,
): Promise<ReadonlySet<string>> {
  const ids = new Set<string>();
  for (const some of chunks(plans)) {
    const added = await transaction
      .insertInto('plans')
      .values(some.map(({ basis, summary, ...plan }) => ({ ...plan, ...basis, summary: toJson(summary) })))
      .onConflict((c) => c.column('planId').doNothing())
      .returning(['number', 'planId', 'site', 'madeAtMs'])
      .execute();
    const newest = new Map<string, (typeof added)[number]>();
    for (const plan of added) {
      ids.add(plan.planId);
      const known = newest.get(plan.site);
      if (
        !known ||
        plan.madeAtMs > known.madeAtMs ||
        (plan.madeAtMs === known.madeAtMs && plan.number > known.number)
      ) {
        newest.set(plan.site, plan);
      }
    }
    if (newest.size > 0) await noteNewest(transaction, [...newest.values()], areNext);
  }
  return ids;
}

type Newest = Selectable<Tables['newestPlans']>;

async function noteNewest(
  transaction: Transaction<Tables>,
  newest: readonly Newest[],
  areNext: boolean,
): Promise<void> {
  const rows = newest.map(({ site, number, madeAtMs }) => ({ site, number, madeAtMs }));
  await transaction
    .insertInto('newestPlans')
    .values(rows.sort((a, b) => (a.site < b.site ? -1 : 1)))
    .onConflict((conflict) => {
      const update = conflict
        .column('site')
        .doUpdateSet((e) => ({ number: e.ref('excluded.number'), madeAtMs: e.ref('excluded.madeAtMs') }));
      return areNext ? update : update.whereRef('excluded.madeAtMs', '>=', 'newestPlans.madeAtMs');
    })
    .execute();
}

function asPlan({ number: _, ...row }: Selectable<Tables['plans']>): PlanRecord {
  const { definition, document, documentReceivedAtMs, alerts, alertsFetchedAtMs, pointTimeZone, ...plan } =
    row;
  return {
    ...plan,
    cause: plan.cause as PlanRecord['cause'],
    basis: { definition, document, documentReceivedAtMs, alerts, alertsFetchedAtMs, pointTimeZone },
    summary: fromJson(plan.summary),
  };
}
