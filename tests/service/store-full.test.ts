// A running service whose store's disk is full, with its loops going on: it says no, gives no answer that it can no longer
// stand for, and is well again by itself.

import { afterEach, describe, expect, it } from 'vitest';
import { MINUTE_MS } from '#core/units/time.ts';
import { FULL_DISKS } from '../store/full-disk.ts';
import type { Running } from './running.ts';
import { startRunningOn } from './running-on.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

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
    const disk = await make();
    closing.push(disk.remove);
    const running = await startRunningOn('2026-03-03T01:10:00Z', disk.address);
    closing.push(running.close);
    const { clock, ready, plan, sends, becomes } = running;
    expect([await ready(), await plan()]).toEqual(['200', '200']);
    await disk.fill();
    await pullUntilFault(running);
    await sends(2);
    expect([await ready(), await plan()]).toEqual(['503 store-disk-full', '200']);
    clock.nowMs += 5 * MINUTE_MS + 1000;
    await sends(2);
    expect([await ready(), await plan()]).toEqual(['503 store-disk-full', '503 store_unavailable']);
    await disk.free();
    await becomes('200');
    expect(await plan()).toBe('200');
    await running.service.keeper.pullAll();
    expect(running.store.health()).toEqual({ ok: true });
  }, 120_000);
});
