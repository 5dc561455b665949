// Burns with their taps, and what was observed.

import type { Kysely } from 'kysely';
import type { Burn, BurnTap } from '#core/watch/burn.ts';
import type { WindBriefing } from '#core/watch/wind-briefing.ts';
import type { DatabaseAccess } from '#store/access.ts';
import { chunks } from '#store/chunks.ts';
import { fromJson } from '#store/json.ts';
import type { Tables } from '#store/tables.ts';
import { incidentsIn } from './incidents.ts';
import type { WatchRecords } from './records.ts';
import { asObservation, asTap } from './rows.ts';

type Reads = 'openBurns' | 'burn' | 'tapsNamed' | 'burns' | 'burnsAt' | 'observations';

export function createBurnReads(access: DatabaseAccess): Pick<WatchRecords, Reads> {
  const { reading } = access;
  return {
    openBurns: (sites) => reading((db) => openBurnsIn(db, sites)),
    burn: (site, id) =>
      reading(async (db) => {
        const row = await db
          .selectFrom('burns')
          .select('body')
          .where('site', '=', site)
          .where('id', '=', id)
          .executeTakeFirst();
        if (!row) return null;
        const taps = await db
          .selectFrom('burnTaps')
          .selectAll()
          .where('site', '=', site)
          .where('burn', '=', id)
          .orderBy('tappedAtMs')
          .orderBy('receivedAtMs')
          .orderBy('id')
          .execute();
        const briefings = await briefingsIn(db, site, [id]);
        const incidents = await incidentsIn(db, site, id);
        return { burn: fromJson<Burn>(row.body), taps: taps.map(asTap), briefings, incidents };
      }),
    tapsNamed: (site, ids) => reading((db) => tapsNamedIn(db, site, ids)),
    burns: (site, fromMs, toMs, most) =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('burns')
          .select('body')
          .where('site', '=', site)
          .where('openedAtMs', '>=', fromMs)
          .where('openedAtMs', '<', toMs)
          .orderBy('openedAtMs', 'desc')
          .limit(most)
          .execute();
        return rows.map((row) => fromJson<Burn>(row.body));
      }),
    burnsAt: (openedByMs, coveredAfterMs) =>
      reading(async (db) => {
        const opened = db
          .selectFrom('burns')
          .select('body')
          .where('openedAtMs', '<=', openedByMs)
          .orderBy('site')
          .orderBy('openedAtMs')
          .orderBy('id');
        const open = await opened.where('closedAtMs', 'is', null).execute();
        const covered = await opened.where('closedAtMs', '>', coveredAfterMs).execute();
        return [...open, ...covered].map((row) => fromJson<Burn>(row.body));
      }),
    observations: observationsIn(access),
  };
}

async function tapsNamedIn(db: Kysely<Tables>, site: string, ids: readonly string[]): Promise<BurnTap[]> {
  const rows = [];
  for (const some of chunks(ids)) {
    const named = db.selectFrom('burnTaps').selectAll().where('site', '=', site).where('id', 'in', some);
    rows.push(...(await named.execute()));
  }
  return rows.map(asTap);
}

export async function briefingsIn(
  db: Kysely<Tables>,
  site: string,
  burns: readonly string[],
): Promise<WindBriefing[]> {
  if (burns.length === 0) return [];
  const rows = await db
    .selectFrom('briefings')
    .select('body')
    .where('site', '=', site)
    .where('burn', 'in', burns)
    .orderBy('atMs')
    .orderBy('id')
    .execute();
  return rows.map((row) => fromJson<WindBriefing>(row.body));
}

/** The newest revision of each; the bound is each station's own, so that a chatty one pushes out no other. */
const observationsIn =
  ({ reading }: DatabaseAccess): WatchRecords['observations'] =>
  (site, sinceMs, mostPerStation, beforeMs = Number.MAX_SAFE_INTEGER) =>
    reading(async (db) => {
      const rows = await db
        .selectFrom((newest) =>
          newest
            .selectFrom('observations as o')
            .selectAll('o')
            .select((e) =>
              e.fn
                .agg<number>('row_number')
                .over((over) => over.partitionBy('o.station').orderBy('o.observedAtMs', 'desc'))
                .as('nth'),
            )
            .where('o.site', '=', site)
            .where('o.observedAtMs', '>=', sinceMs)
            .where('o.observedAtMs', '<', beforeMs)
            .where((e) =>
              e.not(
                e.exists(
                  e
                    .selectFrom('observations as later')
                    .select('later.revision')
                    .whereRef('later.site', '=', 'o.site')
                    .whereRef('later.station', '=', 'o.station')
                    .whereRef('later.observedAtMs', '=', 'o.observedAtMs')
                    .whereRef('later.revision', '>', 'o.revision'),
                ),
              ),
            )
            .as('told'),
        )
        .selectAll()
        .where('told.nth', '<=', mostPerStation)
        .orderBy('told.observedAtMs')
        .orderBy('told.station')
        .execute();
      return rows.map(asObservation);
    });

export async function openBurnsIn(db: Kysely<Tables>, sites?: readonly string[]): Promise<Burn[]> {
  const all = db
    .selectFrom('burns')
    .select('body')
    .where('closedAtMs', 'is', null)
    .orderBy('site')
    .orderBy('openedAtMs')
    .orderBy('id');
  const queries = sites ? chunks(sites).map((some) => all.where('site', 'in', some)) : [all];
  const rows = [];
  for (const query of queries) rows.push(...(await query.execute()));
  return rows.map((row) => fromJson<Burn>(row.body));
}
