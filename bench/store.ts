// (e) Commits of the store against the bare driver that writes the same rows: the same batches in alternating rounds.

import { openStore } from '#store/open-store.ts';
import { packDocument } from '#store/pack-document.ts';
import { type BareWriter, barePostgres, bareSqlite, type PackedBatch } from './bare-writers.ts';
import { ALERTS, commitOf, DEFINITION, type FullBatch } from './commits.ts';
import { addressOf, type BenchStore, eachStore } from './each-store.ts';
import { benchMarks } from './marks.ts';
import { line, median, note } from './measure.ts';

const ROUNDS = 9;

const SHAPES = [
  { name: 'a pull: document, cell, plan, event', planCount: 1, commits: 40 },
  { name: 'a hundred plans and their events', planCount: 100, commits: 8 },
];

export async function benchStore(): Promise<void> {
  line(
    `(e) commits of the store against the bare driver with the same rows, settings and round trips, median of ${ROUNDS} alternating rounds`,
  );
  await eachStore(compareOn);
}

async function compareOn({ kind, fresh }: BenchStore): Promise<void> {
  const [ours, bares] = [await fresh(), await fresh()];
  const store = await openStore(addressOf(ours), { nowMs: Date.now });
  // The peer's tables are the same, made by the store and left to it.
  const made = await openStore(addressOf(bares), { nowMs: Date.now });
  for (const each of [store, made]) await each.commit({ documents: [DEFINITION, ALERTS] });
  await made.close();
  const bare = kind === 'SQLite' ? bareSqlite(bares) : await barePostgres(bares);
  let index = 0;
  for (const { name, planCount, commits } of SHAPES) {
    note(`${kind}: ${name}`);
    const rounds: Round[] = [];
    for (let round = 0; round <= ROUNDS; round += 1) {
      const batches = Array.from({ length: commits }, () => commitOf(index++, planCount));
      const times = await timeRound(batches, (batch) => store.commit(batch), bare, round % 2 === 0);
      // The first is for warming up.
      if (round > 0) rounds.push(times);
    }
    tell(kind, name, rounds);
  }
  await store.close();
  await bare.close();
  await benchMarks({ kind, fresh });
}

interface Round {
  readonly storeMs: number;
  readonly bareMs: number;
  /** Hashing and compressing the documents, which the bare driver is spared [ms]. */
  readonly packMs: number;
}

async function timeRound(
  batches: readonly FullBatch[],
  commit: (batch: FullBatch) => Promise<void>,
  bare: BareWriter,
  isStoreFirst: boolean,
): Promise<Round> {
  const packStart = performance.now();
  const packed: PackedBatch[] = batches.map((b) => ({ ...b, packed: b.documents.map(packDocument) }));
  const packMs = (performance.now() - packStart) / batches.length;
  const timed = async <T>(list: readonly T[], write: (batch: T) => Promise<void> | void): Promise<number> => {
    const start = performance.now();
    for (const batch of list) await write(batch);
    return (performance.now() - start) / batches.length;
  };
  if (isStoreFirst) {
    const storeMs = await timed(batches, commit);
    return { storeMs, bareMs: await timed(packed, bare.write), packMs };
  }
  const bareMs = await timed(packed, bare.write);
  return { storeMs: await timed(batches, commit), bareMs, packMs };
}

function tell(kind: string, name: string, rounds: readonly Round[]): void {
  const rate = median(rounds.map((r) => r.bareMs / r.storeMs));
  const apart = median(rounds.map((r) => r.bareMs / (r.storeMs - r.packMs)));
  const [storeMs, bareMs] = [median(rounds.map((r) => r.storeMs)), median(rounds.map((r) => r.bareMs))];
  line(
    `    ${kind}, ${name}: ${rate.toFixed(2)} of the bare rate, ${apart.toFixed(2)} with hashing and compressing apart (${storeMs.toFixed(1)} and ${bareMs.toFixed(1)} ms a commit)`,
  );
}
