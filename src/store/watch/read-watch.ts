// What is known of sites' watches beside burns and messages.

import type { Notice } from '#core/notices/notice.ts';
import type { Silence } from '#core/notices/silence.ts';
import type { DatabaseAccess } from '#store/access.ts';
import { chunks } from '#store/chunks.ts';
import { fromJson } from '#store/json.ts';
import { briefingsIn, openBurnsIn } from './read-burns.ts';
import type { KeptDayText, WatchRecords } from './records.ts';
import { asStood } from './stood.ts';

type Reads = 'state' | 'versions' | 'judged' | 'standing' | 'silences' | 'silence' | 'optOuts' | 'dayTexts';

export function createWatchReads(access: DatabaseAccess): Pick<WatchRecords, Reads> {
  const { reading } = access;
  return {
    state: stateIn(access),
    versions: versionsIn(access),
    judged: () =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('watches')
          .select(['site', 'judgedAtMs'])
          .where('judgedAtMs', 'is not', null)
          .execute();
        return new Map(rows.map(({ site, judgedAtMs }) => [site, judgedAtMs ?? 0]));
      }),
    standing: (sites) =>
      reading(async (db) => {
        const all = db.selectFrom('notices').select('body').where('phase', '<>', 'quiet').orderBy('key');
        const queries = sites ? chunks(sites).map((some) => all.where('site', 'in', some)) : [all];
        const rows = [];
        for (const query of queries) rows.push(...(await query.execute()));
        return rows.map((row) => fromJson<Notice>(row.body));
      }),
    silences: (sites, nowMs) =>
      reading(async (db) => {
        const rows = [];
        for (const some of chunks(sites)) {
          const query = db
            .selectFrom('silences')
            .select('body')
            .where('site', 'in', some)
            .where('untilMs', '>', nowMs)
            .where('endedAtMs', 'is', null)
            .orderBy('untilMs')
            .orderBy('id');
          rows.push(...(await query.execute()));
        }
        return rows.map((row) => fromJson<Silence>(row.body));
      }),
    silence: (id) =>
      reading(async (db) => {
        const row = await db.selectFrom('silences').select('body').where('id', '=', id).executeTakeFirst();
        return row ? fromJson<Silence>(row.body) : null;
      }),
    optOuts: (organisation) =>
      reading((db) =>
        db
          .selectFrom('optOuts')
          .selectAll()
          .where('organisation', '=', organisation)
          .orderBy('contact')
          .execute(),
      ),
    dayTexts: (site, fromDate) =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('dayTexts')
          .selectAll()
          .where('site', '=', site)
          .where('date', '>=', fromDate)
          .orderBy('date')
          .orderBy('atMs')
          .execute();
        return rows.map(({ body, ...row }) => ({
          ...row,
          kind: row.kind as KeptDayText['kind'],
          day: fromJson<KeptDayText['day']>(body),
        }));
      }),
  };
}

const versionsIn =
  ({ reading }: DatabaseAccess): WatchRecords['versions'] =>
  (sites) =>
    reading(async (db) => {
      const all = new Map<string, number>();
      for (const some of chunks(sites)) {
        const query = db.selectFrom('watches').select(['site', 'version']).where('site', 'in', some);
        for (const { site, version } of await query.execute()) all.set(site, version);
      }
      return all;
    });

const stateIn =
  ({ reading }: DatabaseAccess): WatchRecords['state'] =>
  (site, sinceMs) =>
    reading(async (db) => {
      // First: what is written in between makes this one too old to be written from.
      const watch = await db.selectFrom('watches').selectAll().where('site', '=', site).executeTakeFirst();
      const notices = await db
        .selectFrom('notices')
        .select('body')
        .where('site', '=', site)
        .where((e) => e.or([e('phase', '<>', 'quiet'), e('steppedAtMs', '>=', sinceMs)]))
        .orderBy('key')
        .execute();
      const openBurns = await openBurnsIn(db, [site]);
      return {
        site,
        version: watch?.version ?? 0,
        judgedAtMs: watch?.judgedAtMs ?? null,
        conditions: asStood(watch?.stood ?? null),
        notices: notices.map((row) => fromJson<Notice>(row.body)),
        openBurns,
        briefings: await briefingsIn(
          db,
          site,
          openBurns.map(({ id }) => id),
        ),
      };
    });
