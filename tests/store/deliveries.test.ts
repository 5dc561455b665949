// Deliveries are handed out once at a time, the most urgent first, and whoever lost one can no longer settle it.

import { describe, expect, it } from 'vitest';
import type { Store } from '#store/store.ts';
import type { ClaimDeliveries, Settlement } from '#store/watch/records.ts';
import { EIGHT_MS, SITE } from '../builders/notices.ts';
import { deliveryOf } from '../builders/watch-records.ts';
import { onEachStore } from './on-each-store.ts';

const TIMES = { sendTimeoutMs: 10_000, leaseMs: 15_000, sendWithinMs: 60_000 };

const claimOf = (worker: string, afterMs = 0, change: Partial<ClaimDeliveries> = {}): ClaimDeliveries => ({
  worker,
  nowMs: EIGHT_MS + afterMs,
  most: 10,
  ...TIMES,
  ...change,
});

const claimed = async (store: Store, worker: string, afterMs = 0, change: Partial<ClaimDeliveries> = {}) =>
  (await store.watch.claimDeliveries(claimOf(worker, afterMs, change))).map((d) => `${d.contact} ${d.token}`);

const add = (store: Store, ...contacts: readonly (readonly [string, object])[]) =>
  store.watch.commit([
    {
      site: SITE,
      replaces: null,
      deliveries: contacts.map(([contact, change]) => deliveryOf('m', { contact, ...change })),
    },
  ]);

const settlement = (contact: string, token: number, change: Partial<Settlement> = {}): Settlement => ({
  id: `m 0 0 0 ${contact}`,
  token,
  atMs: EIGHT_MS + 1000,
  outcome: 'sent',
  detail: 'gateway 77',
  said: 'Pit 7: HALT FEEDING NOW',
  ...change,
});

onEachStore('deliveries', ({ open }) => {
  it('are handed out the most urgent first, then as they became due, and at most as many as asked for', async () => {
    const store = await open();
    await add(
      store,
      ['news', { urgency: 2, dueAtMs: EIGHT_MS - 9 }],
      ['late stop', { dueAtMs: EIGHT_MS - 1 }],
      ['hold', { urgency: 1 }],
      ['stop', { dueAtMs: EIGHT_MS - 2 }],
    );
    expect(await claimed(store, 'w', 0, { most: 3 })).toEqual(['stop 1', 'late stop 1', 'hold 1']);
    expect(await claimed(store, 'w', 0, { most: 3 })).toEqual(['news 1']);
    expect(await claimed(store, 'w', 0)).toEqual([]);
  });

  it('are free at once where whoever had claimed them is known to be dead, and nothing that is settled is', async () => {
    const store = await open();
    await add(store, ['ana', {}], ['ben', {}]);
    await store.watch.claimDeliveries(claimOf('dead'));
    await store.watch.settle([settlement('ben', 1)]);
    expect(await claimed(store, 'next', 1)).toEqual([]);
    expect([await store.watch.releaseClaims(), await store.watch.releaseClaims()]).toEqual([1, 0]);
    expect(await claimed(store, 'next', 1)).toEqual(['ana 2']);
    // The dead one's own word counts no more.
    expect(await store.watch.settle([settlement('ana', 1)])).toEqual(['m 0 0 0 ana']);
  });

  it('come with what they are, the same id at every try, and when they were first tried', async () => {
    const store = await open();
    await add(store, ['ana', { parts: [0, 2], way: 0 }]);
    const [first] = await store.watch.claimDeliveries(claimOf('w'));
    expect(first).toEqual({
      ...deliveryOf('m', { parts: [0, 2], triedAtMs: EIGHT_MS }),
      id: 'm 0 0 0 ana',
      tries: 1,
      said: null,
      deliveredAtMs: null,
      token: 1,
      wasTried: false,
      leaseUntilMs: EIGHT_MS + 15_000,
    });
    const [second] = await store.watch.claimDeliveries(claimOf('w', 15_000));
    expect(second).toMatchObject({ id: 'm 0 0 0 ana', tries: 2, token: 2, triedAtMs: EIGHT_MS });
  });

  it('belong to who claimed them for the length of the lease, and then to the next, who alone may settle them', async () => {
    const store = await open();
    await add(store, ['ana', {}]);
    expect(await claimed(store, 'one')).toEqual(['ana 1']);
    expect(await claimed(store, 'two', 14_999)).toEqual([]);
    expect(await claimed(store, 'two', 15_000)).toEqual(['ana 2']);
    expect(await store.watch.settle([settlement('ana', 1, { outcome: 'failed' })])).toEqual(['m 0 0 0 ana']);
    expect(await store.watch.settle([settlement('ana', 2)])).toEqual([]);
    // Settled is settled.
    expect(await store.watch.settle([settlement('ana', 2, { outcome: 'failed' })])).toEqual(['m 0 0 0 ana']);
    expect(await claimed(store, 'three', 1e6)).toEqual([]);
  });

  it('that are to be tried again wait until then, and at most five minutes', async () => {
    const store = await open();
    await add(store, ['ana', {}], ['ben', {}]);
    await claimed(store, 'w');
    await store.watch.settle([
      settlement('ana', 1, { outcome: 'again', notBeforeMs: EIGHT_MS + 30_000, detail: '429', said: null }),
      settlement('ben', 1, { outcome: 'again', notBeforeMs: EIGHT_MS + 9e6, detail: '503', said: null }),
    ]);
    // What was let go is nobody's until it is claimed anew.
    expect(await store.watch.settle([settlement('ana', 1)])).toEqual(['m 0 0 0 ana']);
    expect(await claimed(store, 'w', 29_999)).toEqual([]);
    expect(await claimed(store, 'w', 30_000)).toEqual(['ana 2']);
    expect(await claimed(store, 'w', 300_999)).toEqual(['ana 3']);
    expect(await claimed(store, 'w', 301_000)).toEqual(['ben 2']);
  });

  it('that are held back were not tried by that, and what was tried before stays tried', async () => {
    const store = await open();
    await add(store, ['ana', {}], ['ben', {}]);
    const again = { outcome: 'again', notBeforeMs: EIGHT_MS, said: null } as const;
    const round = async (afterMs: number, change: (contact: string) => Partial<Settlement>) => {
      const found = await store.watch.claimDeliveries(claimOf('w', afterMs));
      await store.watch.settle(
        found.map(({ contact, token, wasTried }) =>
          settlement(contact, token, { ...again, wasTried, ...change(contact) }),
        ),
      );
      return found.map((d) => [d.contact, d.tries, d.triedAtMs, d.wasTried]).sort();
    };
    const held = () => ({ isUntried: true, detail: 'silenced' });
    const began = await round(0, (contact) => (contact === 'ana' ? { detail: 'timeout' } : held()));
    expect(began).toEqual([
      ['ana', 1, EIGHT_MS, false],
      ['ben', 1, EIGHT_MS, false],
    ]);
    for (const afterMs of [60_000, 120_000, 180_000]) {
      expect(await round(afterMs, held)).toEqual([
        ['ana', 2, EIGHT_MS, true],
        ['ben', 2, EIGHT_MS + afterMs, false],
      ]);
    }
  });

  it('are not sent after their time, which is noted as such', async () => {
    const store = await open();
    await add(store, ['ana', { validUntilMs: EIGHT_MS + 5 }], ['held', { validUntilMs: EIGHT_MS + 5 }]);
    expect(await claimed(store, 'w', 5, { most: 1 })).toEqual(['ana 1']);
    expect(await claimed(store, 'w', 6)).toEqual([]);
    const undelivered = await store.watch.undelivered(0, 9);
    expect(undelivered).toMatchObject([{ contact: 'held', outcome: 'expired', settledAtMs: EIGHT_MS + 6 }]);
    // One that is being sent right now may still be settled as sent.
    expect(await store.watch.settle([settlement('ana', 1)])).toEqual([]);
  });

  it('row 5: are handed out only where try, lease and deadline fit each other (alertmanager#488)', async () => {
    const store = await open();
    await add(store, ['ana', {}]);
    for (const wrong of [{ leaseMs: 60_000 }, { leaseMs: 10_000 }, { sendTimeoutMs: 0 }]) {
      await expect(store.watch.claimDeliveries(claimOf('w', 0, wrong))).rejects.toMatchObject({
        code: 'internal',
      });
    }
    expect(await claimed(store, 'w')).toEqual(['ana 1']);
  });

  describe('where the clock was set back', () => {
    it('no lease and no due time of before keeps anything from being sent', async () => {
      const store = await open();
      await add(store, ['ana', {}], ['ben', {}], ['new', { dueAtMs: EIGHT_MS }]);
      await claimed(store, 'dead', 0, { most: 1 });
      await claimed(store, 'w', 0, { most: 1 });
      await store.watch.settle([settlement('ben', 1, { outcome: 'again', notBeforeMs: EIGHT_MS + 60_000 })]);
      expect((await claimed(store, 'w', -7_200_000)).sort()).toEqual(['ana 2', 'ben 2', 'new 1']);
    });
  });

  it('are counted while they wait, and shown where they did not arrive', async () => {
    const store = await open();
    await add(
      store,
      ['ana', {}],
      ['ben', { dueAtMs: EIGHT_MS - 5 }],
      ['cy', {}],
      ['out', { outcome: 'failed', detail: 'opted-out' }],
    );
    expect(await store.watch.pending(EIGHT_MS)).toEqual({
      waiting: 3,
      claimed: 0,
      oldestDueMs: EIGHT_MS - 5,
    });
    await claimed(store, 'w', 0, { most: 2 });
    expect(await store.watch.pending(EIGHT_MS)).toEqual({
      waiting: 1,
      claimed: 2,
      oldestDueMs: EIGHT_MS - 5,
    });
    await claimed(store, 'w', 0);
    await store.watch.settle([
      settlement('ana', 1),
      settlement('ben', 1, { outcome: 'uncertain', detail: 'broken off after DATA' }),
      settlement('cy', 1, { outcome: 'failed', detail: '403', said: null }),
    ]);
    expect(await store.watch.pending(EIGHT_MS)).toEqual({ waiting: 0, claimed: 0, oldestDueMs: null });
    const undelivered = await store.watch.undelivered(EIGHT_MS - 5, 9);
    expect(undelivered.map((d) => [d.contact, d.outcome, d.detail])).toEqual([
      ['cy', 'failed', '403'],
      ['out', 'failed', 'opted-out'],
      ['ben', 'uncertain', 'broken off after DATA'],
    ]);
    expect(await store.watch.undelivered(EIGHT_MS, 1, [SITE])).toHaveLength(1);
    expect(await store.watch.undelivered(0, 9, ['fern-hollow/south-block'])).toEqual([]);
  });

  it('of one kind are one, whoever makes them again, and keep what came of them', async () => {
    const store = await open();
    await add(store, ['ana', {}]);
    await claimed(store, 'w');
    await store.watch.settle([settlement('ana', 1)]);
    await add(store, ['ana', {}], ['ana', { repeat: 1 }], ['ana', { way: 1 }], ['ana', { step: 1 }]);
    expect((await claimed(store, 'w')).length).toBe(3);
    expect((await store.care.sizes()).rows['deliveries']).toBe(4);
  });
});
