// Published messages in the database. Whoever writes names the round that it read: of two who told the same events one only
// is kept, so that nobody is told the same twice under two names.

import type { Kysely, Selectable, Transaction } from 'kysely';
import type { DatabaseAccess } from './access.ts';
import type { CapAsked, CapFeed, CapHead, CapMessage, CapRecords } from './cap-records.ts';
import type { CapTables } from './cap-tables.ts';
import { chunks } from './chunks.ts';
import { fromJson, toJson } from './json.ts';
import type { Tables } from './tables.ts';

type Row = Selectable<CapTables['capMessages']>;

const HEAD = [
  'organisation',
  'id',
  'number',
  'site',
  'chain',
  'sender',
  'sent',
  'sentMs',
  'expiresMs',
  'headline',
  'summary',
  'ends',
  'told',
] as const;

export function createCapRecords({ reading, writing }: DatabaseAccess): CapRecords {
  return {
    feed: (organisation) =>
      reading(async (db) => {
        const row = await db
          .selectFrom('capFeeds')
          .select(['position', 'round'])
          .where('organisation', '=', organisation)
          .executeTakeFirst();
        return row ?? null;
      }),
    chains: (organisation, chains) =>
      reading(async (db) => {
        const heads: CapHead[] = [];
        for (const some of chunks([...new Set(chains)])) {
          const rows = await db
            .selectFrom('capMessages')
            .select(HEAD)
            .where('organisation', '=', organisation)
            .where('chain', 'in', some)
            .orderBy('chain')
            .orderBy('number')
            .execute();
          heads.push(...rows.map(asHead));
        }
        return heads;
      }),
    open: (organisation) =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('capMessages')
          .select(HEAD)
          .where('organisation', '=', organisation)
          .where('isLast', '=', 1)
          .where('ends', '=', 0)
          .orderBy('chain')
          .execute();
        return rows.map(asHead);
      }),
    add: (organisation, position, replaces, messages) =>
      writing(
        'watch',
        (db) => addAll(db, { organisation, position, replaces, messages }),
        (taken) => taken,
      ),
    message: (organisation, identifier) =>
      reading(async (db) => {
        const row = await db
          .selectFrom('capMessages')
          .select([...HEAD, 'body'])
          .where('organisation', '=', organisation)
          .where('id', '=', identifier)
          .executeTakeFirst();
        if (!row) return null;
        const { body, ...head } = row;
        return { ...asHead(head), body };
      }),
    living: (organisation, asked, sites) => reading((db) => livingIn(db, { organisation, ...asked }, sites)),
  };
}

interface Added {
  readonly organisation: string;
  readonly position: number;
  readonly replaces: CapFeed | null;
  readonly messages: readonly CapMessage[];
}

async function addAll(db: Transaction<Tables>, added: Added): Promise<boolean> {
  const { organisation, messages } = added;
  if (!(await takeRound(db, added))) return false;
  const last = new Map(messages.map(({ chain, identifier }) => [chain, identifier]));
  for (const some of chunks([...last.keys()]))
    await db
      .updateTable('capMessages')
      .set({ isLast: 0 })
      .where('organisation', '=', organisation)
      .where('chain', 'in', some)
      .where('isLast', '=', 1)
      .execute();
  for (const message of messages)
    await db
      .insertInto('capMessages')
      .values(rowOf(message, last.get(message.chain) === message.identifier))
      .execute();
  return true;
}

async function takeRound(
  db: Transaction<Tables>,
  { organisation, position, replaces }: Added,
): Promise<boolean> {
  const round = (replaces?.round ?? 0) + 1;
  const taken =
    replaces === null
      ? await db
          .insertInto('capFeeds')
          .values({ organisation, position, round })
          .onConflict((c) => c.column('organisation').doNothing())
          .returning('round')
          .execute()
      : await db
          .updateTable('capFeeds')
          .set({ position, round })
          .where('organisation', '=', organisation)
          .where('round', '=', replaces.round)
          .returning('round')
          .execute();
  return taken.length > 0;
}

async function livingIn(
  db: Kysely<Tables>,
  { organisation, nowMs, afterMs, most }: CapAsked & { organisation: string },
  sites: readonly string[] | undefined,
): Promise<CapHead[]> {
  const newest: HeadRow[] = [];
  // However much was told since, whoever begins to read is told what stands.
  const standing: HeadRow[] = [];
  for (const some of sites === undefined ? [null] : chunks(sites)) {
    let found = db.selectFrom('capMessages').select(HEAD).where('organisation', '=', organisation);
    if (some !== null) found = found.where('site', 'in', some);
    const byAge = found.where('expiresMs', '>', afterMs).orderBy('sentMs', 'desc').orderBy('id', 'desc');
    newest.push(...(await byAge.limit(most).execute()));
    standing.push(...(await found.where('isLast', '=', 1).where('expiresMs', '>', nowMs).execute()));
  }
  const listed = [...newest.sort(newestFirst).slice(0, most), ...standing];
  return [...new Map(listed.map((row) => [row.id, row])).values()].sort(newestFirst).map(asHead);
}

type HeadRow = Omit<Row, 'body' | 'isLast'>;

const newestFirst = (a: HeadRow, b: HeadRow): number => b.sentMs - a.sentMs || (a.id < b.id ? 1 : -1);

const asHead = ({ id, ends, told, ...row }: HeadRow): CapHead => ({
  ...row,
  identifier: id,
  ends: ends === 1,
  told: fromJson(told),
});

const rowOf = ({ identifier, ends, told, ...message }: CapMessage, isLast: boolean): Row => ({
  ...message,
  id: identifier,
  ends: Number(ends),
  isLast: Number(isLast),
  told: toJson(told),
});
