// SQLite in a file: the store of one serving process.

import { accessSync, closeSync, constants, openSync, statfsSync } from 'node:fs';
import { dirname } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import {
  CamelCasePlugin,
  type Dialect,
  Kysely,
  SqliteAdapter,
  SqliteIntrospector,
  SqliteQueryCompiler,
  sql,
} from 'kysely';
import { ServiceError } from '#errors.ts';
import { asServiceError } from '#store/access.ts';
import type { StoreCause } from '#store/store-health.ts';
import type { Tables } from '#store/tables.ts';
import type { Database, Timeouts } from './database.ts';
import { NodeSqliteDriver, sqliteCode } from './sqlite-driver.ts';

const MEMORY = ':memory:';
/** A short wait inside SQLite, which stops this process; the driver waits longer without stopping it. */
const BUSY_MS = 20;
const MIGRATION_LOCK_MS = 60_000;

export interface SqliteAddress {
  /** `:memory:` for a store that ends with the process. */
  readonly sqliteFile: string;
  /** True for short work beside a serving process. Otherwise a second one is refused. */
  readonly shared?: boolean;
}

export function openSqlite(
  { sqliteFile: file, shared = false }: SqliteAddress,
  timeouts: Timeouts,
): Database {
  const lock = shared || file === MEMORY ? null : lockFor(file);
  const connect = (lockMs: number): Kysely<Tables> => kyselyOver(() => openFile(file), lockMs);
  const db = connect(timeouts.lockMs);
  return {
    kind: 'sqlite',
    db,
    columnTypes: {
      text: sql`text`,
      bytes: sql`blob`,
      counted: sql`integer primary key autoincrement`,
    },
    clockMs: sql`cast(unixepoch('subsec') * 1000 as integer)`,
    async forMigration() {
      if (file === MEMORY) return { db, done: async () => undefined };
      const own = connect(MIGRATION_LOCK_MS);
      return { db: own, done: () => own.destroy() };
    },
    async snapshot(read) {
      const own = file === MEMORY ? db : connect(timeouts.lockMs);
      try {
        return await own.transaction().setAccessMode('read only').execute(read);
      } finally {
        if (own !== db) await own.destroy();
      }
    },
    async bytesOnDisk() {
      const pages = await sql<{ bytes: number }>`
        select p.page_count * s.page_size as bytes from pragma_page_count p, pragma_page_size s`.execute(db);
      return pages.rows[0]?.bytes ?? 0;
    },
    takeRoom: () => takeRoom(db),
    // SQLite counts on from the highest by itself.
    resumeCounting: async () => undefined,
    causeOf: (fault) => causeOf(fault, file),
    isDuplicate: (fault) => sqliteCode(fault) === 19,
    isCollision: () => false,
    async close() {
      await db.destroy();
      lock?.close();
    },
  };
}

const ROOM = 'room ';
const ROOM_ROWS = 16;
const ROOM_BYTES = 4000;

/** Rows that are committed, and copied from the log into the file: only then has the file grown. */
async function takeRoom(db: Kysely<Tables>): Promise<void> {
  const giveBack = () => db.deleteFrom('probes').where('name', 'like', `${ROOM}%`).execute();
  await giveBack();
  const name = (i: number): string => `${ROOM}${i} ${'.'.repeat(ROOM_BYTES)}`;
  try {
    await db
      .insertInto('probes')
      .values(Array.from({ length: ROOM_ROWS }, (_, i) => ({ name: name(i), atMs: 0 })))
      .execute();
    await sql`pragma wal_checkpoint(passive)`.execute(db);
  } finally {
    await giveBack();
  }
}

function openFile(file: string): DatabaseSync {
  // For the owner's eyes only; SQLite gives the files beside it the same mode.
  if (file !== MEMORY) closeSync(openSync(file, 'a', 0o600));
  const database = new DatabaseSync(file, { timeout: BUSY_MS, enableForeignKeyConstraints: true });
  database.exec(
    'pragma journal_mode = wal; pragma synchronous = full; pragma journal_size_limit = 67108864; pragma temp_store = memory',
  );
  return database;
}

/** Held by the operating system on a file beside, so that it ends with the process however that ends. */
function lockFor(file: string): DatabaseSync {
  const beside = `${file}.lock`;
  let lock: DatabaseSync | null = null;
  try {
    closeSync(openSync(beside, 'a', 0o600));
    lock = new DatabaseSync(beside, { timeout: 0 });
    lock.exec('begin exclusive');
    return lock;
  } catch (cause) {
    lock?.close();
    if (sqliteCode(cause) !== 5) throw asServiceError(cause, (fault) => causeOf(fault, beside));
    throw new ServiceError(
      'store_unavailable',
      `another Pitward is serving from ${file}: one file belongs to one of them`,
      { cause, retryable: true, facts: { cause: 'locked' } },
    );
  }
}

function kyselyOver(open: () => DatabaseSync, lockMs: number): Kysely<Tables> {
  const dialect: Dialect = {
    createDriver: () => new NodeSqliteDriver(open, lockMs),
    createQueryCompiler: () => new SqliteQueryCompiler(),
    createAdapter: () => new TransactionalSqliteAdapter(),
    createIntrospector: (db) => new SqliteIntrospector(db),
  };
  return new Kysely<Tables>({ dialect, plugins: [new CamelCasePlugin({ maintainNestedObjectKeys: true })] });
}

/** SQLite can create tables in a transaction, so that two programs starting at once take turns. */
class TransactionalSqliteAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
  override get supportsCreateIfNotExists(): boolean {
    return true;
  }
}

const CAUSES: Readonly<Record<number, StoreCause>> = {
  5: 'locked',
  6: 'locked',
  8: 'read-only',
  11: 'damaged',
  13: 'disk-full',
  26: 'damaged',
};

function causeOf(fault: unknown, file: string): StoreCause | null {
  const { code } = fault as NodeJS.ErrnoException;
  if (code === 'ERR_INVALID_STATE') return 'closed';
  const sqlite = sqliteCode(fault);
  if (sqlite === null) return code === undefined ? null : causeOfFile(code);
  return CAUSES[sqlite] ?? (file === MEMORY ? 'other' : causeOnDisk(file));
}

const causeOfFile = (code: string): StoreCause | null => {
  if (['ENOSPC', 'EDQUOT', 'EFBIG'].includes(code)) return 'disk-full';
  if (['EROFS', 'EACCES', 'EPERM'].includes(code)) return 'read-only';
  return /^E[A-Z]+$/.test(code) ? 'other' : null;
};

/** SQLite says only that reading or writing failed; the disk may say why. */
function causeOnDisk(file: string): StoreCause {
  try {
    const folder = dirname(file);
    if (statfsSync(folder).bavail === 0) return 'disk-full';
    accessSync(folder, constants.W_OK);
    accessSync(file, constants.W_OK);
    return 'other';
  } catch (fault) {
    return causeOfFile((fault as NodeJS.ErrnoException).code ?? '') ?? 'other';
  }
}
