// Turns against a host that many processes share: a few at once after a rest, then one by one, whoever asks.

import { expect, it } from 'vitest';
import type { StoreAddress } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { onEachStore, onPostgres } from './on-each-store.ts';

const HOST = 'api.example.org';
const PACE = { burst: 3, everyMs: 60_000 };

/** Turns given out in order, in whole intervals from the first that had to wait; the clock runs on between them. */
const inIntervals = (waitsMs: readonly number[]) => waitsMs.map((ms) => Math.ceil(ms / PACE.everyMs));

onEachStore('the pace against a host', ({ open }) => {
  it('gives a burst at once, then one turn after the other', async () => {
    const store = await open();
    const waits: number[] = [];
    for (let i = 0; i < 7; i += 1) waits.push(await store.paces.next(HOST, PACE));
    expect(inIntervals(waits)).toEqual([0, 0, 0, 1, 2, 3, 4]);
  });

  it('is each host’s own', async () => {
    const store = await open();
    for (let i = 0; i < 9; i += 1) await store.paces.next(HOST, PACE);
    expect(await store.paces.next('other.example.org', PACE)).toBe(0);
  });

  it('gives nothing away to a clock that was set back: none waits longer than a queue of its length', async () => {
    const store = await open();
    // As far ahead as a clock that was wrong by eleven days.
    await store.paces.next(HOST, { burst: 1, everyMs: 1e9 });
    const waitMs = await store.paces.next(HOST, PACE);
    expect(waitMs).toBeGreaterThan(60 * PACE.everyMs);
    expect(waitMs).toBeLessThanOrEqual(121 * PACE.everyMs);
  });

  it('has its burst again after a rest', async () => {
    const store = await open();
    const quick = { burst: 3, everyMs: 1 };
    for (let i = 0; i < 3; i += 1) await store.paces.next(HOST, quick);
    // A statement takes longer than these intervals: the rest is over by the time that it is asked.
    const startMs = performance.now();
    while (performance.now() - startMs < 10) await store.marks();
    expect(await store.paces.next(HOST, quick)).toBe(0);
  });

  it('changes no mark, so that nobody reads anything anew for it', async () => {
    const store = await open();
    const before = await store.marks();
    await store.paces.next(HOST, PACE);
    expect(await store.marks()).toEqual(before);
  });
});

onPostgres('the pace of many processes', ({ open, address }) => {
  it('gives each turn to one of them: 60 asked for at once by five are 60 turns', async () => {
    const where: StoreAddress = { ...(await address()), connections: 4 } as StoreAddress;
    const first: Store = await open(where);
    const stores = [first, ...(await Promise.all([1, 2, 3, 4].map(() => open(where))))];
    const waits = await Promise.all(
      Array.from({ length: 60 }, (_, i) => (stores[i % 5] ?? first).paces.next(HOST, PACE)),
    );
    const turns = inIntervals(waits.sort((a, b) => a - b));
    expect(turns).toEqual([0, 0, 0, ...Array.from({ length: 57 }, (_, i) => i + 1)]);
  });
});
