// A running service whose store fails, with its loops going on: it says no, gives no answer that it can no longer stand
// for, and is well again by itself.

import { afterEach, describe, expect, it } from 'vitest';
import { MINUTE_MS } from '#core/units/time.ts';
import { openStore, type StoreAddress } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { FULL_DISKS, type FullDisk } from '../store/full-disk.ts';
import { until } from './processes.ts';
import { type Running, startRunning } from './running.ts';

const NOW = '2026-03-03T01:10:00Z';
const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

interface Watched extends Running {
  ready(): Promise<{ readonly status: number }>;
  /** Status and code of a plan. */
  plan(): Promise<readonly [number, string | null]>;
  /** Resolves when the loop that sends has come round so many more times. */
  sends(times: number): Promise<void>;
}

async function run(address: StoreAddress): Promise<Watched> {
  let sent = 0;
  const counting = (store: Store): Store => ({
    ...store,
    watch: {
      ...store.watch,
      claimDeliveries: (claim) => {
        sent += 1;
        return store.watch.claimDeliveries(claim);
      },
    },
  });
  const running = await startRunning(NOW, undefined, true, {
    openStore: async (nowMs) => counting(await openStore(address, { nowMs })),
  });
  closing.push(running.close);
  running.service.start();
  const get = async (url: string) => await running.service.app.inject({ url });
  return {
    ...running,
    ready: async () => ({ status: (await get('/readyz')).statusCode }),
    plan: async () => {
      const answer = await get('/v1/sites/north-block/plan?day=tomorrow');
      return [answer.statusCode, answer.json().code ?? null];
    },
    sends: async (times) => {
      const wanted = sent + times;
      await until('the loop that sends', () => (sent >= wanted ? true : null));
    },
  };
}

/** New forecasts come and cannot be kept. */
async function pullUntilFault({ service, store, clock }: Running): Promise<void> {
  for (let hour = 0; store.health().ok && hour < 5; hour += 1) {
    clock.nowMs += 61 * MINUTE_MS;
    await service.keeper.pullAll();
  }
  expect(store.health()).toMatchObject({ ok: false, cause: 'disk-full' });
}

/** One of each kind of store. */
const DISKS = FULL_DISKS.filter((_, i) => i === 0 || (i > 1 && i === FULL_DISKS.length - 1));

describe.each(DISKS)('a running service on a full disk: %s', (_, make) => {
  it('says no for as long as there is no room, refuses answers after five minutes, and is well again by itself', async () => {
    const disk: FullDisk = await make();
    closing.push(disk.remove);
    const running = await run(disk.address);
    const { clock, ready, plan, sends } = running;
    expect([await ready(), await plan()]).toEqual([{ status: 200 }, [200, null]]);
    await disk.fill();
    await pullUntilFault(running);
    await sends(2);
    expect([await ready(), await plan()]).toEqual([{ status: 503 }, [200, null]]);
    clock.nowMs += 5 * MINUTE_MS + 1000;
    await sends(2);
    expect([await ready(), await plan()]).toEqual([{ status: 503 }, [503, 'store_unavailable']]);
    await disk.free();
    await until('the service to be well', async () => ((await ready()).status === 200 ? true : null));
    expect(await plan()).toEqual([200, null]);
    await running.service.keeper.pullAll();
    expect(running.store.health()).toEqual({ ok: true });
  });
});
