// Many processes that watch and send at once on one PostgreSQL: each store here has connections of its own, as a process
// has. Row 4: every replica told everybody (alertmanager#1341, grafana#53990).

import { expect, it } from 'vitest';
import { mergeMessage } from '#core/notices/merge-message.ts';
import { stepNotices } from '#core/notices/step-notices.ts';
import type { StoreAddress } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import type { ClaimedDelivery } from '#store/watch/records.ts';
import { EIGHT_MS, gust, SITE } from '../builders/notices.ts';
import { deliveryOf, observationOf, tapOf } from '../builders/watch-records.ts';
import { onPostgres } from './on-each-store.ts';
import { seeded } from './seeded.ts';

const LEASE = { sendTimeoutMs: 10, leaseMs: 100, sendWithinMs: 60_000 };

onPostgres('many processes that watch and send', ({ open, address }) => {
  const several = async (count: number, connections: number): Promise<[Store, ...Store[]]> => {
    const where: StoreAddress = { ...(await address()), connections } as StoreAddress;
    const first = await open(where);
    return [first, ...(await Promise.all(Array.from({ length: count - 1 }, () => open(where))))];
  };

  it('row 4: of 12 who judge the same at once, one tells it, and the others find it told', async () => {
    const stores = await several(4, 3);
    const judge = async (store: Store, round: number): Promise<'told' | 'nothing' | 'again'> => {
      const { version, notices } = await store.watch.state(SITE, 0);
      const nowMs = EIGHT_MS + round * 60_000;
      const seen = Array.from({ length: round + 1 }, (_, i) =>
        gust('true', 'stop', { subject: `mast ${i}` }),
      );
      const stepped = stepNotices({
        site: SITE,
        notices,
        conditions: seen,
        unlisted: () => 'dropped',
        burnOpen: true,
        nowMs,
      });
      const message = mergeMessage({ ...stepped, site: SITE, burnOpen: true, nowMs, hash: (text) => text });
      const patch = {
        site: SITE,
        replaces: version,
        ...stepped,
        messages: message === null ? [] : [message],
        deliveries: message === null ? [] : [deliveryOf(message.id, { validUntilMs: 8e15 })],
      };
      try {
        await store.watch.commit([patch]);
        return stepped.transitions.length > 0 ? 'told' : 'nothing';
      } catch (fault) {
        expect(fault).toMatchObject({ code: 'changed_meanwhile', retryable: true });
        return 'again';
      }
    };
    let again = 0;
    for (let round = 0; round < 8; round += 1) {
      const outcomes = await Promise.all(
        Array.from({ length: 12 }, (_, i) => judge(stores[i % 4] ?? stores[0], round)),
      );
      expect(outcomes.filter((outcome) => outcome === 'told')).toHaveLength(1);
      again += outcomes.filter((outcome) => outcome === 'again').length;
    }
    expect(again).toBeGreaterThan(0);
    const transitions = await stores[0].watch.transitions(SITE, 0, 1e15, 99);
    expect(transitions.map((t) => t.kind)).toEqual(Array(8).fill('raised'));
    expect(await stores[0].watch.openThreads(99)).toHaveLength(8);
    expect(await stores[0].watch.pending(EIGHT_MS)).toMatchObject({ waiting: 8 });
  });

  it('no delivery is with two at once while a lease lives, none is lost, and none is sent again once that is known', async () => {
    const random = seeded();
    const stores = await several(5, 3);
    const COUNT = 240;
    const deliveries = Array.from({ length: COUNT }, (_, i) =>
      deliveryOf('m', { contact: `c${i}`, urgency: i % 3, validUntilMs: 8e15 }),
    );
    await stores[0].watch.commit([{ site: SITE, replaces: null, deliveries }]);
    // One clock for all, which goes on by itself whenever somebody asks.
    let nowMs = EIGHT_MS;
    const claims: (ClaimedDelivery & { readonly fromMs: number; readonly worker: string })[] = [];
    const settled = new Map<string, number>();
    const work = async (worker: string, store: Store): Promise<void> => {
      while (settled.size < COUNT) {
        nowMs += 1 + Math.floor(random() * 5);
        const fromMs = nowMs;
        const mine = await store.watch.claimDeliveries({
          ...LEASE,
          worker,
          nowMs: fromMs,
          most: 1 + Math.floor(random() * 9),
        });
        for (const one of mine) {
          expect(settled.has(one.id), `${one.id} is claimed after it was sent`).toBe(false);
          claims.push({ ...one, fromMs, worker });
        }
        if (mine.length === 0) nowMs += 20;
        await finish(mine, worker, store);
      }
    };
    // Some die with what they have; what is said too late must not count.
    const finish = async (mine: readonly ClaimedDelivery[], worker: string, store: Store): Promise<void> => {
      const fate = random();
      if (fate < 0.2) return;
      const came = { atMs: nowMs, outcome: 'sent' as const, detail: worker, said: null };
      if (fate < 0.35) nowMs += 150;
      const lost = await store.watch.settle(mine.map(({ id, token }) => ({ id, token, ...came })));
      for (const { id, token } of mine) {
        if (lost.includes(id)) continue;
        expect(settled.has(id), `${id} is settled twice`).toBe(false);
        settled.set(id, token);
      }
    };
    await Promise.all(Array.from({ length: 10 }, (_, i) => work(`w${i}`, stores[i % 5] ?? stores[0])));
    for (const own of Map.groupBy(claims, (claim) => claim.id).values()) {
      const inOrder = own.toSorted((a, b) => a.token - b.token);
      expect(inOrder.map((claim) => claim.token)).toEqual(inOrder.map((_, i) => i + 1));
      for (const [i, claim] of inOrder.entries()) {
        const last = inOrder[i - 1];
        if (last) expect(claim.fromMs).toBeGreaterThanOrEqual(last.leaseUntilMs);
      }
    }
    expect(claims.length).toBeGreaterThan(COUNT);
    expect(await stores[0].watch.pending(nowMs)).toEqual({ waiting: 0, claimed: 0, oldestDueMs: null });
    console.log(`${COUNT} deliveries: ${claims.length} claims by 10 workers, some of which died`);
  });

  it('the same tap and the same observation sent to all processes at once are kept once', async () => {
    const stores = await several(4, 3);
    const kept = await Promise.all(
      Array.from({ length: 12 }, (_, i) =>
        (stores[i % 4] ?? stores[0]).watch.commit([
          { site: SITE, replaces: null, taps: [tapOf('t1')], observations: [observationOf(EIGHT_MS)] },
        ]),
      ),
    );
    expect(kept.flat().filter((one) => one.taps.length > 0)).toHaveLength(1);
    expect(kept.flat().filter((one) => one.observations.length > 0)).toHaveLength(1);
    expect(
      kept
        .flat()
        .map((one) => one.version)
        .sort((a, b) => a - b),
    ).toEqual(Array.from({ length: 12 }, (_, i) => i + 1));
  });

  it('patches of the same sites in any order all go through', async () => {
    const stores = await several(4, 4);
    const sites = ['o/a', 'o/b', 'o/c', 'o/d'];
    const patches = (i: number) =>
      sites
        .toSorted((a, b) => ((a.charCodeAt(2) * i) % 7) - ((b.charCodeAt(2) * i) % 7))
        .map((site) => ({ site, replaces: null, taps: [tapOf(`t${i}`)] }));
    await Promise.all(
      Array.from({ length: 40 }, (_, i) => (stores[i % 4] ?? stores[0]).watch.commit(patches(i + 1))),
    );
    expect([...(await stores[0].marks()).watches.values()]).toEqual([40, 40, 40, 40]);
  });
});
