import { describe, expect, it } from 'vitest';
import { makePacer, makeSharedPacer } from '#sources/http-pace.ts';
import { createNwsSource } from '#sources/nws/client.ts';
import { client, serving } from './http-harness.ts';
import { makeClock, makeLog, reply } from './loopback.ts';

const HOST = 'api.example.org';
const never = new AbortController().signal;
const PACE = { burst: 3, everyMs: 1_000 };

/** A clock on which sleepers wake in order when it is moved; nobody waits in truth. */
function sleepers() {
  let now = 0;
  const asleep: { atMs: number; wake: () => void }[] = [];
  return {
    nowMs: () => now,
    sleep: (ms: number) => new Promise<void>((wake) => asleep.push({ atMs: now + ms, wake })),
    async advance(ms: number) {
      now += ms;
      for (const s of asleep.filter(({ atMs }) => atMs <= now)) {
        asleep.splice(asleep.indexOf(s), 1);
        s.wake();
      }
      await new Promise((resolve) => setImmediate(resolve));
    },
  };
}

describe('the pace against one host', () => {
  it('lets a small burst go at once and then one request a second, in order', async () => {
    const clock = sleepers();
    const turn = makePacer(PACE, clock);
    const gone: [number, number][] = [];
    for (let i = 0; i < 7; i += 1) void turn(HOST, never).then(() => gone.push([i, clock.nowMs()]));
    for (let s = 0; s < 5; s += 1) await clock.advance(s === 0 ? 0 : 1_000);
    expect(gone).toEqual([
      [0, 0],
      [1, 0],
      [2, 0],
      [3, 1_000],
      [4, 2_000],
      [5, 3_000],
      [6, 4_000],
    ]);
  });

  it('in any minute lets no more through than the burst and one a second', async () => {
    const clock = sleepers();
    const turn = makePacer(PACE, clock);
    const goneMs: number[] = [];
    for (let i = 0; i < 200; i += 1) void turn(HOST, never).then(() => goneMs.push(clock.nowMs()));
    for (let s = 0; s < 250; s += 1) await clock.advance(1_000);
    expect(goneMs).toHaveLength(200);
    for (const fromMs of goneMs) {
      const within = goneMs.filter((ms) => ms >= fromMs && ms < fromMs + 60_000).length;
      expect(within).toBeLessThanOrEqual(60 + PACE.burst);
    }
  });

  it('has its burst again after a rest, and no bigger one', async () => {
    const clock = sleepers();
    const turn = makePacer(PACE, clock);
    const goneMs: number[] = [];
    const ask = (count: number) => {
      for (let i = 0; i < count; i += 1) void turn(HOST, never).then(() => goneMs.push(clock.nowMs()));
    };
    ask(3);
    await clock.advance(0);
    await clock.advance(3_600_000);
    ask(5);
    for (let s = 0; s < 3; s += 1) await clock.advance(s === 0 ? 0 : 1_000);
    expect(goneMs).toEqual([0, 0, 0, 3_600_000, 3_600_000, 3_600_000, 3_601_000, 3_602_000]);
  });

  it('keeps other hosts out of it, and a clock that was set back from stopping everything', async () => {
    const clock = makeClock(10_000_000);
    const turn = makePacer(PACE, clock);
    for (let i = 0; i < 3; i += 1) await turn(HOST, never);
    await turn('other.example.org', never);
    expect(clock.slept).toEqual([]);
    clock.advance(-9_000_000);
    await turn(HOST, never);
    expect(Math.max(...clock.slept)).toBeLessThanOrEqual(PACE.everyMs * 3);
  });

  it('lets go of one that is called off while it waits', async () => {
    const turn = makePacer({ burst: 1, everyMs: 1_000 }, makeClock(0));
    await turn(HOST, never);
    await expect(turn(HOST, AbortSignal.abort(new Error('enough')))).rejects.toThrow('enough');
  });
});

describe('the pace that many processes keep together', () => {
  it('is the one of the turns that are given out, whoever takes them', async () => {
    const clock = makeClock(0);
    const asked: [string, typeof PACE][] = [];
    const waits = [0, 0, 400, 1_400];
    const nextTurn = async (host: string, pace: typeof PACE) => {
      asked.push([host, pace]);
      return waits.shift() ?? 0;
    };
    const turn = makeSharedPacer(PACE, nextTurn, { ...clock, log: makeLog() });
    for (let i = 0; i < 4; i += 1) await turn(HOST, never);
    expect(clock.slept).toEqual([400, 1_400]);
    expect(asked).toEqual(Array.from({ length: 4 }, () => [HOST, PACE]));
  });

  it('is kept alone, and told, where no turn can be had', async () => {
    const clock = makeClock(0);
    const log = makeLog();
    const turn = makeSharedPacer(PACE, () => Promise.reject(new Error('the store is away')), {
      ...clock,
      log,
    });
    for (let i = 0; i < 5; i += 1) await turn(HOST, never);
    expect(clock.slept).toEqual([1_000, 1_000]);
    expect(log.lines).toHaveLength(5);
    expect(log.lines[0]).toMatchObject({ level: 'warn', facts: { fault: 'the store is away' } });
  });

  it('takes no turn for one that is called off', async () => {
    let asked = 0;
    const nextTurn = async () => {
      asked += 1;
      return 0;
    };
    const turn = makeSharedPacer(PACE, nextTurn, { ...makeClock(0), log: makeLog() });
    await expect(turn(HOST, AbortSignal.abort(new Error('enough')))).rejects.toThrow('enough');
    expect(asked).toBe(0);
  });
});

describe('requests', () => {
  it('that come too late for their deadline take no turn from others, and are no failure of anybody', async () => {
    const server = await serving((response) => reply(response, 200, {}));
    let turns = 0;
    const { http, clock } = client({
      pace: PACE,
      nextTurn: async () => {
        turns += 1;
        return 60_000;
      },
    });
    const deadlineMs = clock.nowMs() + 61_000;
    const faults = await Promise.all(
      Array.from({ length: 9 }, (_, i) =>
        http.get(`${server.origin}/${i}`, { deadlineMs }).then(
          () => null,
          (fault: unknown) => fault,
        ),
      ),
    );
    // Two run at once: by the time that their turns have come nobody else has any time left.
    expect(turns).toBe(2);
    const late = faults.filter((fault) => fault !== null);
    expect(late.length).toBeGreaterThanOrEqual(7);
    for (const fault of late) expect(fault).toMatchObject({ facts: { againAtMs: clock.nowMs() } });
    expect(http.lines()).toMatchObject([{ leftAloneSinceMs: null }]);
  });

  it('keep to the pace they are given, and answers from our own copy need no turn', async () => {
    const server = await serving((response) => reply(response, 200, {}, { 'cache-control': 'max-age=60' }));
    const { http, clock } = client({ pace: PACE });
    const get = (i: number) => http.get(`${server.origin}/${i}`);
    for (let i = 0; i < 5; i += 1) await get(i);
    expect(clock.slept).toEqual([1_000, 1_000]);
    for (let i = 0; i < 5; i += 1) await get(i);
    expect([server.seen.length, clock.slept.length]).toEqual([5, 2]);
  });

  it('of the NWS source keep to one a second without being told; a source of our own is exempt when told', async () => {
    const server = await serving((response) => reply(response, 404, { type: 'x', status: 404 }));
    const sleptBy = async (own: { pace?: null }) => {
      const clock = makeClock(0);
      const options = {
        baseUrl: server.origin,
        contact: 'ops@example.org',
        random: () => 0.5,
        log: makeLog(),
      };
      const source = createNwsSource({ ...options, ...clock, ...own });
      for (let i = 0; i < 20; i += 1) {
        await source.pull({ latDeg: 30 + i, lonDeg: -90 }).catch(() => undefined);
      }
      await source.close();
      return clock.slept.reduce((sum, ms) => sum + ms, 0);
    };
    expect(await sleptBy({})).toBe(14_000);
    expect(await sleptBy({ pace: null })).toBe(0);
  });
});
