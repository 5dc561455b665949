// (h) A store with a year of data: how large it is, how long a start takes beside one with a day of data, and what a backup
// takes. PostgreSQL is filled from the backup.

import { copyFileSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { HOUR_MS } from '#core/units/time.ts';
import { openStore } from '#store/open-store.ts';
import { startChild } from './child.ts';
import { newDatabase, withPostgres } from './each-store.ts';
import { line, median, note } from './measure.ts';
import { nationConfig } from './nation.ts';
import { type Served, serveOnce } from './serve-once.ts';
import { postgresTables, sqliteTables, type TableBytes } from './table-bytes.ts';
import { usualDays } from './usual-days.ts';
import { fillYear, YEAR_DAYS } from './year.ts';

const SIZE = { siteCount: 20, cellCount: 12 };
const RUNS = 5;

export async function benchRestart(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'pitward-bench-'));
  const standIn = await startChild<string>('nation-stand-in.ts');
  const old = join(folder, 'old');
  const young = join(folder, 'young');
  try {
    const config = nationConfig(SIZE, standIn.hello);
    for (const name of [old, young])
      writeFileSync(`${name}.yaml`, JSON.stringify({ ...JSON.parse(config), store: { file: `${name}.db` } }));
    await makeYoung(standIn.hello, `${young}.db`);
    copyFileSync(`${young}.db`, `${old}.db`);
    const usual = await usualDays(1);
    line(
      `(h) ${SIZE.siteCount} sites in ${SIZE.cellCount} cells with ${YEAR_DAYS} days of data; on usual days ${(usual.plans.length / usual.siteCount).toFixed(0)} plans a site, 24 documents a cell`,
    );
    const store = await openStore({ sqliteFile: `${old}.db` }, { nowMs: Date.now });
    await fillYear(store, SIZE, usual, Date.now() - 3 * HOUR_MS);
    await store.close();
    tellSizes('SQLite', sqliteTables(`${old}.db`));
    await tellStarts('SQLite', {
      old: () => serveOnce(['--config', `${old}.yaml`]),
      young: () => serveOnce(['--config', `${young}.yaml`]),
    });
    await backUp(`${young}.db`, `${young}.backup`);
    const { rows, seconds } = await backUp(`${old}.db`, `${old}.backup`);
    line(
      `    backup of all ${rows} rows: ${megabytes(statSync(`${old}.backup`).size)}, ${(statSync(`${old}.backup`).size / statSync(`${old}.db`).size).toFixed(2)} of the SQLite file, in ${seconds.toFixed(0)} s`,
    );
    await withPostgres(async (server) => {
      const addresses = { old: await newDatabase(server, 'old'), young: await newDatabase(server, 'young') };
      note('PostgreSQL: restoring');
      await restore(addresses.young, `${young}.backup`);
      line(`    restored into PostgreSQL in ${(await restore(addresses.old, `${old}.backup`)).toFixed(0)} s`);
      tellSizes('PostgreSQL', await postgresTables(addresses.old));
      await tellStarts('PostgreSQL', {
        old: () => serveOnce(['--config', `${old}.yaml`], { DATABASE_URL: addresses.old }),
        young: () => serveOnce(['--config', `${young}.yaml`], { DATABASE_URL: addresses.young }),
      });
    });
  } finally {
    await standIn.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** One full cycle of the real service: definitions, places, cells, a document in each, a plan of each site. */
async function makeYoung(baseUrl: string, file: string): Promise<void> {
  const service = await startChild<string>('nation-service.ts', [
    baseUrl,
    file,
    String(SIZE.siteCount),
    String(SIZE.cellCount),
  ]);
  await service.ask('cycle');
  await service.kill();
  // Closed in order, all of it stands in the one file.
  await (await openStore({ sqliteFile: file }, { nowMs: Date.now })).close();
}

async function tellStarts(
  kind: string,
  serve: { readonly old: () => Promise<Served>; readonly young: () => Promise<Served> },
): Promise<void> {
  note(`${kind}: starting`);
  const old: Served[] = [];
  const young: Served[] = [];
  for (let i = 0; i <= RUNS; i += 1) {
    const pair = { old: await serve.old(), young: await serve.young() };
    // The first fills the caches of the system.
    if (i === 0) continue;
    old.push(pair.old);
    young.push(pair.young);
  }
  const ratio = median(old.map((run, i) => run.readyMs / (young[i]?.readyMs ?? Number.NaN)));
  line(
    `    ${kind}: start to /readyz ${median(old.map((run) => run.readyMs)).toFixed(0)} ms, ${ratio.toFixed(2)} of that with a single plan of each site, median of ${RUNS} in turns; ${median(old.map((run) => run.rssMb)).toFixed(0)} MB resident (${median(young.map((run) => run.rssMb)).toFixed(0)} MB)`,
  );
}

function tellSizes(kind: string, tables: TableBytes): void {
  const total = Object.values(tables).reduce((sum, bytes) => sum + bytes, 0);
  const documents = tables['documents'] ?? 0;
  line(
    `    ${kind}: ${megabytes(total)}; documents ${megabytes(documents / SIZE.cellCount)} a cell and year, the rest ${megabytes((total - documents) / SIZE.siteCount)} a site and year, together ${megabytes(total / SIZE.siteCount)} a site and year`,
  );
  const largest = Object.entries(tables).sort(([, a], [, b]) => b - a);
  line(
    `      ${largest
      .slice(0, 6)
      .map(([name, bytes]) => `${name} ${megabytes(bytes)}`)
      .join(', ')}`,
  );
}

async function backUp(file: string, to: string): Promise<{ rows: number; seconds: number }> {
  const store = await openStore({ sqliteFile: file }, { nowMs: Date.now });
  const start = performance.now();
  const { rows } = await store.backup(to);
  const seconds = (performance.now() - start) / 1000;
  await store.close();
  return { rows: Object.values(rows).reduce((sum, count) => sum + count, 0), seconds };
}

async function restore(databaseUrl: string, from: string): Promise<number> {
  const store = await openStore({ databaseUrl }, { nowMs: Date.now });
  const start = performance.now();
  await store.restore(from);
  const seconds = (performance.now() - start) / 1000;
  await store.close();
  return seconds;
}

const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(1)} MB`;
