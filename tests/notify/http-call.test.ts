// Deadlines, caps and redirects of one request, against a real peer. A custom clock ends what drips; nothing sleeps.

import { afterEach, describe, expect, it } from 'vitest';
import { httpCaller } from '#notify/http-call.ts';
import { retryAfterMs } from '#notify/retry-after.ts';
import { never, testDeps } from './deps.ts';
import { type Answer, answerWith, LOOPBACK, peer } from './peer.ts';

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

const LIMITS = { connectMs: 3000, wholeMs: 8000, mostBytes: 1000, keptConnections: 0 };

async function started(answer: Answer, limits = LIMITS) {
  const there = await peer(answer);
  const deps = testDeps();
  const caller = httpCaller(LOOPBACK, limits, deps);
  open.push(caller, there);
  const post = (signal = never()) =>
    caller.call(
      { url: new URL(`${there.origin}/hook?a=1`), method: 'POST', headers: { 'x-a': 'b' }, body: 'said' },
      signal,
    );
  return { there, deps, post };
}

describe('one request', () => {
  it('sends what it was given and hands back status, headers and text', async () => {
    const { there, post } = await started((response) => answerWith(response, 202, 'taken', { 'X-Id': '9' }));
    expect(await post()).toMatchObject({
      kind: 'answer',
      status: 202,
      text: 'taken',
      isWhole: true,
      headers: { 'x-id': '9' },
    });
    expect(there.asked).toMatchObject([{ method: 'POST', path: '/hook?a=1', headers: { 'x-a': 'b' } }]);
    expect(there.asked[0]?.body.toString()).toBe('said');
  });

  it('does not follow a redirect, not even one to the inside', async () => {
    const { there, post } = await started((response) =>
      answerWith(response, 307, '', { location: 'http://169.254.169.254/latest/meta-data/' }),
    );
    expect(await post()).toMatchObject({ kind: 'answer', status: 307 });
    expect(there.asked.length).toBe(1);
  });

  it('reads no more than the cap', async () => {
    const { post } = await started((response) => {
      response.writeHead(200);
      const more = (fault?: Error | null) => {
        if (!fault && !response.destroyed) response.write('x'.repeat(500), more);
      };
      more();
    });
    const result = await post();
    expect(result).toMatchObject({ kind: 'answer', status: 200, isWhole: false });
    expect(result.kind === 'answer' && result.text.length).toBe(1000);
  });

  it('that is never answered ends at its deadline, and may have been taken', async () => {
    const { there, deps, post } = await started(() => undefined);
    const result = post();
    await there.request(1);
    deps.clock.advance(LIMITS.wholeMs);
    expect(await result).toEqual({
      kind: 'fault',
      reason: 'timeout',
      begun: true,
      detail: 'no answer in time',
    });
    expect(deps.clock.waiting()).toBe(0);
  });

  it('whose answer drips for ever ends at the same deadline, with the status that came', async () => {
    const { there, deps, post } = await started((response) => {
      response.writeHead(200);
      response.write('y');
    });
    const result = post();
    await there.request(1);
    for (let i = 0; i < 7; i += 1) deps.clock.advance(1000);
    await until(() => there.asked.length === 1);
    deps.clock.advance(1000);
    const ended = await result;
    // The head may or may not have been read when the clock struck: both are an end, neither is a wait.
    expect(['answer', 'fault']).toContain(ended.kind);
  });

  it('of which the peer breaks the connection may have been taken', async () => {
    const { post } = await started((response) => response.socket?.destroy());
    expect(await post()).toMatchObject({ kind: 'fault', reason: 'unreachable', begun: true });
  });

  it('to a port where nobody listens was not taken', async () => {
    const { there, post } = await started((response) => answerWith(response, 200));
    await there.close();
    expect(await post()).toMatchObject({
      kind: 'fault',
      reason: 'unreachable',
      begun: false,
      detail: 'no connection (ECONNREFUSED)',
    });
  });

  it('that is called off before it began does not go out', async () => {
    const { there, post } = await started((response) => answerWith(response, 200));
    expect(await post(AbortSignal.abort())).toMatchObject({ reason: 'called-off', begun: false });
    expect(there.asked).toEqual([]);
  });

  it('that was given up while it waited for a kept connection does not go out later', async () => {
    const answers: (() => void)[] = [];
    const { there, deps, post } = await started(
      (response) => {
        answers.push(() => answerWith(response, 200));
      },
      { ...LIMITS, keptConnections: 1 },
    );
    const first = post();
    await there.request(1);
    const later = new AbortController();
    const second = post(later.signal);
    later.abort();
    expect(await second).toMatchObject({ reason: 'called-off', begun: false });
    const third = post();
    answers[0]?.();
    expect(await first).toMatchObject({ status: 200 });
    await there.request(2);
    answers[1]?.();
    expect(await third).toMatchObject({ status: 200 });
    expect(there.asked.length).toBe(2);
    expect(deps.clock.waiting()).toBe(0);
  });
});

describe('Retry-After (RFC 9110, section 10.2.3)', () => {
  const now = Date.parse('2026-03-02T12:00:00Z');
  it.each([
    ['120', 120_000],
    [' 5 ', 5000],
    ['0', 0],
    ['86400', 600_000],
    ['Mon, 02 Mar 2026 12:00:30 GMT', 30_000],
    ['Mon, 02 Mar 2026 11:00:00 GMT', 0],
    ['Tue, 03 Mar 2026 12:00:00 GMT', 600_000],
    ['-5', null],
    ['1.5', null],
    ['soon', null],
    ['', null],
    [undefined, null],
  ])('%j is %j ms', (header, ms) => {
    expect(retryAfterMs(header, now, 600_000)).toBe(ms);
  });
});

/** Lets the loop turn until something is so. */
async function until(isSo: () => boolean): Promise<void> {
  while (!isSo()) await new Promise<void>((resolve) => setImmediate(resolve));
}
