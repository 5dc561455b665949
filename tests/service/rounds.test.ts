// Whole rounds of the running service, by the clock: caught up once after sleep, right again after a clock that was wrong,
// and a watchdog that hears of whole rounds only.

import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, expect, it } from 'vitest';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { type Running, startRunning } from './running.ts';

const NOW = '2026-03-03T01:10:00Z';
const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

async function run(change?: (yaml: string) => string, pull = true): Promise<Running> {
  const running = await startRunning(NOW, change, pull);
  closing.push(running.close);
  return running;
}

/** One minute of the clock, with all that it hands over. */
async function minute({ service }: Running): Promise<void> {
  await service.keeper.minute();
  await service.keeper.idle();
}

/** How often each cell was pulled, and when last. */
const pulls = async ({ store }: Running) =>
  (await store.forecasts.cells()).map(({ version, triedAtMs, failures }) => ({
    version,
    triedAtMs,
    failures,
  }));

it('after eight hours of sleep every cell is pulled once, not once for each period that was missed', async () => {
  const running = await run();
  await minute(running);
  const before = await pulls(running);
  running.clock.nowMs += 8 * HOUR_MS;
  await minute(running);
  const after = await pulls(running);
  expect(after.map(({ version }) => version)).toEqual(before.map(({ version }) => version + 1));
  expect(after.every(({ triedAtMs }) => triedAtMs === running.clock.nowMs)).toBe(true);
  await minute(running);
  expect(await pulls(running)).toEqual(after);
});

it('after hours under a clock that ran ahead, every cell is pulled in each period all the same', async () => {
  const running = await run();
  const { clock, store } = running;
  clock.nowMs += 5 * HOUR_MS;
  for (let period = 0; period < 6; period += 1) {
    await minute(running);
    clock.nowMs += 20 * MINUTE_MS;
  }
  clock.nowMs -= 7 * HOUR_MS;
  await store.forecasts.forgetAhead(clock.nowMs);
  // Through the very periods that were done before their time.
  for (let period = 0; period < 24; period += 1) {
    await minute(running);
    for (const { triedAtMs } of await pulls(running)) {
      expect(clock.nowMs - triedAtMs).toBeLessThan(20 * MINUTE_MS);
      expect(triedAtMs).toBeLessThanOrEqual(clock.nowMs);
    }
    clock.nowMs += 20 * MINUTE_MS;
  }
});

it('a watchdog is called after a whole round, once in its period, and never for one that was not', async () => {
  let calls = 0;
  const watchdog = createServer((_, response) => {
    calls += 1;
    response.end();
  });
  await new Promise<void>((resolve) => {
    watchdog.listen(0, '127.0.0.1', resolve);
  });
  closing.push(() => watchdog.close());
  const url = `http://127.0.0.1:${(watchdog.address() as AddressInfo).port}/round`;
  const running = await run((yaml) => `${yaml}\nheartbeat: { url: "${url}", everyMin: 5 }\n`, false);
  const { clock, service } = running;
  await minute(running);
  // Nothing had been pulled when it was due.
  expect(calls).toBe(0);
  await service.keeper.pullAll();
  for (let m = 0; m < 10; m += 1) {
    clock.nowMs += MINUTE_MS;
    await minute(running);
  }
  expect(calls).toBe(2);
  await running.standIn.close();
  for (let m = 0; m < 30; m += 1) {
    clock.nowMs += MINUTE_MS;
    await minute(running);
  }
  const atEnd = calls;
  // As long as all that is held is in time, and no longer.
  expect(atEnd).toBeLessThanOrEqual(2 + 3);
  for (let m = 0; m < 20; m += 1) {
    clock.nowMs += MINUTE_MS;
    await minute(running);
  }
  expect(calls).toBe(atEnd);
});
