// The clock of all turns: a minute after the other, and after sleep or a jump of the clock what is due once.

import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { createKeeper, type Keeper } from '#jobs/keep-fresh.ts';
import { nameOf } from './fake-taker.ts';

const NOON_MS = Date.parse('2026-03-02T12:00:30Z');
const AT = [38.97, -92.33] as const;
const PERIODS = { everyMin: 20, nearShiftMin: 20, alertsMin: 5, heartbeatMin: null };

let keeper: Keeper;
let sent: { atMs: number; turns: readonly string[] }[] = [];
let place: object | null = null;
let forgotten: number[] = [];
let syncs: () => Promise<void> = () => Promise.resolve();

beforeEach(() => {
  vi.useFakeTimers({ now: NOON_MS });
  sent = [];
  place = null;
  forgotten = [];
  syncs = () => Promise.resolve();
  keeper = createKeeper({
    mirror: {
      sync: () => syncs(),
      book: () => ({ sites: new Map([['own/a', { placeKey: AT.join(), fields: { at: AT, shift: [] } }]]) }),
      place: () => place,
      cell: () => null,
    } as never,
    queue: {
      send: async (turns) => void sent.push({ atMs: Date.now(), turns: turns.map(nameOf) }),
      idle: () => Promise.resolve(),
      waiting: () => 0,
      running: () => 0,
      stop: () => Promise.resolve(),
    },
    periods: PERIODS,
    nowMs: Date.now,
    log: { info: () => undefined, warn: () => undefined },
    forgetAhead: async (nowMs) => void forgotten.push((nowMs - NOON_MS) / MINUTE_MS),
    every: (ms, call) => {
      const timer = setInterval(call, ms);
      return () => clearInterval(timer);
    },
  });
});
afterEach(async () => {
  await keeper.stop();
  vi.useRealTimers();
});

const minutesAsked = () => sent.map(({ atMs }) => (atMs - NOON_MS) / MINUTE_MS);

describe('minutes', () => {
  it('come one after the other, each once', async () => {
    keeper.start();
    await vi.advanceTimersByTimeAsync(5 * MINUTE_MS);
    expect(minutesAsked()).toEqual([0.5, 1.5, 2.5, 3.5, 4.5]);
  });

  it('that were slept through are made up for once, soon after waking', async () => {
    keeper.start();
    await vi.advanceTimersByTimeAsync(MINUTE_MS);
    // Timers do not run in sleep; the clock does.
    vi.setSystemTime(NOON_MS + 8 * HOUR_MS);
    await vi.advanceTimersByTimeAsync(20_000);
    expect(minutesAsked().filter((m) => m > 1)).toHaveLength(1);
    const plans = sent.at(-1)?.turns.filter((turn) => turn.startsWith('plan'));
    expect(plans).toEqual([`plan @${(NOON_MS + 8 * HOUR_MS - 30_000) / 1000}`]);
    await vi.advanceTimersByTimeAsync(MINUTE_MS);
    expect(minutesAsked().filter((m) => m > 1)).toHaveLength(2);
  });

  it('go on when the clock is set back, and do not wait until it has caught up', async () => {
    keeper.start();
    await vi.advanceTimersByTimeAsync(MINUTE_MS);
    vi.setSystemTime(NOON_MS - 5 * HOUR_MS);
    await vi.advanceTimersByTimeAsync(10 * MINUTE_MS);
    expect(sent.length).toBeGreaterThanOrEqual(11);
    expect(sent.length).toBeLessThanOrEqual(12);
    // And what was done before its time is to be done again: at the start, and when the clock was found set back.
    expect(forgotten).toEqual([0, -299.75]);
  });

  it('that come late on a busy machine are not left out', async () => {
    keeper.start();
    await vi.advanceTimersByTimeAsync(29_000);
    // Nothing ran for half a minute.
    vi.setSystemTime(NOON_MS + 58_000);
    await vi.advanceTimersByTimeAsync(2_000);
    expect(sent).toHaveLength(1);
  });

  it('never overlap: what takes longer than a minute is waited for', async () => {
    let under = 0;
    let most = 0;
    syncs = async () => {
      under += 1;
      most = Math.max(most, under);
      await new Promise((resolve) => setTimeout(resolve, 2.5 * MINUTE_MS));
      under -= 1;
    };
    keeper.start();
    await vi.advanceTimersByTimeAsync(30 * MINUTE_MS);
    expect(most).toBe(1);
    expect(sent.length).toBeGreaterThanOrEqual(8);
  });

  it('end with the keeper', async () => {
    keeper.start();
    await vi.advanceTimersByTimeAsync(MINUTE_MS);
    await keeper.stop();
    await keeper.minute();
    await vi.advanceTimersByTimeAsync(HOUR_MS);
    expect(sent).toHaveLength(1);
  });
});

describe('what has become known', () => {
  it('is worked out at once, not at the next minute', async () => {
    place = {
      cell: 'LSX 10,20',
      timeZone: 'America/Chicago',
      locatedAtMs: NOON_MS,
      fault: null,
      alerts: 'a',
    };
    keeper.nudge();
    await vi.advanceTimersByTimeAsync(0);
    expect(sent[0]?.turns.some((turn) => turn.startsWith('pull LSX 10,20'))).toBe(true);
  });

  it('waits while everything is brought to its newest anyway', async () => {
    place = { cell: 'LSX 10,20', timeZone: 'America/Chicago', locatedAtMs: null, fault: null, alerts: 'a' };
    const all = keeper.pullAll();
    keeper.nudge();
    await all;
    const kinds = sent.flatMap(({ turns }) => turns.map((turn) => turn.split(' ')[0]));
    expect(kinds).toEqual(['locate', 'pull', 'alerts', 'plan']);
  });
});
