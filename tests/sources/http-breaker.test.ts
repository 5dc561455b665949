// A host that fails time and again is left alone, for longer each time, and taken back by the first answer.

import { describe, expect, it } from 'vitest';
import { makeBreaker, type Permit } from '#sources/http-breaker.ts';
import { START_MS } from './http-harness.ts';
import { makeClock } from './loopback.ts';

const SECOND = 1_000;
const MINUTE = 60 * SECOND;
const never = new AbortController().signal;

function breakerAt(startMs = START_MS) {
  const clock = makeClock(startMs);
  const breaker = makeBreaker(clock.nowMs);
  const asked = (address: string, kind = 'gridpoints') => ({ host: 'api.example.org', kind, address });
  const admit = (address = 'a', kind?: string) => breaker.admit(asked(address, kind), never);
  const told = async (address: string, tell: (permit: Permit) => void, kind?: string) => {
    const permit = await admit(address, kind);
    tell(permit);
    permit.end();
  };
  const silent = (address = 'a', kind?: string) => told(address, (permit) => permit.failed(true), kind);
  const error = (address = 'a', kind?: string) => told(address, (permit) => permit.failed(false), kind);
  const answer = (address = 'a', kind?: string) => told(address, (permit) => permit.answered(), kind);
  const goes = async (address = 'a', kind?: string) => {
    const fault = await admit(address, kind).then(
      (permit) => permit.end(),
      (thrown: unknown) => thrown,
    );
    return fault === undefined;
  };
  const isOpen = () => breaker.states().some(({ leftAloneSinceMs }) => leftAloneSinceMs !== null);
  const times = async (count: number, act: () => Promise<unknown>) => {
    for (let i = 0; i < count; i += 1) await act();
  };
  return { clock, breaker, admit, silent, error, answer, goes, isOpen, times };
}

describe('a host that does not answer', () => {
  it('is left alone after five requests in a row, for half a minute', async () => {
    const { clock, silent, goes, times } = breakerAt();
    await times(4, silent);
    expect(await goes()).toBe(true);
    await silent();
    expect([await goes(), await goes('b')]).toEqual([false, false]);
    clock.advance(30 * SECOND - 1);
    expect(await goes()).toBe(false);
    clock.advance(1);
    expect(await goes()).toBe(true);
  });

  it('is refused in words that say since when and until when', async () => {
    const { clock, silent, admit } = breakerAt();
    for (let i = 0; i < 5; i += 1) {
      await silent();
      clock.advance(SECOND);
    }
    await expect(admit()).rejects.toMatchObject({
      code: 'source_unreachable',
      retryable: true,
      message:
        'api.example.org has failed since 2026-03-02T18:20:00.000Z and is left alone until 2026-03-02T18:20:34.000Z',
      facts: { sinceMs: START_MS, againAtMs: START_MS + 34 * SECOND },
    });
  });

  it('is asked by one request at a time after it, for twice as long each time, ten minutes at most', async () => {
    const { clock, breaker, silent, times } = breakerAt();
    const asked = { host: 'api.example.org', kind: 'gridpoints', address: 'a' };
    const isRefused = () => breaker.refusedUntilMs(asked, clock.nowMs()) !== null;
    await times(5, silent);
    const waits: number[] = [];
    for (let round = 0; round < 8; round += 1) {
      const fromMs = clock.nowMs();
      while (isRefused()) clock.advance(SECOND);
      waits.push((clock.nowMs() - fromMs) / SECOND);
      await silent();
    }
    expect(waits).toEqual([30, 60, 120, 240, 480, 600, 600, 600]);
  });

  it('is taken back by the first answer, and needs five failures anew', async () => {
    const { clock, silent, answer, goes, isOpen, times } = breakerAt();
    await times(5, silent);
    clock.advance(30 * SECOND);
    expect(isOpen()).toBe(true);
    await answer();
    expect(isOpen()).toBe(false);
    await times(4, silent);
    expect(await goes()).toBe(true);
  });

  it('failing now and then, with answers between, is never left alone', async () => {
    const { silent, answer, goes, times } = breakerAt();
    for (let i = 0; i < 20; i += 1) {
      await times(4, silent);
      await answer();
    }
    expect(await goes()).toBe(true);
  });

  it('is not left alone for ever by a clock that was set back', async () => {
    const { clock, silent, goes, times } = breakerAt();
    await times(5, silent);
    clock.advance(-60 * MINUTE);
    expect(await goes()).toBe(true);
  });
});

describe('the one request that tries a host again', () => {
  async function halfOpen() {
    const found = breakerAt();
    await found.times(5, found.silent);
    found.clock.advance(30 * SECOND);
    return found;
  }

  it('keeps the others waiting, which all go where it is answered', async () => {
    const { admit, isOpen } = await halfOpen();
    const trial = await admit('a');
    const gone: string[] = [];
    const others = ['b', 'c', 'd'].map(async (address) => {
      await admit(address);
      gone.push(address);
    });
    await new Promise((resolve) => setImmediate(resolve));
    expect(gone).toEqual([]);
    trial.answered();
    await Promise.all(others);
    expect(isOpen()).toBe(false);
  });

  it('keeps the others waiting, none of which goes where it gets no answer', async () => {
    const { admit } = await halfOpen();
    const trial = await admit('a');
    const others = ['b', 'c', 'd'].map((address) => admit(address));
    trial.failed(true);
    for (const other of await Promise.allSettled(others)) expect(other.status).toBe('rejected');
  });

  it('is followed by another where it was called off', async () => {
    const { admit } = await halfOpen();
    const trial = await admit('a');
    const next = admit('b');
    trial.end();
    await expect(next).resolves.toBeDefined();
  });

  it('does not keep one who gives up', async () => {
    const { admit, breaker } = await halfOpen();
    await admit('a');
    const caller = new AbortController();
    const other = breaker.admit({ host: 'api.example.org', kind: 'gridpoints', address: 'b' }, caller.signal);
    caller.abort(new Error('enough'));
    await expect(other).rejects.toThrow('enough');
  });
});

describe('one address that is answered with an error', () => {
  it('alone never closes a host, however often (api#160: one cell failed for days)', async () => {
    const { error, goes, times } = breakerAt();
    await times(50, () => error('a'));
    expect([await goes('a'), await goes('b')]).toEqual([true, true]);
  });

  it('and another with it do', async () => {
    const { error, goes, times } = breakerAt();
    await times(4, () => error('a'));
    await error('b');
    expect(await goes('c')).toBe(false);
  });

  it('in a trial leaves the word to another address, at once and once', async () => {
    const { clock, error, answer, goes, isOpen, times } = breakerAt();
    const bothFail = async () => {
      await times(4, () => error('a'));
      await error('b');
      clock.advance(30 * SECOND);
    };
    await bothFail();
    await error('a');
    expect([await goes('a'), await goes('b')]).toEqual([false, true]);
    await error('b');
    expect([await goes('a'), await goes('b'), await goes('c')]).toEqual([false, false, false]);
    clock.advance(MINUTE);
    await error('a');
    await answer('c');
    expect(isOpen()).toBe(false);
  });
});

describe('each kind of resource and each host', () => {
  it('is judged for itself: grids that fail leave alerts as they are', async () => {
    const { error, goes, breaker } = breakerAt();
    for (let i = 0; i < 5; i += 1) await error(`grid ${i}`);
    expect([await goes('x', 'gridpoints'), await goes('x', 'alerts')]).toEqual([false, true]);
    const other = { host: 'other.example.org', kind: 'gridpoints', address: 'x' };
    expect(breaker.refusedUntilMs(other, START_MS)).toBeNull();
    expect(breaker.states()).toEqual([
      { host: 'api.example.org', kind: 'gridpoints', leftAloneSinceMs: START_MS },
      { host: 'api.example.org', kind: 'alerts', leftAloneSinceMs: null },
      { host: 'other.example.org', kind: 'gridpoints', leftAloneSinceMs: null },
    ]);
  });
});
