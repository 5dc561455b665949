// Disks that can be filled while a store is open on them, and emptied again. Where the machine lets us, small file systems
// of their own; everywhere, SQLite's own bound of a file's size, and a PostgreSQL that refuses every new row and table.

import { execFileSync, spawnSync } from 'node:child_process';
import { chownSync, closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import pg from 'pg';
import { vi } from 'vitest';
import type { StoreAddress } from '#store/open-store.ts';
import { freshDatabase, onDatabase } from '../postgres/fresh-database.ts';
import { startPostgres } from '../postgres/server.ts';
import { noPostgres } from './on-each-store.ts';

export interface FullDisk {
  readonly address: StoreAddress;
  /** No more room from now on; for stores that are open. */
  fill(): Promise<void>;
  free(): Promise<void>;
  /** After the store was closed. */
  remove(): Promise<void>;
}

const canMount =
  process.getuid?.() === 0 && process.platform === 'linux' && spawnSync('mount', ['--version']).status === 0;

export const FULL_DISKS: readonly (readonly [string, () => Promise<FullDisk>])[] = [
  ['a bounded SQLite file', boundedFile],
  ...(canMount ? ([['SQLite on a small disk', smallDisk]] as const) : []),
  ...(noPostgres ? [] : ([['PostgreSQL, as it would tell it', refusingServer]] as const)),
  ...(canMount && !noPostgres ? ([['PostgreSQL on a small disk', smallTablespace]] as const) : []),
];

/** SQLite refuses to let a file grow beyond a number of pages; what is free within them can be written. */
async function boundedFile(): Promise<FullDisk> {
  const folder = mkdtempSync(join(tmpdir(), 'pitward-full-'));
  const sqliteFile = join(folder, 'pitward.db');
  // The bound is a connection's, and the store's is its own.
  const spy = vi.spyOn(DatabaseSync.prototype, 'exec');
  const bound = (pages: number): void => {
    for (const one of new Set(spy.mock.contexts as DatabaseSync[]))
      if (one.isOpen && one.location() === sqliteFile) one.exec(`pragma max_page_count = ${pages}`);
  };
  return {
    address: { sqliteFile },
    fill: async () => bound(1),
    free: async () => bound(2 ** 30),
    async remove() {
      spy.mockRestore();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

interface Mounted {
  readonly folder: string;
  fill(): Promise<void>;
  free(): Promise<void>;
  unmount(): void;
}

function mounted(size: string): Mounted {
  const folder = mkdtempSync(join(tmpdir(), 'pitward-full-'));
  execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${size}`, 'none', folder]);
  const filler = join(folder, 'filler');
  // What comes free later (a table dropped while this filled, a vacuum) is taken again: a full disk stays full.
  let filling: NodeJS.Timeout | undefined;
  const free = async (): Promise<void> => {
    clearInterval(filling);
    rmSync(filler, { force: true });
  };
  return {
    folder,
    async fill() {
      await free();
      appendUntilFull(filler);
      filling = setInterval(appendUntilFull, 10, filler).unref();
    },
    free,
    unmount() {
      execFileSync('umount', ['--lazy', folder]);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function appendUntilFull(file: string): void {
  const handle = openSync(file, 'a');
  try {
    for (;;) writeSync(handle, Buffer.alloc(4096, 1));
  } catch (fault) {
    if ((fault as NodeJS.ErrnoException).code !== 'ENOSPC') throw fault;
  } finally {
    closeSync(handle);
  }
}

async function smallDisk(): Promise<FullDisk> {
  const disk = mounted('4m');
  return {
    ...disk,
    address: { sqliteFile: join(disk.folder, 'pitward.db') },
    async remove() {
      await disk.free();
      disk.unmount();
    },
  };
}

/** On a server of its own: one that cannot write a full disk's pages fails whoever next needs room in its memory. */
async function smallTablespace(): Promise<FullDisk> {
  const disk = mounted('40m');
  const server = await startPostgres();
  const any = server.url('postgres');
  await giveToServer(any, disk.folder);
  const name = 'small_disk';
  await onDatabase(any, `create tablespace ${name} location '${disk.folder}'`);
  await onDatabase(any, `create database ${name} tablespace ${name}`);
  return {
    ...disk,
    address: { databaseUrl: server.url(name), connections: 5 },
    async remove() {
      await disk.free();
      await server.remove();
      disk.unmount();
    },
  };
}

async function giveToServer(databaseUrl: string, folder: string): Promise<void> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const { rows } = await client.query('show data_directory').finally(() => client.end());
  const { uid, gid } = statSync(rows[0].data_directory);
  chownSync(folder, uid, gid);
}

/** Rows can be changed in place; what would make a table larger is refused with the server's own code. */
async function refusingServer(): Promise<FullDisk> {
  const databaseUrl = await freshDatabase();
  const forAll = (statement: string): string =>
    `do $$ declare name text; begin
       for name in select tablename from pg_tables where schemaname = 'public' loop ${statement} end loop;
     end $$`;
  const refuse = `raise exception 'could not extend file: No space left on device' using errcode = '53100'`;
  return {
    address: { databaseUrl, connections: 5 },
    async fill() {
      await onDatabase(
        databaseUrl,
        `create function no_room() returns trigger language plpgsql as 'begin ${refuse.replaceAll("'", "''")}; end';
         create function no_table() returns event_trigger language plpgsql as 'begin ${refuse.replaceAll("'", "''")}; end';`,
      );
      await onDatabase(
        databaseUrl,
        forAll(
          `execute format('create trigger no_room after insert on %I for each row execute function no_room()', name);`,
        ),
      );
      await onDatabase(
        databaseUrl,
        `create event trigger no_table on ddl_command_end when tag in ('CREATE TABLE', 'CREATE TABLE AS') execute function no_table()`,
      );
    },
    async free() {
      await onDatabase(databaseUrl, 'drop event trigger if exists no_table');
      await onDatabase(databaseUrl, forAll(`execute format('drop trigger if exists no_room on %I', name);`));
      await onDatabase(databaseUrl, 'drop function if exists no_room; drop function if exists no_table');
    },
    remove: async () => undefined,
  };
}
