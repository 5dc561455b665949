// A disk that is full: what still succeeds on it never makes it well.

import { createHash } from 'node:crypto';
import { afterEach, describe, expect, it } from 'vitest';
import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { cellOf, documentOf } from '../builders/store.ts';
import { FULL_DISKS, type FullDisk } from './full-disk.ts';

const NOON_MS = Date.UTC(2026, 2, 2, 12);
const FULL = { code: 'store_unavailable', facts: { cause: 'disk-full' } };
const TIMES = { sendTimeoutMs: 20_000, leaseMs: 25_000, sendWithinMs: 60_000 };
const PACE = { burst: 1, everyMs: 1 };

/** As large as a forecast, and as hard to compress. */
function largeDocument(seed: number) {
  const blocks = Array.from({ length: 4000 }, (_, i) =>
    createHash('sha256').update(`${seed} ${i}`).digest('base64'),
  );
  return documentOf(blocks.join(''));
}

const keep = (store: Store, seed: number): Promise<void> =>
  store.commit({ documents: [largeDocument(seed)], cells: [cellOf(`A ${seed},1`)] });

describe.each(FULL_DISKS)('a full disk: %s', (_, make) => {
  let disk: FullDisk;
  let store: Store;
  afterEach(async () => {
    await store.close();
    await disk.remove();
  });

  async function full(): Promise<void> {
    disk = await make();
    store = await openStore(disk.address, { nowMs: () => NOON_MS });
    await keep(store, 0);
    await store.paces.next('somewhere', PACE);
    await disk.fill();
    // Room that is left in what is there already is used up first.
    let refused: unknown = null;
    for (let seed = 1; refused === null && seed < 60; seed += 1)
      refused = await keep(store, seed).then(
        () => null,
        (fault) => fault,
      );
    expect(refused).toMatchObject(FULL);
    expect(store.health()).toMatchObject({ ok: false, cause: 'disk-full', sinceMs: NOON_MS });
  }

  it('stays full for all that writes nothing or in place, and for a probe; with room one probe makes it well', async () => {
    await full();
    expect(await store.watch.claimDeliveries({ worker: 'w', nowMs: NOON_MS, most: 10, ...TIMES })).toEqual(
      [],
    );
    expect(store.health()).toMatchObject({ ok: false, cause: 'disk-full' });
    const attempts = [
      () => store.paces.next('somewhere', PACE),
      () => store.commit({ cells: [cellOf('A 0,1', { failures: 1 })] }),
      () => store.keys.used(new Map([['none', NOON_MS]])),
      () => store.forecasts.release({ work: 'w', cycle: 1, worker: 'w' }),
      () => store.watch.releaseClaims(),
      () => store.forecasts.cells(),
    ];
    for (const attempt of attempts) {
      await attempt().catch((fault: unknown) => expect(fault).toMatchObject(FULL));
      expect(store.health()).toMatchObject({ ok: false, cause: 'disk-full', sinceMs: NOON_MS });
    }
    for (let i = 0; i < 3; i += 1) {
      await expect(store.care.probe(NOON_MS + i)).rejects.toMatchObject(FULL);
      expect(store.health()).toMatchObject({ ok: false, cause: 'disk-full', sinceMs: NOON_MS });
    }
    await disk.free();
    await store.care.probe(NOON_MS + 10);
    expect(store.health()).toEqual({ ok: true });
    await keep(store, 100);
    expect((await store.forecasts.cells(['A 100,1'])).length).toBe(1);
  });
});
