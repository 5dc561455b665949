// A backup in one file that either kind of store can be made from again: one line of JSON for each row, compressed. All of
// it is of one moment, while others go on writing.

import { createHash } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { link, open, rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createZstdCompress } from 'node:zlib';
import { type Kysely, sql } from 'kysely';
import { messageOf, ServiceError } from '#errors.ts';
import type { DatabaseAccess } from './access.ts';
import {
  BACKUP_FORMAT,
  BACKUP_TABLES,
  type BackupHead,
  type BackupSection,
  type BackupTable,
  type BackupTail,
} from './backup-tables.ts';
import { appliedMigrations } from './migrate.ts';
import type { Store } from './store.ts';
import type { Tables } from './tables.ts';

const ROWS_AT_ONCE = 200;

export function createBackup({ database, reading }: DatabaseAccess, nowMs: () => number): Store['backup'] {
  return async (toFile) => {
    const unfinished = `${toFile}.unfinished`;
    const madeAtMs = nowMs();
    const rows: Record<string, number> = {};
    try {
      await reading(() =>
        database.snapshot(async (db) => {
          const head: BackupHead = {
            pitwardBackup: BACKUP_FORMAT,
            schema: await appliedMigrations(db),
            madeAtMs,
            from: database.kind,
          };
          await writeFile(unfinished, linesOf(db, head, rows));
        }),
      );
      // Unlike renaming, this refuses to replace a file that is there.
      await linkWhole(unfinished, toFile);
      return { madeAtMs, rows };
    } finally {
      await rm(unfinished, { force: true });
    }
  };
}

async function* linesOf(
  db: Kysely<Tables>,
  head: BackupHead,
  rows: Record<string, number>,
): AsyncGenerator<string> {
  const hash = createHash('sha256');
  const line = (value: unknown): string => {
    const text = `${JSON.stringify(value)}\n`;
    hash.update(text);
    return text;
  };
  yield line(head);
  for (const { table, key } of BACKUP_TABLES) {
    let count = 0;
    for await (const page of pagesOf(db, { table, key })) {
      const columns = Object.keys(page[0] ?? {});
      if (count === 0) yield line({ table, columns } satisfies BackupSection);
      yield page.map((row) => line(columns.map((column) => outward(row[column])))).join('');
      count += page.length;
    }
    rows[table] = count;
  }
  const tail: BackupTail = { rows, sha256: hash.digest('hex') };
  yield `${JSON.stringify(tail)}\n`;
}

type Row = Record<string, unknown>;

async function* pagesOf(db: Kysely<Tables>, { table, key }: BackupTable): AsyncGenerator<Row[]> {
  const columns = sql.join(key.map((column) => sql.ref(column)));
  let after = sql`true`;
  for (;;) {
    const { rows } = await sql<Row>`
      select * from ${sql.table(table)} where ${after} order by ${columns} limit ${sql.lit(ROWS_AT_ONCE)}`.execute(
      db,
    );
    const last = rows.at(-1);
    if (last === undefined) return;
    yield rows;
    after = sql`(${columns}) > (${sql.join(key.map((column) => last[column]))})`;
  }
}

const outward = (value: unknown): unknown =>
  value instanceof Uint8Array ? { base64: Buffer.from(value).toString('base64') } : value;

/** For the owner's eyes only: it holds digests of keys and everything that operators wrote. */
async function writeFile(file: string, lines: AsyncIterable<string>): Promise<void> {
  const out = createWriteStream(file, { flags: 'w', mode: 0o600, flush: true });
  let ofFile: unknown = null;
  out.once('error', (fault) => {
    ofFile = fault;
  });
  try {
    await pipeline(Readable.from(lines), createZstdCompress(), out);
  } catch (cause) {
    throw ofFile === null ? cause : failed(file, cause);
  }
}

async function linkWhole(unfinished: string, file: string): Promise<void> {
  try {
    await link(unfinished, file);
    const folder = await open(dirname(file));
    await folder.sync().finally(() => folder.close());
  } catch (cause) {
    throw (cause as NodeJS.ErrnoException).code === 'EEXIST'
      ? new ServiceError('backup_failed', `${file} is there already: name a new file`, { cause })
      : failed(file, cause);
  }
}

const failed = (file: string, cause: unknown): ServiceError =>
  new ServiceError('backup_failed', `cannot write ${file}: ${messageOf(cause)}`, { cause });
