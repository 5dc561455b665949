// When the store is asked whether it has room.

import { beforeEach, expect, it } from 'vitest';
import { createStoreProbe } from '#service/store-probe.ts';
import type { StoreHealth } from '#store/store-health.ts';

const FULL: StoreHealth = { ok: false, cause: 'disk-full', message: 'full', sinceMs: 0, forMs: 0 };

let health: StoreHealth = { ok: true };
let steadyMs = 0;
let probes = 0;
let said: string[] = [];
let probe: () => Promise<void> = () => Promise.resolve();
beforeEach(() => {
  health = { ok: true };
  steadyMs = 0;
  probes = 0;
  said = [];
  probe = () => Promise.resolve();
});

const made = (takesTurns: boolean) =>
  createStoreProbe({
    store: {
      health: () => health,
      care: {
        probe: () => {
          probes += 1;
          return probe();
        },
      },
    },
    takesTurns,
    nowMs: () => 0,
    steadyMs: () => steadyMs,
    log: { info: (_, text) => void said.push(text), warn: (_, text) => void said.push(text) },
  });

it('a store that seems well is left alone by a process whose turns would show otherwise', async () => {
  const ask = made(true);
  for (let i = 0; i < 100; i += 1) {
    steadyMs += 2000;
    await ask();
  }
  expect(probes).toBe(0);
});

it('a process that takes no turns asks once a minute', async () => {
  const ask = made(false);
  for (let i = 0; i < 90; i += 1) {
    steadyMs += 2000;
    await ask();
  }
  expect(probes).toBe(3);
});

it('a store with a fault is asked every time, until it is well; both ends are in the log once', async () => {
  const ask = made(true);
  health = FULL;
  probe = () => Promise.reject(new Error('full'));
  for (let i = 0; i < 5; i += 1) await ask();
  expect(probes).toBe(5);
  probe = async () => {
    health = { ok: true };
  };
  await ask();
  await ask();
  expect(probes).toBe(6);
  expect(said).toEqual(['the store has a fault', 'the store works again']);
});
