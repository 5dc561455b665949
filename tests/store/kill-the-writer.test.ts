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
import { type KeptLooks, looksIn } from './burn-look-of.ts';
import { NOON_MS, noPostgres } from './on-each-store.ts';
import { seeded } from './seeded.ts';

const KILLS = 104;
const AT_ONCE = 4;
/** In one file the writer starts in half the time. */
async function bundled(folder: string): Promise<string> {
  const input = fileURLToPath(new URL('./write-until-killed.ts', import.meta.url));
  const bundle = await rolldown({ input, platform: 'node', external: ['pg-native'], logLevel: 'silent' });
  const file = join(folder, 'writer.mjs');
  await bundle.write({ file, format: 'esm', minify: true, codeSplitting: false });
  await bundle.close();
  return file;
}

interface Claimed {
  readonly delivery: string;
  readonly token: number;
  readonly nowMs: number;
  readonly leaseUntilMs: number;
}

/** What a writer said of one store. */
class Said {
  readonly batches: string[] = [];
  readonly looks: string[] = [];
  readonly claims: Claimed[] = [];
  readonly settled: string[] = [];

  hear(what: string, rest: string): void {
    if (what === 'batch') this.batches.push(rest);
    if (what === 'look') this.looks.push(rest);
    if (what === 'claim') this.claims.push(JSON.parse(rest) as Claimed);
    if (what === 'settled') this.settled.push(rest);
  }

  kept(): number {
    return this.batches.length + this.looks.length;
  }
}

/** Starts a writer and kills it at a random moment after one to six things that every store has kept; `said` hears what it says. */
async function killOne(
  writer: string,
  addresses: readonly StoreAddress[],
  run: string,
  said: readonly Said[],
  random: () => number,
): Promise<void> {
  const args = [writer, run, ...addresses.map((address) => JSON.stringify(address))];
  const env = { ...process.env, NODE_COMPILE_CACHE: join(dirname(writer), 'compiled') };
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'], env });
  const ended = new Promise<NodeJS.Signals | null>((resolve) => {
    child.once('exit', (_code, signal) => resolve(signal));
  });
  const least = 1 + Math.floor(random() * 6);
  const before = said.map((one) => one.kept());
  let armed = false;
  for await (const line of createInterface({ input: child.stdout })) {
    const [number = '', what = ''] = line.split(' ', 2);
    said[Number(number)]?.hear(what, line.slice(number.length + what.length + 2));
    if (armed || said.some((one, i) => one.kept() < (before[i] ?? 0) + least)) continue;
    armed = true;
    void setTimeout(random() * 25).then(() => child.kill('SIGKILL'));
  }
  expect(await ended).toBe('SIGKILL');
}

/** Claims of one delivery follow each other, each after the end of the lease before it, and none follows upon sent. */
function expectOneAtATime({ claims, settled }: Said): number {
  let again = 0;
  for (const [delivery, own] of Map.groupBy(claims, (claim) => claim.delivery)) {
    const inOrder = own.toSorted((a, b) => a.token - b.token);
    for (const [i, claim] of inOrder.entries()) {
      const last = inOrder[i - 1];
      if (last === undefined) continue;
      again += 1;
      expect(claim.token, delivery).toBeGreaterThan(last.token);
      expect(claim.nowMs, delivery).toBeGreaterThanOrEqual(last.leaseUntilMs);
    }
  }
  expect(new Set(settled).size).toBe(settled.length);
  return again;
}

it(`a writer killed ${KILLS} times at random loses nothing that it acknowledged, on either store`, async () => {
  const random = seeded();
  const folder = mkdtempSync(join(tmpdir(), 'pitward-kill-'));
  const writer = await bundled(folder);
  const kept: { said: Said; batches: Kept; looks: KeptLooks }[] = [];
  let kills = 0;
  const lane = async (number: number): Promise<void> => {
    // A file belongs to one process at a time; a database to any number, but then to look into them would take longer.
    const addresses: StoreAddress[] = [{ sqliteFile: join(folder, `${number}.db`) }];
    if (!noPostgres) addresses.push({ databaseUrl: await freshDatabase(), connections: 2 });
    const said = addresses.map(() => new Said());
    for (let run = 0; run < KILLS / AT_ONCE; run += 1) {
      await killOne(writer, addresses, `${number}.${run}`, said, random);
      kills += 1;
    }
    for (const [i, address] of addresses.entries()) {
      const store = await openStore(address, { nowMs: () => NOON_MS });
      kept.push({ said: said[i] ?? new Said(), batches: await keptIn(store), looks: await looksIn(store) });
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
  let claimedAgain = 0;
  for (const { said, batches, looks } of kept) {
    expect(said.kept()).toBeGreaterThan(KILLS / AT_ONCE);
    expect(said.batches.filter((id) => !batches.whole.has(id))).toEqual([]);
    expect(said.looks.filter((id) => !looks.whole.has(id))).toEqual([]);
    expect([...batches.broken, ...looks.broken]).toEqual([]);
    // A look has one of its own, two taps and a transition.
    const events = batches.whole.size * 2 + looks.whole.size * 4;
    expect(batches.positions).toEqual(Array.from({ length: events }, (_, n) => n + 1));
    claimedAgain += expectOneAtATime(said);
    expect(said.settled.filter((id) => !looks.sent.has(id))).toEqual([]);
  }
  // Some had belonged to one that was killed: otherwise nothing was shown of them.
  expect(claimedAgain).toBeGreaterThan(0);
  const sum = (count: (one: (typeof kept)[number]) => number) => kept.reduce((n, one) => n + count(one), 0);
  console.log(
    `${kills} kills: ${sum((k) => k.said.batches.length)} batches and ${sum((k) => k.said.looks.length)} looks at burns acknowledged and there, ` +
      `${sum((k) => k.batches.whole.size - k.said.batches.length)} and ${sum((k) => k.looks.whole.size - k.said.looks.length)} more kept but not yet told; ` +
      `${sum((k) => k.said.claims.length)} claims of deliveries, ${claimedAgain} of them again after a lease had ended`,
  );
}, 400_000);
