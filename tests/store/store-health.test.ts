// What a success says about a fault: nothing, but where it is of the same kind, or a probe that nothing has refuted.

import { beforeEach, describe, expect, it } from 'vitest';
import { createHealthRecord, type HealthRecord } from '#store/store-health.ts';

const NOON_MS = Date.UTC(2026, 2, 2, 12);

let clock = { nowMs: NOON_MS, steadyMs: 1000 };
let health: HealthRecord;
beforeEach(() => {
  clock = { nowMs: NOON_MS, steadyMs: 1000 };
  health = createHealthRecord({ nowMs: () => clock.nowMs, steadyMs: () => clock.steadyMs });
});

function pass(ms: number): void {
  clock.nowMs += ms;
  clock.steadyMs += ms;
}

describe('a fault of the store', () => {
  it('is over with a success of its own kind, and of no other', () => {
    health.failed('documents', 'disk-full', 'no room');
    for (const kind of ['deliveries', 'claims', 'states', 'paces', 'plans', 'reading'] as const)
      health.succeeded(kind);
    expect(health.now()).toMatchObject({ ok: false, cause: 'disk-full' });
    health.succeeded('documents');
    expect(health.now()).toEqual({ ok: true });
  });

  it('of writing is over with a probe, one of reading is not', () => {
    health.failed('keys', 'read-only', 'no');
    health.failed('reading', 'damaged', 'rotten');
    health.proved();
    expect(health.now()).toMatchObject({ ok: false, cause: 'damaged' });
    health.succeeded('reading');
    expect(health.now()).toEqual({ ok: true });
  });

  it('that comes back after a probe was never over: from then on a probe shows nothing', () => {
    health.failed('documents', 'disk-full', 'no room');
    pass(5000);
    health.proved();
    expect(health.now()).toEqual({ ok: true });
    pass(55_000);
    health.failed('documents', 'disk-full', 'no room');
    expect(health.now()).toMatchObject({ ok: false, sinceMs: NOON_MS, forMs: 60_000 });
    health.proved();
    expect(health.now()).toMatchObject({ ok: false, sinceMs: NOON_MS });
    health.succeeded('documents');
    expect(health.now()).toEqual({ ok: true });
    health.failed('documents', 'disk-full', 'no room');
    health.proved();
    expect(health.now()).toEqual({ ok: true });
  });

  it('that a probe did not end is over after ten minutes without another, and a probe', () => {
    health.failed('keys', 'locked', 'held');
    health.proved();
    pass(1000);
    health.failed('keys', 'locked', 'held');
    pass(600_000);
    health.proved();
    expect(health.now()).toMatchObject({ ok: false, sinceMs: NOON_MS });
    pass(1);
    expect(health.now()).toMatchObject({ ok: false });
    health.proved();
    expect(health.now()).toEqual({ ok: true });
  });

  it('that has stood longest is the one that is told, with how long by a clock that nobody sets', () => {
    health.failed('probe', 'locked', 'held');
    pass(1000);
    health.failed('plans', 'disk-full', 'no room');
    clock.nowMs -= 3_600_000;
    clock.steadyMs += 4000;
    expect(health.now()).toEqual({
      ok: false,
      cause: 'locked',
      message: 'held',
      sinceMs: NOON_MS,
      forMs: 5000,
    });
    health.proved();
    expect(health.now()).toEqual({ ok: true });
  });
});
