// One turn from claim to commit, by a process that may be handed the same work twice.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createTurnTaker, type TakerOptions } from '#jobs/take-turn.ts';
import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { ageClaims } from '../store/age-claims.ts';
import { turnOf } from './fake-taker.ts';

const NOW_MS = Date.parse('2026-03-02T12:00:00Z');
const SIGNAL = new AbortController().signal;

let store: Store;
let folder: string | null = null;
beforeEach(async () => {
  store = await openStore({ sqliteFile: ':memory:' }, { nowMs: () => NOW_MS });
});
afterEach(async () => {
  await store.close();
  if (folder) rmSync(folder, { recursive: true });
  folder = null;
});

function taker(worker: string, more: Partial<TakerOptions> = {}) {
  const told: string[] = [];
  const options = {
    store,
    mirror: {
      sync: async () => void told.push('synced'),
      places: () => [],
      place: () => null,
      sitesIn: (cell: string) => [`site in ${cell}`],
    },
    source: { locate: () => Promise.reject(new Error('no answer')) },
    worker,
    nowMs: () => NOW_MS,
    log: { info: () => undefined, warn: () => undefined },
    tally: { located: () => undefined },
    planAll: async () => void told.push('planned'),
    planSome: async (keys: readonly string[]) => void told.push(`planned ${keys.join()}`),
    located: () => void told.push('located'),
    deadAfterMs: 30_000,
    every: () => () => undefined,
    ...more,
  } as unknown as TakerOptions;
  return { ...createTurnTaker(options), told };
}

/** A store whose claims can be made older. */
async function onFile(): Promise<{ sqliteFile: string }> {
  folder = mkdtempSync(join(tmpdir(), 'pitward-turns-'));
  const where = { sqliteFile: join(folder, 'pitward.db') };
  await store.close();
  store = await openStore(where, { nowMs: () => NOW_MS });
  return where;
}

const nothing = (): Promise<void> => Promise.resolve();

/** A heartbeat that lasts until it is let go. */
function slow() {
  const gate = Promise.withResolvers<void>();
  let begun = 0;
  const heartbeat = () => {
    begun += 1;
    return gate.promise;
  };
  return {
    gate,
    begun: () => begun,
    others: { heartbeat, expire: nothing, watch: nothing, observe: nothing },
  };
}

/** A heartbeat that asks until it is called off. */
function asking() {
  const asked = Promise.withResolvers<void>();
  let signal: AbortSignal | null = null;
  const heartbeat = (given: AbortSignal): Promise<void> => {
    signal = given;
    asked.resolve();
    return new Promise((_, reject) => {
      given.addEventListener('abort', () => reject(given.reason));
    });
  };
  return {
    asked: asked.promise,
    isCalledOff: () => signal?.aborted ?? false,
    others: { heartbeat, expire: nothing, watch: nothing, observe: nothing },
  };
}

/** Comes again when the test says so. */
function byHand() {
  let call: () => void = () => undefined;
  const every = (_ms: number, given: () => void) => {
    call = given;
    return () => undefined;
  };
  return { every, call: () => call() };
}

describe('a turn', () => {
  it('is done once: whoever comes later finds it done', async () => {
    const first = slow();
    first.gate.resolve();
    expect(await taker('a', { others: first.others }).take(turnOf('heartbeat'), SIGNAL)).toBe('done');
    const second = slow();
    expect(await taker('b', { others: second.others }).take(turnOf('heartbeat'), SIGNAL)).toBe('done');
    expect([first.begun(), second.begun()]).toEqual([1, 0]);
  });

  it('handed twice to the process that is at it is not begun twice, whatever its cycle', async () => {
    const work = slow();
    const own = taker('a', { others: work.others });
    const running = own.take(turnOf('heartbeat', '', 60), SIGNAL);
    expect(await own.take(turnOf('heartbeat', '', 60), SIGNAL)).toBe('taken');
    expect(await own.take(turnOf('heartbeat', '', 120), SIGNAL)).toBe('taken');
    work.gate.resolve();
    expect(await running).toBe('done');
    expect(await own.take(turnOf('heartbeat', '', 120), SIGNAL)).toBe('done');
    expect(work.begun()).toBe(2);
  });

  it('waits for an earlier one of the same work in another process', async () => {
    const work = slow();
    const running = taker('a', { others: work.others }).take(turnOf('heartbeat', '', 60), SIGNAL);
    const other = slow();
    other.gate.resolve();
    const later = taker('b', { others: other.others });
    // The first has its claim once it is at work.
    while (work.begun() === 0) await new Promise((resolve) => setImmediate(resolve));
    expect(await later.take(turnOf('heartbeat', '', 120), SIGNAL)).toBe('taken');
    work.gate.resolve();
    await running;
    expect(await later.take(turnOf('heartbeat', '', 120), SIGNAL)).toBe('done');
  });

  it('that is under way is not taken over by a process whose clock is 35 s ahead', async () => {
    const work = slow();
    const running = taker('a', { others: work.others }).take(turnOf('heartbeat'), SIGNAL);
    while (work.begun() === 0) await new Promise((resolve) => setImmediate(resolve));
    const other = slow();
    other.gate.resolve();
    const ahead = taker('b', { others: other.others, nowMs: () => NOW_MS + 35_000 });
    expect(await ahead.take(turnOf('heartbeat'), SIGNAL)).toBe('taken');
    expect(other.begun()).toBe(0);
    work.gate.resolve();
    expect(await running).toBe('done');
  });

  it('renews its claim three times in the life of one, and no longer than it lasts', async () => {
    const timers: { ms: number; stopped: boolean; call: () => void }[] = [];
    const every = (ms: number, call: () => void) => {
      const timer = { ms, stopped: false, call };
      timers.push(timer);
      return () => {
        timer.stopped = true;
      };
    };
    const where = await onFile();
    const work = slow();
    const own = taker('a', { others: work.others, every });
    const running = own.take(turnOf('heartbeat'), SIGNAL);
    while (work.begun() === 0) await new Promise((resolve) => setImmediate(resolve));
    expect(timers.map(({ ms, stopped }) => [ms, stopped])).toEqual([[10_000, false]]);
    const claim = { work: 'heartbeat', cycle: 60, worker: 'b', deadAfterMs: 30_000 };
    for (let i = 0; i < 6; i += 1) {
      await ageClaims(where, 10_000);
      timers[0]?.call();
      await new Promise((resolve) => setImmediate(resolve));
      expect(await store.forecasts.claim(claim)).toBe('taken');
    }
    work.gate.resolve();
    await running;
    expect(timers[0]?.stopped).toBe(true);
  });

  it('ends its asking as soon as a renewal finds that another has taken it over', async () => {
    const where = await onFile();
    const timer = byHand();
    const work = asking();
    const running = taker('a', { others: work.others, every: timer.every }).take(turnOf('heartbeat'), SIGNAL);
    const ended = expect(running).rejects.toMatchObject({ code: 'claim_lost' });
    await work.asked;
    await ageClaims(where, 30_000);
    const claim = { work: 'heartbeat', cycle: 60, worker: 'b', deadAfterMs: 30_000 };
    expect(await store.forecasts.claim(claim)).toBe('ours');
    expect(work.isCalledOff()).toBe(false);
    timer.call();
    await ended;
    expect(work.isCalledOff()).toBe(true);
    // What the other has is not let go of.
    expect(await store.forecasts.claim({ ...claim, worker: 'c' })).toBe('taken');
  });

  it('ends its asking when no renewal has reached the store for the life of a claim, and not sooner', async () => {
    const timer = byHand();
    const work = asking();
    let answers: ('ours' | Error)[] = [];
    const forecasts = {
      ...store.forecasts,
      claim: (claim: Parameters<Store['forecasts']['claim']>[0]) => {
        const answer = answers.shift() ?? 'ours';
        return answer instanceof Error ? Promise.reject(answer) : store.forecasts.claim(claim);
      },
    };
    const own = taker('a', { store: { ...store, forecasts }, others: work.others, every: timer.every });
    const running = own.take(turnOf('heartbeat'), SIGNAL);
    const ended = expect(running).rejects.toMatchObject({ code: 'claim_lost' });
    await work.asked;
    const gone = new Error('no store');
    const renew = async (answer: 'ours' | Error): Promise<boolean> => {
      answers = [answer];
      timer.call();
      for (let i = 0; i < 20; i += 1) await new Promise((resolve) => setImmediate(resolve));
      return work.isCalledOff();
    };
    const calledOff = [];
    for (const answer of [gone, gone, 'ours', gone, gone, gone] as const) calledOff.push(await renew(answer));
    expect(calledOff).toEqual([false, false, false, false, false, true]);
    await ended;
  });

  it('about a place tells that something may be due now; one about forecasts plans instead', async () => {
    const own = taker('a');
    expect(await own.take(turnOf('locate', '38.97,-92.33'), SIGNAL)).toBe('done');
    expect(own.told).toEqual(['located']);
    own.told.length = 0;
    expect(await own.take(turnOf('pull', 'LSX 10,20'), SIGNAL)).toBe('done');
    expect(own.told).toEqual(['synced', 'planned site in LSX 10,20']);
    own.told.length = 0;
    expect(await own.take(turnOf('alerts'), SIGNAL)).toBe('done');
    expect(own.told).toEqual(['synced', 'synced', 'planned']);
  });
});
