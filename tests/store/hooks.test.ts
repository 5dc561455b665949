// Subscriptions: what is written of them, who is at work on one, and what became of each try.

import { expect, it } from 'vitest';
import { fresh } from '#core/events/hook-step.ts';
import { MOST_ATTEMPTS } from '#store/hooks/records.ts';
import type { Store } from '#store/store.ts';
import { hookAuditOf, hookBodyOf, hookOf, SECRET, HOOKS_AT_MS as T_MS, tryOf } from '../builders/hooks.ts';
import { eventOf, keyOf } from '../builders/store.ts';
import { NOON_MS, onEachStore } from './on-each-store.ts';

const LEASE_MS = 60_000;
const MADE = hookAuditOf('subscription-made');
const request = { organisation: 'fern-hollow', key: 'k-1', requestHash: 'a'.repeat(64), atMs: NOON_MS };
const reply = { status: 201, body: '{"id":"h-1"}', headers: { etag: '"r1"' } };

const ONCE = { request: null, reply: () => reply };

const claimOf = async (store: Store, id: string, worker: string, deadAfterMs: number) =>
  (await store.hooks.claim([id], worker, deadAfterMs))[0] ?? null;

const claimed = async (store: Store, id: string, worker: string) => {
  const hook = await claimOf(store, id, worker, LEASE_MS);
  if (!hook) throw new Error(`no claim of ${id}`);
  return hook;
};

onEachStore('subscriptions', ({ open, kind }) => {
  it('are kept as written, begin at the end of the log, and come back in their order', async () => {
    const store = await open();
    await store.commit({ events: [eventOf('fern-hollow/a'), eventOf('fern-hollow/b')] });
    const area = { circle: { lat: 36.4, lon: -120.2, radiusKm: 40 } };
    const body = hookBodyOf({ sites: ['a', 'ö'], area, types: ['burn-lit'], format: 'cloudevents' });
    await store.hooks.add(hookOf('h-2', { body, madeAtMs: T_MS + 1, key: null }), MADE, ONCE);
    await store.hooks.add(hookOf('h-1'), MADE, ONCE);
    await store.hooks.add(hookOf('h-3', { organisation: 'other' }), MADE, ONCE);
    const own = await store.hooks.of('fern-hollow');
    expect(own).toEqual([
      { subscription: hookOf('h-1'), standing: fresh(2), turn: 0, attempts: 0, lastTakenAtMs: null },
      expect.objectContaining({
        subscription: hookOf('h-2', { body, madeAtMs: T_MS + 1, key: null }),
      }),
    ]);
    expect(await store.hooks.one('h-1')).toEqual(own[0]);
    expect(await store.hooks.one('h-9')).toBeNull();
    expect((await store.hooks.all()).map(({ subscription }) => subscription.id).sort()).toEqual([
      'h-1',
      'h-2',
      'h-3',
    ]);
    expect((await store.hooks.marks()).last).toBe(2);
    expect((await store.keys.audit(9)).map(({ what }) => what)).toEqual(Array(3).fill(MADE.what));
  });

  it('a change names what it replaces, goes on at once where it stood, and is marked', async () => {
    const store = await open();
    await store.hooks.add(hookOf('h-1'), MADE, ONCE);
    const { turn } = await claimed(store, 'h-1', 'w1');
    const failing = {
      ...fresh(7),
      failures: 3,
      nextAtMs: 99,
      failingSinceMs: 5,
      ended: { why: 'gone', atMs: 6 },
    } as const;
    await store.hooks.settle('h-1', { worker: 'w1', turn }, failing, null, null);
    expect((await store.hooks.one('h-1'))?.standing).toEqual(failing);
    const before = await store.hooks.marks();
    const secrets = [
      { secret: SECRET, untilMs: null },
      { secret: SECRET, untilMs: 77 },
    ];
    const changed = hookOf('h-1', { revision: 2, secrets, key: 'b2b2b2b2' });
    await store.hooks.change(changed, hookAuditOf('subscription-changed'), ONCE);
    expect(await store.hooks.one('h-1')).toMatchObject({
      subscription: changed,
      standing: fresh(7),
      turn: 1,
    });
    expect((await store.hooks.marks()).changed).not.toBe(before.changed);
    for (const revision of [1, 2, 4])
      await expect(store.hooks.change(hookOf('h-1', { revision }), MADE, ONCE)).rejects.toMatchObject({
        code: 'changed_meanwhile',
      });
    await expect(store.hooks.change(hookOf('h-9'), MADE, ONCE)).rejects.toMatchObject({ code: 'not_found' });
    await expect(store.hooks.remove('h-1', 1, MADE)).rejects.toMatchObject({ code: 'changed_meanwhile' });
    expect((await store.hooks.one('h-1'))?.subscription.revision).toBe(2);
  });

  it('the same request acts once and gets the same reply, also when sent at once', async () => {
    const store = await open();
    const ids = ['h-1', 'h-2', 'h-3'];
    const made = await Promise.all(
      ids.map((id) => store.hooks.add(hookOf(id), MADE, { request, reply: () => reply })),
    );
    expect(made.filter(({ replayed }) => !replayed)).toHaveLength(1);
    expect(made.map(({ outcome }) => outcome)).toEqual([reply, reply, reply]);
    expect(await store.hooks.all()).toHaveLength(1);
    const other = { ...request, requestHash: 'b'.repeat(64) };
    await expect(
      store.hooks.add(hookOf('h-4'), MADE, { request: other, reply: () => reply }),
    ).rejects.toMatchObject({
      code: 'key_reused',
    });
  });

  it('one worker at a time has it, until it lets go or is dead by the clock of the database', async () => {
    const store = await open();
    await store.hooks.add(hookOf('h-1'), MADE, ONCE);
    const workers = ['w1', 'w2', 'w3', 'w4'];
    const all = await Promise.all(workers.map((worker) => claimOf(store, 'h-1', worker, LEASE_MS)));
    const winner = workers[all.findIndex((hook) => hook !== null)] ?? '';
    expect(all.filter((hook) => hook !== null)).toHaveLength(1);
    expect(await claimOf(store, 'h-1', winner, LEASE_MS)).not.toBeNull();
    await store.hooks.release('h-1', 'somebody else');
    expect(await claimOf(store, 'h-1', 'w9', LEASE_MS)).toBeNull();
    await store.hooks.release('h-1', winner);
    expect(await claimOf(store, 'h-1', 'w9', LEASE_MS)).not.toBeNull();
    expect(await claimOf(store, 'h-1', 'w10', 0)).not.toBeNull();
    expect(await claimOf(store, 'h-1', 'w11', LEASE_MS)).toBeNull();
    await store.hooks.releaseAll();
    expect(await claimOf(store, 'h-1', 'w11', LEASE_MS)).not.toBeNull();
    expect(await claimOf(store, 'h-9', 'w1', LEASE_MS)).toBeNull();
  });

  it('many are claimed in one step: those that nobody has', async () => {
    const store = await open();
    const ids = ['h-3', 'h-1', 'h-2'];
    for (const id of ids) await store.hooks.add(hookOf(id), MADE, ONCE);
    await claimed(store, 'h-1', 'w1');
    const ours = await store.hooks.claim([...ids, 'h-9'], 'w2', LEASE_MS);
    expect(ours.map(({ subscription }) => subscription.id).sort()).toEqual(['h-2', 'h-3']);
    expect(await store.hooks.claim([], 'w2', LEASE_MS)).toEqual([]);
    // Each of many who ask at once in another order gets some or none, and no two the same.
    await store.hooks.releaseAll();
    const all = await Promise.all(
      ['w3', 'w4', 'w5'].map((worker, i) =>
        store.hooks.claim(i % 2 ? ids : ids.toReversed(), worker, LEASE_MS),
      ),
    );
    expect(
      all
        .flat()
        .map(({ subscription }) => subscription.id)
        .sort(),
    ).toEqual(['h-1', 'h-2', 'h-3']);
  });

  it('whoever was taken over, or whom a change overtook, moves nothing; the try is kept all the same', async () => {
    const store = await open();
    await store.hooks.add(hookOf('h-1'), MADE, ONCE);
    const { turn } = await claimed(store, 'h-1', 'w1');
    expect(await claimOf(store, 'h-1', 'w2', 0)).not.toBeNull();
    const late = await store.hooks.settle(
      'h-1',
      { worker: 'w1', turn },
      fresh(9),
      tryOf('9'),
      eventOf('fern-hollow/a'),
    );
    expect(late).toBeNull();
    const ours = await store.hooks.settle('h-1', { worker: 'w2', turn }, fresh(9), tryOf('9'), null);
    expect(ours).toMatchObject({ standing: fresh(9), attempts: 2, lastTakenAtMs: T_MS });
    await store.hooks.moveTo('h-1', 3, hookAuditOf('subscription-replayed'));
    expect(await store.hooks.settle('h-1', { worker: 'w2', turn }, fresh(10), null, null)).toBeNull();
    expect((await store.hooks.one('h-1'))?.standing).toEqual(fresh(3));
    expect((await store.hooks.marks()).last).toBe(0);
    expect(await store.hooks.attempts('h-1', { before: null, most: 9 })).toHaveLength(2);
    await expect(store.hooks.moveTo('h-9', 3, MADE)).rejects.toMatchObject({ code: 'not_found' });
  });

  it('one that ends is claimed by nobody, and is told in the log in the same step', async () => {
    const store = await open();
    await store.hooks.add(hookOf('h-1'), MADE, ONCE);
    const { turn } = await claimed(store, 'h-1', 'w1');
    const missed = { from: 2, to: 5, count: 3 };
    const standing = { ...fresh(5), missed, ended: { why: 'failing', atMs: T_MS } } as const;
    const event = eventOf('fern-hollow/a');
    expect(await store.hooks.settle('h-1', { worker: 'w1', turn }, standing, null, event)).toMatchObject({
      standing,
    });
    expect((await store.hooks.marks()).last).toBe(1);
    await store.hooks.release('h-1', 'w1');
    expect(await claimOf(store, 'h-1', 'w1', LEASE_MS)).toBeNull();
  });

  it('tries are numbered, read newest first in pieces, kept up to a number, and gone with their subscription', async () => {
    const store = await open();
    await store.hooks.add(hookOf('h-1'), MADE, ONCE);
    await store.hooks.add(hookOf('h-2'), MADE, ONCE);
    const refused = tryOf('3', { outcome: 'refused', status: 400, reason: 'refused', detail: 'answer 400' });
    for (const attempt of [tryOf('1'), tryOf('2', { status: null, outcome: 'failed' }), refused])
      await store.hooks.note('h-1', attempt);
    await store.hooks.note('h-2', tryOf('7'));
    const numbers = async (before: number | null, most: number) =>
      (await store.hooks.attempts('h-1', { before, most })).map(({ number }) => number);
    expect([await numbers(null, 2), await numbers(2, 2)]).toEqual([[3, 2], [1]]);
    expect((await store.hooks.attempts('h-1', { before: null, most: 1 }))[0]).toEqual({
      ...refused,
      number: 3,
    });
    if (kind === 'sqlite') {
      for (let i = 3; i < MOST_ATTEMPTS + 2; i += 1) await store.hooks.note('h-1', tryOf(`${i}`));
      const all = await numbers(null, 2 * MOST_ATTEMPTS);
      expect([all.length, all[0], all.at(-1)]).toEqual([MOST_ATTEMPTS, MOST_ATTEMPTS + 2, 3]);
    }
    await store.hooks.remove('h-1', 1, hookAuditOf('subscription-taken-out'));
    expect([await numbers(null, 9), await store.hooks.one('h-1')]).toEqual([[], null]);
    await store.hooks.note('h-1', tryOf('8'));
    expect([await numbers(null, 9), (await store.hooks.one('h-2'))?.attempts]).toEqual([[], 1]);
    await expect(store.hooks.remove('h-1', 1, MADE)).rejects.toMatchObject({ code: 'not_found' });
  });

  it('outlive the key that wrote them, which is for whoever sends to judge', async () => {
    const store = await open();
    await store.keys.add(keyOf('a1a1a1a1'), hookAuditOf('key-made'));
    await store.hooks.add(hookOf('h-1'), MADE, ONCE);
    await store.keys.revoke('a1a1a1a1', T_MS, hookAuditOf('key-revoked'));
    expect((await store.hooks.one('h-1'))?.subscription.key).toBe('a1a1a1a1');
  });
});
