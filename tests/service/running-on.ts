// A running service on a store of its own, with its loops going on, and what it says of itself.

import { expect } from 'vitest';
import { openStore, type StoreAddress, type StoreExtras } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { until } from './processes.ts';
import { type Running, startRunning } from './running.ts';

export interface RunningOn extends Running {
  /** A clock that nobody sets, but the test. */
  readonly steady: { nowMs: number };
  /** What /readyz tells everybody: `200`, or `503` and the code of its reason. */
  ready(): Promise<string>;
  /** The same for a plan. */
  plan(): Promise<string>;
  /** Resolves when /readyz says so. */
  becomes(told: string | RegExp): Promise<void>;
  /** Resolves when the loop that sends has come round so many more times. */
  sends(times: number): Promise<void>;
}

export async function startRunningOn(
  nowText: string,
  address: StoreAddress,
  timeouts: StoreExtras['timeouts'] = {},
): Promise<RunningOn> {
  let sent = 0;
  const steady = { nowMs: 0 };
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
  const running = await startRunning(nowText, undefined, true, {
    steadyMs: () => steady.nowMs,
    openStore: async (nowMs) => counting(await openStore(address, { nowMs, timeouts })),
  });
  running.service.start();
  const get = async (url: string) => {
    const response = await running.service.app.inject({ url });
    return { status: response.statusCode, body: response.json() };
  };
  const ready = async (): Promise<string> => {
    const { status, body } = await get('/readyz');
    expect(body.ready).toBe(status === 200);
    if (status === 200) expect(body.reason).toBeUndefined();
    // Nothing of where the store is.
    else expect(body.reason.sentence).toMatch(/^[a-z][a-z0-9 ]+(?:\(for -?\d+ s\))?$/);
    return [status, body.reason?.code].filter(Boolean).join(' ');
  };
  return {
    ...running,
    steady,
    ready,
    async plan() {
      const { status, body } = await get('/v1/sites/north-block/plan?day=tomorrow');
      return [status, body.code].filter(Boolean).join(' ');
    },
    async becomes(told) {
      const isTold = (said: string) => (typeof told === 'string' ? said === told : told.test(said));
      await until(`"${told}"`, async () => (isTold(await ready()) ? true : null), 20_000);
    },
    async sends(times) {
      const wanted = sent + times;
      await until('the loop that sends', () => (sent >= wanted ? true : null));
    },
  };
}
