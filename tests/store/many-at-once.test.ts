// Many processes on one PostgreSQL: each store here has connections of its own, as a process has.

import { expect, it } from 'vitest';
import type { StoreAddress } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { BASIS, cellOf, changeOf, documentOf, eventOf, placeOf, planOf } from '../builders/store.ts';
import { ageClaims } from './age-claims.ts';
import { onPostgres } from './on-each-store.ts';

onPostgres('many processes at once on PostgreSQL', ({ open, address }) => {
  const several = async (
    count: number,
    connections: number,
    at?: StoreAddress,
  ): Promise<[Store, Store, ...Store[]]> => {
    const where: StoreAddress = { ...(at ?? (await address())), connections } as StoreAddress;
    const first = await open(where);
    const second = await open(where);
    const others = await Promise.all(Array.from({ length: count - 2 }, () => open(where)));
    return [first, second, ...others];
  };

  it('of 20 who claim the same work exactly one gets it, cycle after cycle, and after a takeover too', async () => {
    const where = await address();
    const stores = await several(5, 4, where);
    const race = (cycle: number, tag: string) =>
      Promise.all(
        Array.from({ length: 20 }, (_, i) =>
          (stores[i % 5] ?? stores[0]).forecasts.claim({
            work: 'pull BMX 59,84',
            cycle,
            worker: `${tag}${i}`,
            deadAfterMs: 60_000,
          }),
        ),
      );
    for (let cycle = 1; cycle <= 25; cycle += 1) {
      const first = await race(cycle, 'first');
      expect(first.filter((answer) => answer === 'ours')).toHaveLength(1);
      expect(first.filter((answer) => answer === 'taken')).toHaveLength(19);
      // The one that had it is dead.
      await ageClaims(where, 60_000);
      const second = await race(cycle, 'second');
      expect(second.filter((answer) => answer === 'ours')).toHaveLength(1);
      const done = { work: 'pull BMX 59,84', cycle, worker: `second${second.indexOf('ours')}` };
      await stores[0].commit({ done: [done] });
      await ageClaims(where, 1e9);
      expect(new Set(await race(cycle, 'third'))).toEqual(new Set(['done']));
    }
  });

  it('of 20 who claim turns of the same work, each its own, one at a time gets it', async () => {
    const stores = await several(5, 4);
    const waiting = new Set(Array.from({ length: 20 }, (_, i) => i));
    while (waiting.size > 0) {
      const asked = [...waiting];
      const said = await Promise.all(
        asked.map((i) =>
          (stores[i % 5] ?? stores[0]).forecasts.claim({
            work: 'pull BMX 59,84',
            cycle: i,
            worker: `w${i}`,
            deadAfterMs: 60_000,
          }),
        ),
      );
      const ours = asked.filter((_, k) => said[k] === 'ours');
      expect(ours).toHaveLength(1);
      const [cycle = Number.NaN] = ours;
      await stores[0].commit({ done: [{ work: 'pull BMX 59,84', cycle, worker: `w${cycle}` }] });
      waiting.delete(cycle);
    }
  });

  it('of two who finish the same work, one that was taken over writes nothing', async () => {
    const where = await address();
    const [a, b] = await several(2, 4, where);
    for (let cycle = 1; cycle <= 20; cycle += 1) {
      const claim = { work: 'pull', cycle, deadAfterMs: 1000 };
      await a.forecasts.claim({ ...claim, worker: 'a' });
      await ageClaims(where, 1000);
      const event = (who: string) => ({
        events: [eventOf('o/a', { subject: `${who}${cycle}` })],
        done: [{ work: 'pull', cycle, worker: who }],
      });
      // The takeover and the late finish at the same moment.
      const [late, taken] = await Promise.allSettled([
        a.commit(event('a')),
        b.forecasts.claim({ ...claim, worker: 'b' }),
      ]);
      const toB = taken.status === 'fulfilled' && taken.value === 'ours';
      expect(late.status).toBe(toB ? 'rejected' : 'fulfilled');
      if (toB) await b.commit(event('b'));
    }
    const told = (await a.events.after({ after: 0, most: 1000 })).map((e) => e.subject.slice(1));
    expect(told).toEqual(Array.from({ length: 20 }, (_, i) => String(i + 1)));
  });

  it('of 20 who change the same revision exactly one does, and history has no gap', async () => {
    const stores = await several(5, 4);
    for (let revision = 0; revision < 15; revision += 1) {
      const outcomes = await Promise.allSettled(
        Array.from({ length: 20 }, (_, i) =>
          (stores[i % 5] ?? stores[0]).definitions.change([
            changeOf('north-block', revision, { body: { by: i } }),
          ]),
        ),
      );
      const refused = outcomes.filter((o) => o.status === 'rejected').map((o) => o.reason.code);
      expect(refused).toEqual(Array(19).fill('changed_meanwhile'));
    }
    const history = await stores[0].definitions.history(changeOf('north-block', 0));
    expect(history.map((d) => d.revision)).toEqual(Array.from({ length: 15 }, (_, i) => 15 - i));
  });

  it('of 20 who send the same request exactly one acts, and all get its reply', async () => {
    const stores = await several(5, 4);
    const request = { organisation: 'fern-hollow', key: 'k', requestHash: 'h', atMs: 1 };
    const replies = await Promise.all(
      Array.from({ length: 20 }, async (_, i) => {
        const own = { status: 201, body: `made by ${i}`, headers: {} };
        const { made, replayed } = await (stores[i % 5] ?? stores[0]).definitions.change(
          [changeOf('north-block', 0)],
          { request, reply: () => own },
        );
        return { acted: made.length, body: (replayed ?? own).body };
      }),
    );
    expect(replies.filter((r) => r.acted > 0)).toHaveLength(1);
    expect(new Set(replies.map((r) => r.body)).size).toBe(1);
  });

  it('event positions have no gap, and a reader that goes by them misses none', async () => {
    const stores = await several(4, 5);
    const written: string[] = [];
    const read: { position: number; subject: string }[] = [];
    let writing = true;
    const reader = async (): Promise<void> => {
      for (let last = false; !last; ) {
        last = !writing;
        const events = await stores[0].events.after({ after: read.at(-1)?.position ?? 0, most: 7 });
        read.push(...events);
        if (events.length === 7) last = false;
      }
    };
    const writer = async (w: number): Promise<void> => {
      for (let i = 0; i < 25; i += 1) {
        const ids = Array.from({ length: 1 + ((w + i) % 3) }, (_, n) => `${w}-${i}-${n}`);
        const events = ids.map((planId) => eventOf(`o/${w}`, { subject: planId }));
        // Every fifth breaks at the end, with its numbers given already.
        const broken = i % 5 === 4 ? [eventOf('o/x', { atMs: null as unknown as number })] : [];
        const done = (stores[w % 4] ?? stores[0]).commit({ events: [...events, ...broken] });
        if (broken.length > 0) await expect(done).rejects.toThrow();
        else written.push(...(await done.then(() => ids)));
      }
    };
    const watching = reader();
    await Promise.all(Array.from({ length: 12 }, (_, w) => writer(w)));
    writing = false;
    await watching;
    expect(read.map((e) => e.position)).toEqual(Array.from({ length: written.length }, (_, i) => i + 1));
    expect(read.map((e) => e.subject).sort()).toEqual(written.sort());
  });

  it('batches over the same rows in any order all go through, and every write is counted', async () => {
    const stores = await several(4, 4);
    const names = ['A 1,1', 'A 2,2', 'A 3,3', 'A 4,4'];
    const shuffled = (seed: number) =>
      names.toSorted((a, b) => ((a.charCodeAt(2) * seed) % 7) - ((b.charCodeAt(2) * seed) % 7));
    const batch = (i: number) => ({
      documents: [...BASIS, documentOf(`document ${i % 3}`)],
      cells: shuffled(i).map((name) => cellOf(name)),
      places: shuffled(i + 3).map((name) => placeOf(name)),
      alertsRead: [{ places: shuffled(i + 1), fetchedAtMs: i }],
      plans: shuffled(i + 2).map((name) => planOf(name, i)),
    });
    await Promise.all(
      Array.from({ length: 60 }, (_, i) => (stores[i % 4] ?? stores[0]).commit(batch(i + 1))),
    );
    const { cells, places } = await stores[0].marks();
    expect([...cells.values()]).toEqual([60, 60, 60, 60]);
    expect([...places.values()].map((p) => p.version)).toEqual([60, 60, 60, 60]);
    expect((await stores[0].plans.newest()).map((p) => p.madeAtMs)).toEqual([60, 60, 60, 60]);
  });

  it('programs that start at once on an empty database all come up', async () => {
    const where = await address();
    const stores = await Promise.all(Array.from({ length: 6 }, () => open(where)));
    await Promise.all(stores.map((store, i) => store.commit({ cells: [cellOf(`A ${i},${i}`)] })));
    expect(await stores[0]?.forecasts.cells()).toHaveLength(6);
  });
});
