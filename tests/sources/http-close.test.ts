import { once } from 'node:events';
import { createServer } from 'node:http';
import { describe, expect, it } from 'vitest';
import { makeHttp } from '#sources/http.ts';
import { client, faultOf, START_MS } from './http-harness.ts';
import { reply, serve } from './loopback.ts';

it('a client that is closed ends what waits for another try at once', async () => {
  const server = createServer((_request, response) => response.writeHead(500).end()).listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  let waiting = (): void => undefined;
  const isWaiting = new Promise<void>((resolve) => {
    waiting = resolve;
  });
  const http = makeHttp({
    pace: null,
    userAgent: 'test (ops@example.org)',
    accept: 'application/json',
    nowMs: () => 0,
    // Waits until it is called off, and never by the clock.
    sleep: (_ms, signal) => {
      waiting();
      return new Promise((_resolve, reject) => signal.addEventListener('abort', () => reject(signal.reason)));
    },
    random: () => 0.5,
    log: { info: () => undefined, warn: () => undefined },
  });
  const answer = http.get(`http://127.0.0.1:${port}/x`);
  const outcome = expect(answer).rejects.toMatchObject({
    code: 'source_unreachable',
    message: 'the client is closed',
  });
  await isWaiting;
  await http.close();
  await outcome;
  server.close();
});

/** A client against a server that always fails, with a wait that tells in words of its own that it was called off. */
async function failing() {
  const server = await serve((response) => reply(response, 500, {}));
  let waiting = (): void => undefined;
  const isWaiting = new Promise<void>((resolve) => {
    waiting = resolve;
  });
  const http = makeHttp({
    pace: null,
    userAgent: 'test (ops@example.org)',
    accept: 'application/json',
    nowMs: () => 0,
    sleep: (_ms, signal) => {
      waiting();
      return new Promise((_resolve, reject) => {
        signal.addEventListener('abort', () => reject(new Error('The operation was aborted')));
      });
    },
    random: () => 0.5,
    log: { info: () => undefined, warn: () => undefined },
  });
  return { server, http, isWaiting };
}

describe('a client that is called off while it waits for another try', () => {
  it.each([['closed'], ['called off by the caller']])(
    '%s: tells a fault of ours, tries no more',
    async (how) => {
      const { server, http, isWaiting } = await failing();
      const abort = new AbortController();
      const fault = faultOf(http.get(`${server.origin}/x`, { signal: abort.signal }));
      await isWaiting;
      if (how === 'closed') await http.close();
      else abort.abort();
      expect(await fault).toMatchObject({ code: 'source_unreachable', retryable: true });
      expect(server.seen).toHaveLength(1);
      await http.close();
      await server.close();
    },
  );

  it('asks nothing once it is closed, not even its own copies', async () => {
    const server = await serve((response) => reply(response, 200, {}, { 'cache-control': 'max-age=600' }));
    const { http } = client();
    await http.get(`${server.origin}/x`);
    await http.close();
    expect((await faultOf(http.get(`${server.origin}/x`))).code).toBe('source_unreachable');
    expect((await faultOf(http.get(`${server.origin}/y`))).code).toBe('source_unreachable');
    expect(server.seen).toHaveLength(1);
    await server.close();
  });
});

describe('the age of an answer', () => {
  it.each([
    [{}, 0],
    [{ age: '700' }, 700_000],
    [{ age: 'old' }, 0],
    [{ date: 'Mon, 02 Mar 2026 18:05:00 GMT' }, 0],
    [{ date: 'Mon, 02 Mar 2026 18:04:59 GMT' }, 901_000],
    [{ age: '3600', date: 'Mon, 02 Mar 2026 18:00:00 GMT' }, 3_600_000],
    [{ date: 'Tue, 03 Mar 2026 18:00:00 GMT' }, 0],
  ])('with %j is %i ms', async (headers: Record<string, string>, ageMs) => {
    const server = await serve((response) => reply(response, 200, {}, headers));
    const { http } = client();
    const answer = await http.get(`${server.origin}/x`);
    expect(answer).toMatchObject({ ageMs, confirmedAtMs: START_MS - ageMs, receivedAtMs: START_MS });
    await server.close();
  });

  it('grows with the copy, and a copy older than wanted is asked for again', async () => {
    const server = await serve((response) => reply(response, 200, {}, { 'cache-control': 'max-age=600' }));
    const { http, clock } = client();
    await http.get(`${server.origin}/x`);
    clock.advance(60_000);
    const kept = await http.get(`${server.origin}/x`, { freshForMostMs: 60_000 });
    expect(kept).toMatchObject({ ageMs: 60_000, reused: true });
    clock.advance(1);
    const anew = await http.get(`${server.origin}/x`, { freshForMostMs: 60_000 });
    expect(anew).toMatchObject({ ageMs: 0, reused: false });
    await server.close();
  });
});
