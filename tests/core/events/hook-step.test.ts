// What a try makes of a subscription: on, again later, left out, or no more.

import { describe, expect, it } from 'vitest';
import {
  afterTry,
  FACT_LIFE_MS,
  FAILING_FOR_MS,
  FAILURES_TO_END,
  fresh,
  type HookStanding,
  leaveOutDead,
  MOST_REFUSALS,
  type TryOutcome,
  WAITS_MS,
  waitMs,
  withDropped,
} from '#core/events/hook-step.ts';
import { isWithin } from '#core/events/subscription.ts';

const T = 1_775_000_000_000;
const fact = (position: number) => ({ position, validUntilMs: null });
const until = (position: number, validUntilMs: number) => ({ position, validUntilMs });
const tried = (outcome: TryOutcome, afterMs: number | null = null) => ({ outcome, afterMs });

describe('a try', () => {
  it('that was taken goes on, at once, and forgets every failure', () => {
    const failed = afterTry(fresh(4), fact(5), tried('failed'), T, 0);
    expect(afterTry(failed, fact(5), tried('taken'), T + 9000, 0)).toEqual(fresh(5));
  });

  it('that failed waits longer each time, at least half of what it may, never less than asked', () => {
    let standing: HookStanding = fresh(0);
    const waits: number[] = [];
    for (let i = 0; i < WAITS_MS.length + 2; i += 1) {
      standing = afterTry(standing, fact(1), tried('failed'), T, 0.999_999);
      waits.push(standing.nextAtMs - T);
    }
    expect(waits.slice(0, 3)).toEqual([5000, 15_000, 30_000]);
    expect(waits.slice(-3)).toEqual([900_000, 900_000, 900_000]);
    expect(waitMs(1, 0)).toBe(2500);
    expect(standing.position).toBe(0);
    expect(afterTry(fresh(0), fact(1), tried('failed', 60_000), T, 0).nextAtMs).toBe(T + 60_000);
  });

  it('that is refused is left out after a few, counted, and what comes next does not wait', () => {
    let standing = afterTry(fresh(0), fact(1), tried('failed'), T, 0);
    for (let i = 1; i < MOST_REFUSALS; i += 1) {
      standing = afterTry(standing, fact(1), tried('refused'), T, 0);
      expect([standing.position, standing.missed]).toEqual([0, null]);
    }
    standing = afterTry(standing, fact(1), tried('refused'), T, 0);
    expect(standing).toMatchObject({ position: 1, missed: { from: 1, to: 1, count: 1 }, nextAtMs: T });
    expect(standing.refusals).toBe(0);
  });

  it('answered with 410 ends it at once, whatever came before', () => {
    const ended = afterTry(fresh(3), fact(4), tried('gone'), T, 0);
    expect([ended.ended, ended.position]).toEqual([{ why: 'gone', atMs: T }, 3]);
  });

  it('ends it only after long enough and often enough, and keeps where it stood', () => {
    const often = { ...fresh(3), failures: FAILURES_TO_END - 1, failingSinceMs: T - FAILING_FOR_MS + 1 };
    expect(afterTry(often, fact(4), tried('failed'), T, 0).ended).toBeNull();
    const leapt = { ...fresh(3), failures: 2, failingSinceMs: T - FAILING_FOR_MS };
    expect(afterTry(leapt, fact(4), tried('failed'), T, 0).ended).toBeNull();
    const both = { ...often, failingSinceMs: T - FAILING_FOR_MS };
    expect(afterTry(both, fact(4), tried('failed'), T, 0)).toMatchObject({
      ended: { why: 'failing', atMs: T },
      position: 3,
    });
  });

  it('of word of what was missed clears it when taken, and when it is refused as often', () => {
    const missed = { from: 2, to: 5, count: 3 };
    const standing = { ...fresh(5), missed };
    expect(afterTry(standing, 'missed', tried('taken'), T, 0)).toEqual(fresh(5));
    let refused: HookStanding = standing;
    for (let i = 0; i < MOST_REFUSALS; i += 1) refused = afterTry(refused, 'missed', tried('refused'), T, 0);
    expect([refused.missed, refused.position]).toEqual([null, 5]);
    expect(afterTry(standing, 'missed', tried('failed'), T, 0).missed).toEqual(missed);
  });
});

describe('what nobody is to go by any more', () => {
  const failing = afterTry(fresh(0), until(1, T + 1000), tried('failed'), T, 0);

  it('is left out while the receiver cannot be reached, in its order and not beyond what still counts', () => {
    const next = [until(1, T + 1000), until(2, T + 1000), until(3, T + 1001), until(4, T)];
    expect(leaveOutDead(failing, next, T + 999)).toEqual(failing);
    expect(leaveOutDead(failing, next, T + 1000)).toMatchObject({
      position: 2,
      missed: { from: 1, to: 2, count: 2 },
    });
  });

  it('is sent all the same where the receiver takes what it gets', () => {
    expect(leaveOutDead(fresh(0), [until(1, T - 1)], T)).toEqual(fresh(0));
  });

  it('of a fact is a day after it was first tried; one that was never tried waits', () => {
    const first = afterTry(fresh(0), fact(1), tried('failed'), T, 0);
    const next = [fact(1), fact(2)];
    expect(leaveOutDead(first, next, T + FACT_LIFE_MS - 1).position).toBe(0);
    expect(leaveOutDead(first, next, T + FACT_LIFE_MS)).toMatchObject({
      position: 1,
      missed: { from: 1, to: 1, count: 1 },
    });
  });

  it('and was dropped from the log is told of, with what was missed before', () => {
    expect(withDropped(fresh(4), 9)).toMatchObject({ position: 9, missed: { from: 5, to: 9, count: 0 } });
    const before = { ...fresh(4), missed: { from: 2, to: 4, count: 2 } };
    expect(withDropped(before, 9)).toMatchObject({ position: 9, missed: { from: 2, to: 9, count: 2 } });
  });
});

describe('an area', () => {
  it('is a circle on the sphere: one degree of latitude is 111.195 km (mean radius 6371.0088 km, IUGG 1980)', () => {
    const circle = (radiusKm: number) => ({ circle: { lat: 36, lon: -120, radiusKm } });
    expect(isWithin(circle(111.2), [37, -120])).toBe(true);
    expect(isWithin(circle(111.19), [37, -120])).toBe(false);
    // A US longitude that lost its sign is on the other side of the world.
    expect(isWithin(circle(111.2), [37, 120])).toBe(false);
  });

  it('is a box with its edges, over the antimeridian too (RFC 7946, 5.2)', () => {
    const box = { box: { south: 36, west: -121, north: 37, east: -120 } };
    expect([36, 36.5, 37].map((lat) => isWithin(box, [lat, -120]))).toEqual([true, true, true]);
    expect([35.999, 37.001].map((lat) => isWithin(box, [lat, -120.5]))).toEqual([false, false]);
    expect(isWithin(box, [36.5, -119.999])).toBe(false);
    const over = { box: { south: -20, west: 177, north: -16, east: -178 } };
    expect([178, -179, 176, -177, 0].map((lon) => isWithin(over, [-17, lon]))).toEqual([
      true,
      true,
      false,
      false,
      false,
    ]);
  });
});
