// Opening: new, again, beside another, by an older program, and what cannot be opened.

import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { DatabaseSync } from 'node:sqlite';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { StoreAddress } from '#store/open-store.ts';
import { cellOf } from '../builders/store.ts';
import { onDatabase } from '../postgres/fresh-database.ts';
import { onEachStore, onSqlite } from './on-each-store.ts';

/** Runs a statement past the store. */
async function behind(where: StoreAddress, sql: string): Promise<void> {
  if ('databaseUrl' in where) return onDatabase(where.databaseUrl, sql);
  const database = new DatabaseSync(where.sqliteFile);
  database.exec(sql);
  database.close();
}

onEachStore('opening', ({ open, address }) => {
  it('a store that a newer program has written is refused, and left as it is', async () => {
    const where = await address();
    await (await open(where)).close();
    await behind(
      where,
      `insert into kysely_migration (name, timestamp) values ('9999-later', '2030-01-01T00:00:00Z')`,
    );
    const refused = open(where);
    await expect(refused).rejects.toMatchObject({ code: 'store_newer', facts: { unknown: ['9999-later'] } });
    await expect(open(where)).rejects.toThrow(/written by a newer Pitward/);
    await behind(where, `delete from kysely_migration where name = '9999-later'`);
    expect((await open(where)).health()).toEqual({ ok: true });
  });

  it('as found, tables of an older program are refused and left as they are; an empty store gets none', async () => {
    const where = await address();
    const beside = 'databaseUrl' in where ? where : { ...where, shared: true };
    await expect(open(beside, { asFound: true })).rejects.toMatchObject({
      code: 'store_older',
      facts: { empty: true },
    });
    await (await open(where)).close();
    expect((await open(beside, { asFound: true })).health()).toEqual({ ok: true });
    const added = ['cap_feeds', 'cap_messages', 'burn_incidents'];
    const forgotten = `delete from kysely_migration where name = '0010-cap'`;
    for (const sql of [...added.map((table) => `drop table ${table}`), forgotten]) await behind(where, sql);
    for (let i = 0; i < 2; i += 1) {
      await expect(open(beside, { asFound: true })).rejects.toMatchObject({
        code: 'store_older',
        facts: { pending: ['0010-cap'], empty: false },
      });
    }
    expect((await open(where)).health()).toEqual({ ok: true });
    expect((await open(beside, { asFound: true })).health()).toEqual({ ok: true });
  });

  it('ends what was opened: a closed store says so, and may be closed again', async () => {
    const store = await open();
    await store.close();
    for (const call of [store.marks(), store.commit({ cells: [cellOf('A 1,1')] }), store.care.probe(1)]) {
      await expect(call).rejects.toMatchObject({ code: 'store_unavailable', facts: { cause: 'closed' } });
    }
    await store.close();
  });
});

onSqlite('a file', ({ open, address }) => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'pitward-open-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('is for its owner alone', async () => {
    const where = await address();
    const store = await open(where);
    await store.commit({ cells: [cellOf('A 1,1')] });
    const { sqliteFile } = where as { sqliteFile: string };
    for (const end of ['', '-wal', '-shm', '.lock'])
      expect(statSync(sqliteFile + end).mode & 0o777).toBe(0o600);
  });

  it('belongs to one serving process; a short command may work beside it', async () => {
    const where = (await address()) as { sqliteFile: string };
    const serving = await open(where);
    await expect(open(where)).rejects.toThrow(/another Pitward is serving from .*pitward\.db/);
    const beside = await open({ ...where, shared: true });
    await beside.commit({ cells: [cellOf('A 1,1')] });
    await serving.commit({ cells: [cellOf('A 1,1')] });
    expect(await beside.forecasts.cells()).toEqual([{ ...cellOf('A 1,1'), version: 2 }]);
    await serving.close();
    expect((await (await open(where)).forecasts.cells()).length).toBe(1);
  });

  it('is free again once the process that served from it was killed', async () => {
    const where = (await address()) as { sqliteFile: string };
    const program = fileURLToPath(new URL('./hold-store.ts', import.meta.url));
    const child = spawn(process.execPath, [program, where.sqliteFile], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const ended = new Promise((resolve) => child.once('exit', resolve));
    for await (const line of createInterface({ input: child.stdout })) {
      expect(line).toBe('open');
      break;
    }
    await expect(open(where)).rejects.toMatchObject({ facts: { cause: 'locked' } });
    child.kill('SIGKILL');
    await ended;
    expect(await (await open(where)).forecasts.cells()).toHaveLength(1);
  });

  it('that several programs open at once when it is new comes up for all', async () => {
    const { sqliteFile } = (await address()) as { sqliteFile: string };
    const stores = await Promise.all(Array.from({ length: 4 }, () => open({ sqliteFile, shared: true })));
    await Promise.all(stores.map((store, i) => store.commit({ cells: [cellOf(`A ${i},${i}`)] })));
    expect(await stores[0]?.forecasts.cells()).toHaveLength(4);
  });

  it('that is no database, or cannot be there, is told', async () => {
    const noDatabase = join(folder, 'notes.txt');
    writeFileSync(noDatabase, 'Burn diary of the north block.\n'.repeat(200));
    await expect(open({ sqliteFile: noDatabase })).rejects.toMatchObject({
      code: 'store_unavailable',
      facts: { cause: 'damaged' },
    });
    await expect(open({ sqliteFile: join(folder, 'none', 'pitward.db') })).rejects.toMatchObject({
      code: 'store_unavailable',
    });
  });

  it('lets other work in between two writes, however many there are in a row', async () => {
    const store = await open();
    let turns = 0;
    const counting = setInterval(() => {
      turns += 1;
    }, 0);
    for (let i = 0; i < 100; i += 1) await store.commit({ cells: [cellOf('A 1,1')] });
    clearInterval(counting);
    expect(turns).toBeGreaterThan(10);
  });

  it('is not needed: a store in memory ends with the process', async () => {
    const store = await open({ sqliteFile: ':memory:' });
    await store.commit({ cells: [cellOf('A 1,1')] });
    expect(await store.forecasts.cells()).toHaveLength(1);
    expect(await (await open({ sqliteFile: ':memory:' })).forecasts.cells()).toEqual([]);
  });
});
