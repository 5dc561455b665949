// How long this process may be behind its store, or may not write to it, before it says no.

import { beforeEach, describe, expect, it } from 'vitest';
import { createStoreWatch, type StoreWatch } from '#service/store-watch.ts';
import type { StoreHealth } from '#store/store-health.ts';

const NOON_MS = Date.UTC(2026, 2, 2, 12);

let syncedAtMs: number | null = 0;
let steadyMs = 0;
let nowMs = NOON_MS;
let health: StoreHealth = { ok: true };
let watch: StoreWatch;
beforeEach(() => {
  syncedAtMs = 1000;
  steadyMs = 1000;
  nowMs = NOON_MS;
  health = { ok: true };
  watch = createStoreWatch({
    mirror: { syncedAtMs: () => syncedAtMs },
    health: () => health,
    steadyMs: () => steadyMs,
    nowMs: () => nowMs,
  });
});

const says = () => ({ ready: watch.whyNotReady() === null, silent: watch.whySilent() !== null });

const failed = (agoMs: number, forMs = agoMs): StoreHealth => ({
  ok: false,
  cause: 'disk-full',
  message: 'the disk of the store is full',
  sinceMs: nowMs - agoMs,
  forMs,
});

describe('a store that cannot be read', () => {
  it('before it was read once there is no answer', () => {
    syncedAtMs = null;
    expect(says()).toEqual({ ready: false, silent: true });
    expect(watch.ageMs()).toBeNull();
  });

  it('after ten seconds other processes are to answer, after a minute this one refuses to', () => {
    steadyMs = 11_000;
    expect(says()).toEqual({ ready: true, silent: false });
    steadyMs += 1;
    expect(says()).toEqual({ ready: false, silent: false });
    steadyMs = 61_000;
    expect(says()).toEqual({ ready: false, silent: false });
    steadyMs += 1;
    expect(says()).toEqual({ ready: false, silent: true });
    syncedAtMs = steadyMs;
    expect(says()).toEqual({ ready: true, silent: false });
  });

  it('is not taken for one that can by a clock that was set', () => {
    steadyMs = 62_000;
    nowMs -= 3_600_000;
    expect(says()).toEqual({ ready: false, silent: true });
  });
});

describe('a store that cannot be written', () => {
  it('others are to answer at once, and after five minutes this one refuses to', () => {
    health = failed(0);
    expect(says()).toEqual({ ready: false, silent: false });
    health = failed(300_000);
    expect(says()).toEqual({ ready: false, silent: false });
    health = failed(300_001);
    expect(says()).toEqual({ ready: false, silent: true });
    health = { ok: true };
    expect(says()).toEqual({ ready: true, silent: false });
  });

  it('neither a clock that was set back nor one that stood in sleep makes the five minutes longer', () => {
    health = failed(-3_600_000, 300_001);
    expect(says()).toEqual({ ready: false, silent: true });
    health = failed(300_001, 0);
    expect(says()).toEqual({ ready: false, silent: true });
  });
});
