// What was acknowledged is there after the writer was killed, whenever that was. A killed process leaves what the
// operating system holds; that it is on the disk is the databases' own matter (SQLite with synchronous = full, PostgreSQL
// with fsync), which only a power cut could show.

import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';
import { expect, it } from 'vitest';
import { openStore, type StoreAddress } from '#store/open-store.ts';
import { freshDatabase } from '../postgres/fresh-database.ts';
import { type Kept, keptIn } from './batch-of.ts';
import { NOON_MS, noPostgres } from './on-each-store.ts';
import { seeded } from './seeded.ts';

const KILLS = 104;
const AT_ONCE = 4;
/** In one file the writer starts in half the time. */
async function bundled(folder: string): Promise<string> {
  const input = fileURLToPath(new URL('./write-until-killed.ts', import.meta.url));
  const bundle = await rolldown({ input, platform: 'node', external: ['pg-native'], logLevel: 'silent' });
  const file = join(folder, 'writer.mjs');
  await bundle.write({ file, format: 'esm', minify: true });
  await bundle.close();
  return file;
}

/** Starts a writer, kills it at a random moment after one to six writes to every store, and gives what it acknowledged. */
async function killOne(
  writer: string,
  addresses: readonly StoreAddress[],
  run: string,
  random: () => number,
): Promise<string[][]> {
  const args = [writer, run, ...addresses.map((address) => JSON.stringify(address))];
  const env = { ...process.env, NODE_COMPILE_CACHE: join(dirname(writer), 'compiled') };
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'], env });
  const ended = new Promise<NodeJS.Signals | null>((resolve) => {
    child.once('exit', (_code, signal) => resolve(signal));
  });
  const acknowledged = addresses.map((): string[] => []);
  const least = 1 + Math.floor(random() * 6);
  let armed = false;
  for await (const line of createInterface({ input: child.stdout })) {
    const [number, id = ''] = line.split(' ');
    acknowledged[Number(number)]?.push(id);
    if (armed || acknowledged.some((ids) => ids.length < least)) continue;
    armed = true;
    void setTimeout(random() * 25).then(() => child.kill('SIGKILL'));
  }
  expect(await ended).toBe('SIGKILL');
  return acknowledged;
}

it(`a writer killed ${KILLS} times at random loses nothing that it acknowledged, on either store`, async () => {
  const random = seeded();
  const folder = mkdtempSync(join(tmpdir(), 'pitward-kill-'));
  const writer = await bundled(folder);
  const kept: Kept[] = [];
  const acknowledged: string[][] = [];
  let kills = 0;
  const lane = async (number: number): Promise<void> => {
    // A file belongs to one process at a time; a database to any number, but then to look into them would take longer.
    const addresses: StoreAddress[] = [{ sqliteFile: join(folder, `${number}.db`) }];
    if (!noPostgres) addresses.push({ databaseUrl: await freshDatabase(), connections: 2 });
    const told = addresses.map((): string[] => []);
    for (let run = 0; run < KILLS / AT_ONCE; run += 1) {
      const said = await killOne(writer, addresses, `${number}.${run}`, random);
      for (const [i, ids] of said.entries()) told[i]?.push(...ids);
      kills += 1;
    }
    for (const [i, address] of addresses.entries()) {
      const store = await openStore(address, { nowMs: () => NOON_MS });
      kept.push(await keptIn(store));
      acknowledged.push(told[i] ?? []);
      await store.close();
    }
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, (_, number) => lane(number)));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  expect(kills).toBe(KILLS);
  expect(kept).toHaveLength(AT_ONCE * (noPostgres ? 1 : 2));
  for (const [i, { whole, broken, positions }] of kept.entries()) {
    const told = acknowledged[i] ?? [];
    expect(told.length).toBeGreaterThan(KILLS / AT_ONCE);
    expect(told.filter((id) => !whole.has(id))).toEqual([]);
    expect(broken).toEqual([]);
    expect(positions).toEqual(Array.from({ length: whole.size * 2 }, (_, n) => n + 1));
  }
  const total = acknowledged.flat().length;
  const unsaid = kept.reduce((sum, { whole }) => sum + whole.size, 0) - total;
  console.log(
    `${kills} kills: ${total} batches acknowledged and there, ${unsaid} more kept but not yet told`,
  );
}, 180_000);
