// The same GET without a network: undici's MockAgent, as the tests of whole programs use it.

import { MockAgent } from 'undici';
import { describe, expect, it } from 'vitest';
import { makeHttp } from '#sources/http.ts';
import { makeHttpCache } from '#sources/http-cache.ts';
import { safeUrl } from '#sources/http-problem.ts';
import { httpDateMs, refusalPauseMs, retryAfterMs, retryWaitMs } from '#sources/http-retry.ts';
import { makeClock, makeLog } from './loopback.ts';

const ORIGIN = 'https://api.example.org';
const JSON_TYPE = { headers: { 'content-type': 'application/geo+json' } };

function mocked() {
  const agent = new MockAgent();
  agent.disableNetConnect();
  const clock = makeClock(0);
  const log = makeLog();
  const http = makeHttp({
    pace: null,
    userAgent: 'Pitward/0.1 (ops@example.org)',
    accept: 'application/geo+json',
    nowMs: clock.nowMs,
    sleep: clock.sleep,
    random: () => 0.5,
    log,
    dispatcher: agent,
  });
  return { agent, http, clock, log, pool: agent.get(ORIGIN) };
}

describe('with a mocked service', () => {
  it('a request reaches it with our headers and nothing else is left over', async () => {
    const { agent, http, pool } = mocked();
    pool
      .intercept({
        path: '/a',
        headers: { 'user-agent': 'Pitward/0.1 (ops@example.org)', accept: 'application/geo+json' },
      })
      .reply(200, '{"a":1}', JSON_TYPE);
    expect(new TextDecoder().decode((await http.get(`${ORIGIN}/a`)).bytes)).toBe('{"a":1}');
    agent.assertNoPendingInterceptors();
  });

  it('a failure and then an answer take one wait', async () => {
    const { http, pool, clock, log } = mocked();
    pool.intercept({ path: '/a' }).reply(500, '{"type":"urn:noaa:nws:api:UnexpectedProblem"}', {
      headers: { 'content-type': 'application/problem+json' },
    });
    pool.intercept({ path: '/a' }).reply(200, '{}', JSON_TYPE);
    await http.get(`${ORIGIN}/a`);
    expect(clock.slept).toEqual([2_000]);
    expect(log.lines[0]?.facts).toMatchObject({
      problem: 'UnexpectedProblem',
      status: 500,
      tries: 1,
      waitMs: 2_000,
    });
  });

  it('a network fault is tried again, too', async () => {
    const { http, pool, clock } = mocked();
    pool.intercept({ path: '/a' }).replyWithError(new Error('reset'));
    pool.intercept({ path: '/a' }).reply(200, '{}', JSON_TYPE);
    await http.get(`${ORIGIN}/a`);
    expect(clock.slept).toHaveLength(1);
  });

  it('a 304 that nobody asked for is no answer', async () => {
    const { http, pool } = mocked();
    pool.intercept({ path: '/a' }).reply(304, '').times(4);
    await expect(http.get(`${ORIGIN}/a`)).rejects.toMatchObject({
      code: 'source_unreadable',
      facts: { status: 304 },
    });
  });
});

describe('the table of retries', () => {
  const failure = { status: 500, problem: null, retryAfterMs: null, unreadable: false };
  const wait = (more: object, tries = 1) => retryWaitMs({ ...failure, ...more }, tries, () => 0.5);

  it.each([[500], [502], [503], [504], [408], [null]])('waits 2 s after %s', (status) => {
    expect(wait({ status })).toBe(2_000);
  });

  it.each([[400], [401], [403], [404], [410], [429], [501]])('does not try %d again', (status) => {
    expect(wait({ status })).toBeNull();
  });

  it('ends after three tries more', () => {
    expect([1, 2, 3, 4].map((tries) => wait({}, tries))).toEqual([2_000, 8_000, 20_000, null]);
  });

  it('leaves a host that refuses alone for 10 s, 60 s, then 10 min each', () => {
    expect([1, 2, 3, 9].map((count) => refusalPauseMs(count, null))).toEqual([
      10_000, 60_000, 600_000, 600_000,
    ]);
    expect(refusalPauseMs(1, 90_000)).toBe(90_000);
  });

  it('reads Retry-After in both forms and nothing else', () => {
    const nowMs = Date.UTC(2026, 2, 2, 18, 20);
    expect(retryAfterMs('120', nowMs)).toBe(120_000);
    expect(retryAfterMs('Mon, 02 Mar 2026 18:21:00 GMT', nowMs)).toBe(60_000);
    expect(retryAfterMs('Mon, 02 Mar 2026 18:19:00 GMT', nowMs)).toBe(0);
    for (const text of ['-5', '1.5', '', 'x', '2026-03-02']) expect(retryAfterMs(text, nowMs)).toBeNull();
    expect(httpDateMs('Mon, 99 Mar 2026 18:21:00 GMT')).toBeNull();
  });
});

describe('a URL for the log', () => {
  it('has no credentials and no values of unknown parameters', () => {
    const shown = safeUrl(new URL('https://me:pw@api.example.org/alerts/active?zone=XXZ110&token=abc#x'));
    expect(shown).toBe('https://api.example.org/alerts/active?zone=XXZ110&token=-');
  });
});

describe('kept bodies', () => {
  it('go, the longest unused first, when there are too many bytes', () => {
    const cache = makeHttpCache(25);
    const answer = {
      bytes: new Uint8Array(10),
      receivedAtMs: 0,
      confirmedAtMs: 0,
      freshUntilMs: 0,
      etag: null,
      lastModified: null,
    };
    cache.keep('a', answer);
    cache.keep('b', answer);
    cache.get('a');
    cache.keep('c', answer);
    expect(['a', 'b', 'c'].map((url) => cache.get(url) !== null)).toEqual([true, false, true]);
    cache.keep('a', { ...answer, bytes: new Uint8Array(15) });
    expect(['a', 'c'].map((url) => cache.get(url) !== null)).toEqual([true, true]);
    cache.keep('d', { ...answer, bytes: new Uint8Array(26) });
    expect(['a', 'c', 'd'].map((url) => cache.get(url) !== null)).toEqual([false, false, false]);
  });
});
