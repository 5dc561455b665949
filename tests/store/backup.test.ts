// A backup is of one moment, and either kind of store can be made from it again.

import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { zstdCompressSync, zstdDecompressSync } from 'node:zlib';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Store } from '#store/store.ts';
import { capMessageOf } from '../builders/cap.ts';
import { hookAuditOf, hookOf, tryOf } from '../builders/hooks.ts';
import { EIGHT_MS, SITE } from '../builders/notices.ts';
import { auditOf, changeOf, documentOf, eventOf, keyOf, placeOf, planOf } from '../builders/store.ts';
import { lookOf } from '../builders/watch-records.ts';
import { batchOf, keptIn } from './batch-of.ts';
import { NOON_MS, noPostgres, onEachStore, storesOf } from './on-each-store.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'pitward-backup-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const request = { organisation: 'fern-hollow', key: 'k', requestHash: 'h', atMs: 5 };
const reply = () => ({ status: 201, body: '{"a":"\u2028"}', headers: { etag: '"1"' } });

/** One of everything, and more rows than one page of the file. */
async function fill(store: Store): Promise<void> {
  const empty = documentOf('', 'alerts');
  await store.definitions.change([changeOf('a', 0), changeOf('b', 0)], { request, reply });
  await store.definitions.change([changeOf('a', 1, { body: null })]);
  for (const id of ['x', 'y\n\r\u2028\u2029\u0000ö']) await store.commit(batchOf(encodeURIComponent(id)));
  await store.commit({
    documents: [empty],
    places: [placeOf('p', { alerts: empty.hash, remembered: 'line\u2028\r\nbreaks' })],
    events: Array.from({ length: 450 }, (_, i) => eventOf(`o/${i % 7}`)),
  });
  await store.keys.add(keyOf('a1a1a1a1', { sites: ['x'] }), auditOf({ detail: { ö: ['\u2029'] } }));
  await store.calendar.keep([
    {
      ...{ site: SITE, date: '2026-03-02', number: 1, uid: 'uid-1', sequence: 0, cancelled: false },
      ...{ fromMs: NOON_MS, toMs: EIGHT_MS, changedAtMs: NOON_MS },
    },
  ]);
  await store.forecasts.claim({ work: 'w', cycle: 1, worker: 'a', deadAfterMs: HOUR_MS });
  await store.watch.commit([{ ...lookOf(SITE, 'm1'), replaces: 0 }]);
  await store.watch.claimDeliveries({ ...SENDING, worker: 'w', nowMs: EIGHT_MS, most: 1 });
  await store.watch.secret('links', 'the first one');
  await store.hooks.add(hookOf('h-1'), hookAuditOf('subscription-made'), { request: null, reply });
  await store.hooks.note('h-1', tryOf('1'));
  await store.cap.add('own', 3, null, [capMessageOf({ headline: 'line\u2028\r\nbreaks' })]);
  const incident = { id: 'i', burn: 'b1', reference: 'CAD-1', by: 'dispatch', atMs: EIGHT_MS };
  await store.watch.commit([{ site: SITE, replaces: null, incidents: [incident] }]);
  await store.watch.keepReceipt({
    channel: 'text',
    reference: 'g-1',
    state: 'undelivered',
    code: null,
    atMs: EIGHT_MS,
  });
}

const HOUR_MS = 3_600_000;
const SENDING = { sendTimeoutMs: 10_000, leaseMs: 15_000, sendWithinMs: 60_000 };

async function contentsOf(store: Store) {
  const kept = await keptIn(store);
  const plans = await store.plans.newest();
  const hashes = plans.flatMap(({ basis }) => [basis.definition, basis.document, basis.alerts]);
  const { cells, places, watches, ...marks } = await store.marks();
  return {
    rows: (await store.care.sizes()).rows,
    marks: { ...marks, cells: [...cells].sort(), places: [...places].sort(), watches: [...watches] },
    kept,
    plans,
    documents: await Promise.all(
      hashes.map((hash) => store.documents.read(hash).then((d) => d?.bytes.toString())),
    ),
    events: await store.events.after({ after: 0, most: 1000 }),
    definitions: await store.definitions.current(),
    history: await store.definitions.history(changeOf('a', 0)),
    keys: await store.keys.all(),
    audit: await store.keys.audit(100),
    cap: [await store.cap.feed('own'), await store.cap.message('own', capMessageOf({}).identifier)],
    places: await store.forecasts.places(),
    watch: {
      state: await store.watch.state(SITE, 0),
      burn: await store.watch.burn(SITE, 'b1'),
      observations: await store.watch.observations(SITE, 0, 99),
      thread: await store.watch.thread('m1'),
      silences: await store.watch.silences([SITE], EIGHT_MS),
      optOuts: await store.watch.optOuts('fern-hollow'),
      dayTexts: await store.watch.dayTexts(SITE, '2026-01-01'),
      secret: await store.watch.secret('links', 'another one'),
      // Of the two one is claimed, and stays so.
      claimed: await store.watch.claimDeliveries({ ...SENDING, worker: 'x', nowMs: EIGHT_MS + 1, most: 9 }),
    },
    claim: await store.forecasts.claim({
      work: 'w',
      cycle: 1,
      worker: 'b',
      deadAfterMs: HOUR_MS,
    }),
  };
}

onEachStore('a backup', ({ kind, open }) => {
  describe.skipIf(noPostgres).each(['sqlite', 'postgres'] as const)('restored into %s', (target) => {
    const { open: openTarget } = storesOf(target);

    it('brings back everything, and goes on from there', async () => {
      const store = await open();
      await fill(store);
      const file = join(folder, 'backup');
      const made = await store.backup(file);
      const before = await contentsOf(store);
      const restored = await openTarget();
      expect(await restored.restore(file)).toEqual(made);
      expect(await contentsOf(restored)).toEqual(before);
      expect(made).toMatchObject({ madeAtMs: NOON_MS, rows: { events: 459, definitions: 3, apiKeys: 1 } });
      expect(Object.entries(made.rows).filter(([, count]) => count === 0)).toEqual([]);
      // Numbers go on where they were, and the reply is still known.
      await restored.commit({ ...batchOf('next'), plans: [planOf('o/x', 2, {}, batchOf('next').documents)] });
      expect((await restored.events.after({ after: 459, most: 9 })).map((e) => e.position)).toEqual([
        460, 461,
      ]);
      await restored.keys.revoke('a1a1a1a1', 1, auditOf({ what: 'last' }));
      expect((await restored.keys.audit(1))[0]?.what).toBe('last');
      expect((await restored.definitions.change([changeOf('c', 0)], { request, reply })).replayed).toEqual(
        reply(),
      );
    });
  });

  it('is of one moment, while others write', async () => {
    const store = await open();
    for (let i = 0; i < 30; i += 1) await store.commit(batchOf(`before-${i}`));
    let over = false;
    const writing = (async () => {
      for (let i = 0; !over; i += 1) await store.commit(batchOf(`during-${i}`));
    })();
    const file = join(folder, 'backup');
    await store.backup(file);
    over = true;
    await writing;
    const restored = await open();
    await restored.restore(file);
    const { whole, broken, positions } = await keptIn(restored);
    expect(broken).toEqual([]);
    expect(whole.size).toBeGreaterThanOrEqual(30);
    expect(positions).toEqual(Array.from({ length: whole.size * 2 }, (_, i) => i + 1));
  });

  it('is a file for its owner alone, never over another, and leaves nothing unfinished', async () => {
    const store = await open();
    const file = join(folder, 'backup');
    await store.backup(file);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    const bytes = readFileSync(file);
    await expect(store.backup(file)).rejects.toMatchObject({ code: 'backup_failed' });
    await expect(store.backup(join(folder, 'none', 'backup'))).rejects.toMatchObject({
      code: 'backup_failed',
    });
    expect(readFileSync(file).equals(bytes)).toBe(true);
    expect(readdirSync(folder)).toEqual(['backup']);
    expect(store.health()).toEqual({ ok: true });
  });

  it('of an empty store is a backup too', async () => {
    const store = await open();
    await store.backup(join(folder, 'backup'));
    const restored = await open();
    await restored.restore(join(folder, 'backup'));
    await restored.definitions.change([changeOf('a', 0)]);
    expect((await restored.marks()).definitions).toBe('1');
  });

  it('that was made before there were as many tables is whole all the same', async () => {
    const store = await open();
    await store.definitions.change([changeOf('a', 0)]);
    await store.backup(join(folder, 'backup'));
    const lines = zstdDecompressSync(readFileSync(join(folder, 'backup')))
      .toString('utf8')
      .split('\n');
    const old = lines.slice(0, -2).join('\n').replace(',"0002-watch"', '');
    const rows = { definitions: 1, replies: 0, counters: 4, audit: 1 };
    const sha256 = createHash('sha256').update(`${old}\n`).digest('hex');
    writeFileSync(join(folder, 'old'), zstdCompressSync(`${old}\n${JSON.stringify({ rows, sha256 })}\n`));
    const restored = await open();
    await restored.restore(join(folder, 'old'));
    expect(await restored.definitions.current()).toHaveLength(1);
    await restored.watch.commit([{ ...lookOf(SITE, 'm1'), replaces: 0 }]);
  });

  it('is refused by a store that holds anything', async () => {
    const store = await open();
    await store.definitions.change([changeOf('a', 0)]);
    await store.backup(join(folder, 'backup'));
    await expect(store.restore(join(folder, 'backup'))).rejects.toMatchObject({ code: 'store_not_empty' });
    expect(await store.definitions.current()).toHaveLength(1);
  });

  it('that is not whole is refused, and leaves the store empty', async () => {
    const store = await open();
    await fill(store);
    const file = join(folder, 'backup');
    await store.backup(file);
    const packed = readFileSync(file);
    const lines = zstdDecompressSync(packed).toString('utf8').split('\n');
    const pack = (list: readonly string[]): Buffer => zstdCompressSync(Buffer.from(list.join('\n')));
    const [head = ''] = lines;
    const spoiled: Record<string, Buffer> = {
      'cut short': packed.subarray(0, packed.length / 2),
      'one byte other': Buffer.from(packed.map((byte, i) => (i === packed.length >> 1 ? byte ^ 1 : byte))),
      'without its end': pack([...lines.slice(0, -2), '']),
      'without a row': pack(lines.toSpliced(3, 1)),
      'with a value changed': pack(lines.with(2, (lines[2] ?? '').replace('North', 'South'))),
      'with more after its end': pack([...lines.slice(0, -1), '["x"]', '']),
      'of another kind': Buffer.from('Burn diary'),
      empty: Buffer.alloc(0),
      'no head': pack(lines.slice(1)),
    };
    const empty = await open();
    for (const [what, bytes] of Object.entries(spoiled)) {
      writeFileSync(join(folder, 'spoiled'), bytes);
      await expect(empty.restore(join(folder, 'spoiled')), what).rejects.toMatchObject({
        code: 'backup_unreadable',
      });
    }
    await expect(empty.restore(join(folder, 'nowhere'))).rejects.toMatchObject({ code: 'backup_unreadable' });
    const later = head.replace('"0001-first"', '"0001-first","9999-later"');
    writeFileSync(join(folder, 'later'), pack(lines.with(0, later)));
    await expect(empty.restore(join(folder, 'later'))).rejects.toMatchObject({ code: 'store_newer' });
    const { rows } = await empty.care.sizes();
    expect(
      Object.values(rows).every((count) => count === 0),
      kind,
    ).toBe(true);
    await empty.restore(file);
    expect((await empty.marks()).definitions).toBe('2');
  });
});
