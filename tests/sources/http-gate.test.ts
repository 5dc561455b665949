import { describe, expect, it } from 'vitest';
import { makeHostGate } from '#sources/http-gate.ts';

const HOST = 'api.example.org';

/** Lets every promise that can go on go on. */
const settle = () => new Promise((resolve) => setImmediate(resolve));

function crowd(count: number, signals: readonly AbortSignal[] = []) {
  const gate = makeHostGate(2);
  const begun: number[] = [];
  const finish: ((fault?: Error) => void)[] = [];
  const runs = Array.from({ length: count }, (_, i) =>
    gate.run(HOST, signals[i] ?? new AbortController().signal, () => {
      begun.push(i);
      return new Promise<number>((resolve, reject) => {
        finish[i] = (fault) => (fault ? reject(fault) : resolve(i));
      });
    }),
  );
  return { gate, begun, finish, runs };
}

describe('against one host', () => {
  it('two requests run at once, the others in turn', async () => {
    const { begun, finish, runs } = crowd(5);
    await settle();
    expect(begun).toEqual([0, 1]);
    finish[1]?.();
    await settle();
    expect(begun).toEqual([0, 1, 2]);
    finish[0]?.();
    finish[2]?.();
    await settle();
    expect(begun).toEqual([0, 1, 2, 3, 4]);
    finish[3]?.();
    finish[4]?.();
    expect(await Promise.all(runs)).toEqual([0, 1, 2, 3, 4]);
  });

  it('a request that fails gives its place up', async () => {
    const { begun, finish, runs } = crowd(3);
    await settle();
    finish[0]?.(new Error('x'));
    await expect(runs[0]).rejects.toThrow('x');
    await settle();
    expect(begun).toEqual([0, 1, 2]);
  });

  it('one that is called off while it waits never begins and holds nobody up', async () => {
    const caller = new AbortController();
    const { begun, finish, runs } = crowd(4, [
      new AbortController().signal,
      new AbortController().signal,
      caller.signal,
    ]);
    await settle();
    caller.abort(new Error('enough'));
    await expect(runs[2]).rejects.toThrow('enough');
    finish[0]?.();
    await settle();
    expect(begun).toEqual([0, 1, 3]);
  });

  it('another host has its own places', async () => {
    const { gate } = crowd(2);
    const other = gate.run('other.example.org', new AbortController().signal, () => Promise.resolve('in'));
    expect(await other).toBe('in');
  });
});

describe('a host that refused us', () => {
  it('is left alone longer each time, until it answers', () => {
    const gate = makeHostGate(2);
    expect(gate.refused(HOST, 0, null)).toBe(10_000);
    expect(gate.pausedUntilMs(HOST)).toBe(10_000);
    expect(gate.refused(HOST, 10_000, null)).toBe(60_000);
    expect(gate.refused(HOST, 70_000, null)).toBe(600_000);
    gate.answered(HOST);
    expect(gate.pausedUntilMs(HOST)).toBeLessThan(0);
    expect(gate.refused(HOST, 700_000, null)).toBe(10_000);
  });

  it('counts refusals of requests that ran at once as one', () => {
    const gate = makeHostGate(2);
    gate.refused(HOST, 0, null);
    expect(gate.refused(HOST, 5, null)).toBe(10_000);
    expect(gate.refused(HOST, 10_005, null)).toBe(60_000);
  });
});
