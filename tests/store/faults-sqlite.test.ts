// What a disk and other programs can do to a file: each is told by its cause and in bounded time, and the same store works
// again.

import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  closeSync,
  mkdtempSync,
  openSync,
  rmSync,
  statfsSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { openSqlite } from '#store/dialect/sqlite.ts';
import type { Store } from '#store/store.ts';
import { cellOf, changeOf, documentOf } from '../builders/store.ts';
import { NOON_MS, onSqlite } from './on-each-store.ts';

const TIMEOUTS = { connectMs: 400, statementMs: 400, lockMs: 250 };
const isRoot = process.getuid?.() === 0;
const NOBODY = { uid: 65_534, gid: 65_534, encoding: 'utf8' } as const;
const TRY_TO_OPEN = fileURLToPath(new URL('./try-to-open.ts', import.meta.url));
/** Root may write everything, so somebody else tries; where the checkout is not for others to read, nobody can. */
const canBeNobody =
  isRoot &&
  spawnSync(process.execPath, ['--check', TRY_TO_OPEN], { ...NOBODY, stdio: 'ignore' }).status === 0;
const canMount = isRoot && process.platform === 'linux' && spawnSync('mount', ['--version']).status === 0;

const write = (store: Store) => store.commit({ cells: [cellOf('A 1,1')] });

async function faultOf(call: Promise<unknown>): Promise<{ facts: { cause: string } } | null> {
  return call.then(
    () => null,
    (fault) => fault,
  );
}

onSqlite('faults of a file', ({ open }) => {
  let folder = '';
  let mounted = false;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'pitward-faults-'));
    chmodSync(folder, 0o755);
  });
  afterEach(() => {
    if (mounted) execFileSync('umount', ['--lazy', folder]);
    mounted = false;
    rmSync(folder, { recursive: true, force: true });
  });
  const file = () => join(folder, 'pitward.db');
  const opened = () => open({ sqliteFile: file() }, { timeouts: TIMEOUTS });

  it.skipIf(!canMount)(
    'a disk that is full: nothing half-written, reading goes on, and it works again with room',
    async () => {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=3m', 'none', folder]);
      mounted = true;
      const store = await opened();
      await write(store);
      const filler = openSync(join(folder, 'filler'), 'w');
      try {
        for (;;) writeSync(filler, Buffer.alloc(4096, 1));
      } catch (fault) {
        expect((fault as NodeJS.ErrnoException).code).toBe('ENOSPC');
      }
      closeSync(filler);
      expect(statfsSync(folder).bavail).toBe(0);
      let fault: Awaited<ReturnType<typeof faultOf>> = null;
      for (let i = 0; fault === null && i < 50; i += 1) {
        const bytes = Buffer.from(Array.from({ length: 60_000 }, (_, n) => (n * 7919 + i * 104_729) % 251));
        const document = documentOf(bytes.toString('latin1'));
        fault = await faultOf(
          store.commit({
            documents: [document],
            cells: [cellOf(`B ${i},${i}`, { document: document.hash })],
          }),
        );
        expect((await store.forecasts.cells([`B ${i},${i}`])).length).toBe(fault === null ? 1 : 0);
      }
      expect(fault).toMatchObject({
        code: 'store_unavailable',
        retryable: true,
        facts: { cause: 'disk-full' },
      });
      expect(store.health()).toMatchObject({ ok: false, cause: 'disk-full', sinceMs: NOON_MS });
      expect((await store.forecasts.cells()).length).toBeGreaterThan(0);
      expect(store.health()).toMatchObject({ ok: false, cause: 'disk-full' });
      rmSync(join(folder, 'filler'));
      await store.care.probe(1);
      await write(store);
      expect(store.health()).toEqual({ ok: true });
    },
  );

  it('a database at the greatest size that it may have', async () => {
    const store = await opened();
    await store.close();
    const { db, close, causeOf } = openSqlite({ sqliteFile: file() }, TIMEOUTS);
    await db.transaction().execute(async (transaction) => {
      const { sql } = await import('kysely');
      await sql`pragma max_page_count = 1`.execute(transaction);
    });
    const big = db.transaction().execute((t) =>
      t
        .insertInto('probes')
        .values({ name: 'x'.repeat(200_000), atMs: 1 })
        .execute(),
    );
    expect(causeOf(await faultOf(big))).toBe('disk-full');
    await close();
  });

  it('a file that another program holds: told in bounded time, however many ask, and well once it is let go', async () => {
    const store = await opened();
    await write(store);
    const other = new DatabaseSync(file());
    other.exec('begin immediate');
    const startMs = performance.now();
    const faults = await Promise.all(Array.from({ length: 10 }, () => faultOf(write(store))));
    expect(performance.now() - startMs).toBeLessThan(2000);
    for (const fault of faults) expect(fault).toMatchObject({ facts: { cause: 'locked' } });
    expect(store.health()).toMatchObject({ ok: false, cause: 'locked', sinceMs: NOON_MS });
    expect(await store.forecasts.cells()).toHaveLength(1);
    other.exec('rollback');
    await write(store);
    expect(store.health()).toEqual({ ok: true });
    other.close();
  });

  it('a file that another program holds for a moment is waited for, and other work goes on meanwhile', async () => {
    const store = await open({ sqliteFile: file() }, { timeouts: { ...TIMEOUTS, lockMs: 20_000 } });
    const other = new DatabaseSync(file());
    other.exec('begin immediate');
    let turns = 0;
    const counting = setInterval(() => {
      turns += 1;
      if (turns === 10) other.exec('rollback');
    }, 10);
    await write(store);
    clearInterval(counting);
    expect(turns).toBeGreaterThanOrEqual(10);
    other.close();
  });

  it.skipIf(!canBeNobody)('a file that may only be read is refused when it is opened', async () => {
    await (await opened()).close();
    const tryToOpen = () => spawnSync(process.execPath, [TRY_TO_OPEN, file()], NOBODY).stdout.trim();
    for (const end of ['', '-wal', '-shm', '.lock']) rmSync(`${file()}${end}`, { force: true });
    expect(tryToOpen()).toBe('read-only');
    chmodSync(folder, 0o777);
    expect(tryToOpen()).toBe('well');
    for (const end of ['', '.lock']) chmodSync(`${file()}${end}`, 0o444);
    chmodSync(folder, 0o555);
    expect(tryToOpen()).toBe('read-only');
  });

  it('writing through a connection that may only read', async () => {
    const store = await opened();
    await store.close();
    const reader = new DatabaseSync(file(), { readOnly: true });
    const { causeOf, close } = openSqlite({ sqliteFile: ':memory:' }, TIMEOUTS);
    let fault: unknown = null;
    try {
      reader.exec("insert into probes values ('x', 1)");
    } catch (thrown) {
      fault = thrown;
    }
    expect(causeOf(fault)).toBe('read-only');
    expect(causeOf(new TypeError('x is not a function'))).toBeNull();
    reader.close();
    await close();
  });

  it('a document that rotted on the disk is never given out; all others are', async () => {
    const store = await opened();
    const [sound, rotten, emptied] = ['sound', 'rotten', 'emptied'].map((text) => documentOf(text));
    await store.commit({ documents: [sound, rotten, emptied].filter((d) => d !== undefined) });
    const other = new DatabaseSync(file());
    other
      .prepare('update documents set packed = (select packed from documents where hash = ?) where hash = ?')
      .run(sound?.hash ?? '', rotten?.hash ?? '');
    other.prepare("update documents set packed = x'00' where hash = ?").run(emptied?.hash ?? '');
    other.close();
    for (const document of [rotten, emptied]) {
      expect(await faultOf(store.documents.read(document?.hash ?? ''))).toMatchObject({
        code: 'store_unavailable',
        facts: { cause: 'damaged' },
      });
      expect(store.health()).toMatchObject({ ok: false, cause: 'damaged' });
    }
    expect((await store.documents.read(sound?.hash ?? ''))?.bytes.toString()).toBe('sound');
    expect(store.health()).toEqual({ ok: true });
  });

  it('text that is no JSON is told as damage, and so is a file whose pages were overwritten', async () => {
    const store = await opened();
    await store.definitions.change([changeOf('a', 0)]);
    const other = new DatabaseSync(file());
    other.exec(`update definitions set body = '{"cut'`);
    other.close();
    expect(await faultOf(store.definitions.current())).toMatchObject({ facts: { cause: 'damaged' } });
    await store.close();
    const handle = openSync(file(), 'r+');
    writeSync(handle, Buffer.alloc(4096, 0xa5), 0, 4096, 4096);
    closeSync(handle);
    const opening = open({ sqliteFile: file() }, { timeouts: TIMEOUTS });
    const fault = await faultOf(
      opening.then((again) => again.forecasts.cells().then(() => again.definitions.current())),
    );
    expect(fault).toMatchObject({ code: 'store_unavailable', facts: { cause: 'damaged' } });
    writeFileSync(file(), '');
  });
});
