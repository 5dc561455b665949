// A store made again from a backup: into an empty one, all or nothing, and only where the file is whole.

import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import { createZstdDecompress } from 'node:zlib';
import { sql, type Transaction } from 'kysely';
import { messageOf, ServiceError } from '#errors.ts';
import { migrationsFor } from '#store/migrations/all.ts';
import type { DatabaseAccess } from './access.ts';
import {
  BACKUP_FORMAT,
  BACKUP_TABLES,
  type BackupHead,
  type BackupSection,
  type BackupTail,
} from './backup-tables.ts';
import { newer } from './migrate.ts';
import type { BackupSummary, Store } from './store.ts';
import type { Tables } from './tables.ts';

const ROWS_AT_ONCE = 200;

export function createRestore({ database, writing }: DatabaseAccess): Store['restore'] {
  const known = Object.keys(migrationsFor(database.columnTypes));
  return async (fromFile) => {
    await verify(fromFile, known);
    return writing('restore', async (transaction) => {
      await refuseUnlessEmpty(transaction);
      const summary = await fill(transaction, fromFile, known);
      await database.resumeCounting(transaction);
      return summary;
    });
  };
}

/** Reads all of it once, so that nothing of a spoiled file ever reaches the database. */
async function verify(file: string, known: readonly string[]): Promise<void> {
  const values = valuesOf(file);
  headIn(file, (await values.next()).value, known);
  for await (const value of values) {
    if (isTail(value)) return;
  }
}

async function refuseUnlessEmpty(transaction: Transaction<Tables>): Promise<void> {
  for (const { table } of BACKUP_TABLES) {
    const { rows } = await sql`select 1 from ${sql.table(table)} limit 1`.execute(transaction);
    if (table !== 'counters' && rows.length > 0) {
      throw new ServiceError('store_not_empty', 'the store is not empty: restore into a new one');
    }
  }
  // The first tables come with counters at zero.
  await transaction.deleteFrom('counters').execute();
}

async function fill(
  transaction: Transaction<Tables>,
  file: string,
  known: readonly string[],
): Promise<BackupSummary> {
  const counts: Record<string, number> = Object.fromEntries(BACKUP_TABLES.map(({ table }) => [table, 0]));
  const values = valuesOf(file);
  const head = headIn(file, (await values.next()).value, known);
  let section: BackupSection | null = null;
  let waiting: object[] = [];
  const insert = async (): Promise<void> => {
    if (section === null || waiting.length === 0) return;
    await transaction
      .insertInto(section.table)
      .values(waiting as never)
      .execute();
    counts[section.table] = (counts[section.table] ?? 0) + waiting.length;
    waiting = [];
  };
  let tail: BackupTail | null = null;
  for await (const value of values) {
    if (!Array.isArray(value)) {
      await insert();
      if (isTail(value)) tail = value;
      else section = sectionIn(file, value);
      continue;
    }
    if (section === null) throw unreadable(file, 'a row belongs to no table');
    waiting.push(rowIn(section, value));
    if (waiting.length >= ROWS_AT_ONCE) await insert();
  }
  for (const { table } of BACKUP_TABLES) {
    // A table that came after the backup was made has none.
    if (counts[table] !== (tail?.rows[table] ?? 0)) throw unreadable(file, `rows of ${table} are missing`);
  }
  return { madeAtMs: head.madeAtMs, rows: counts };
}

const isTail = (value: object): value is BackupTail => 'sha256' in value;

/** The lines of a whole backup, its last one at the end. Throws where it is not whole. */
async function* valuesOf(file: string): AsyncGenerator<object> {
  const hash = createHash('sha256');
  let tail: BackupTail | null = null;
  for await (const line of linesOf(file)) {
    if (tail !== null) throw unreadable(file, 'it goes on after its end');
    const value = parse(file, line);
    if (isTail(value)) tail = value;
    else {
      hash.update(line).update('\n');
      yield value;
    }
  }
  if (tail === null) throw unreadable(file, 'its end is missing');
  if (hash.digest('hex') !== tail.sha256) throw unreadable(file, 'its checksum is wrong');
  yield tail;
}

function headIn(file: string, value: object, known: readonly string[]): BackupHead {
  const head = value as BackupHead;
  if (typeof head.pitwardBackup !== 'number' || !Array.isArray(head.schema)) {
    throw unreadable(file, 'it is no backup of Pitward');
  }
  const unknown = head.schema.filter((name) => !known.includes(name));
  if (head.pitwardBackup > BACKUP_FORMAT || unknown.length > 0) {
    throw newer(`the backup ${file}`, unknown);
  }
  return head;
}

function sectionIn(file: string, value: object): BackupSection {
  const section = value as BackupSection;
  if (BACKUP_TABLES.some(({ table }) => table === section.table) && Array.isArray(section.columns))
    return section;
  throw unreadable(file, 'it holds a table that is none of ours');
}

const rowIn = ({ columns }: BackupSection, values: readonly unknown[]): object =>
  Object.fromEntries(columns.map((column, i) => [column, inward(values[i])]));

const inward = (value: unknown): unknown =>
  typeof value === 'object' && value !== null && 'base64' in value
    ? Buffer.from(String(value.base64), 'base64')
    : value;

function parse(file: string, line: Buffer): object {
  try {
    const value: unknown = JSON.parse(line.toString('utf8'));
    if (typeof value === 'object' && value !== null) return value;
  } catch {
    // Told below.
  }
  throw unreadable(file, 'a line of it is no JSON');
}

/** Lines end with a line feed and nothing else; other separators may stand within a text. */
async function* linesOf(file: string): AsyncGenerator<Buffer> {
  let rest = Buffer.alloc(0);
  const unpacked = createZstdDecompress();
  // Its faults come out where it is read.
  void pipeline(createReadStream(file), unpacked).catch(() => undefined);
  try {
    for await (const chunk of unpacked) {
      const bytes = Buffer.concat([rest, chunk as Buffer]);
      let from = 0;
      for (let end = bytes.indexOf(10); end >= 0; end = bytes.indexOf(10, from)) {
        yield bytes.subarray(from, end);
        from = end + 1;
      }
      rest = bytes.subarray(from);
    }
  } catch (cause) {
    throw unreadable(file, messageOf(cause), cause);
  }
  if (rest.length > 0) yield rest;
}

const unreadable = (file: string, why: string, cause?: unknown): ServiceError =>
  new ServiceError('backup_unreadable', `cannot restore from ${file}: ${why}`, { cause });
