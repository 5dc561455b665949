// The polite GET against a real server on this machine: kind of content, bytes, time and numbers.

import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { client, faultOf, serving, textOf } from './http-harness.ts';
import { GEO_JSON, reply } from './loopback.ts';

describe('a 200 that is no JSON', () => {
  it.each([
    ['text/html', '<html>'],
    ['text/plain', '{}'],
    ['application/problem+json', '{}'],
  ])('but %s is an error, tried again', async (type, body) => {
    const server = await serving((response) => reply(response, 200, body, { 'content-type': type }));
    const { http, clock } = client();
    expect(await faultOf(http.get(server.origin))).toMatchObject({
      code: 'source_unreadable',
      retryable: true,
    });
    expect(clock.slept).toHaveLength(3);
  });

  it('without a content type is one, too', async () => {
    const server = await serving((response) => response.writeHead(200).end('{}'));
    expect((await faultOf(client().http.get(server.origin))).code).toBe('source_unreadable');
  });

  it.each([['application/json'], ['application/geo+json; charset=utf-8'], ['application/ld+json']])(
    'is not one as %s',
    async (type) => {
      const server = await serving((response) => reply(response, 200, '{}', { 'content-type': type }));
      expect(textOf(await client().http.get(server.origin))).toBe('{}');
    },
  );
});

describe('an answer that is too large', () => {
  it('by its own word is not read', async () => {
    const server = await serving((response) => {
      response.writeHead(200, { ...GEO_JSON, 'content-length': '1001' });
      response.write(' '.repeat(500));
    });
    const fault = await faultOf(client({ maxBytes: 1_000 }).http.get(server.origin));
    expect(fault).toMatchObject({ code: 'source_too_large', facts: { maxBytes: 1_000 } });
    expect(server.seen).toHaveLength(1);
  });

  it('is broken off while it streams', async () => {
    let closed = false;
    const server = await serving((response) => {
      response.on('close', () => {
        closed = true;
      });
      response.writeHead(200, GEO_JSON);
      const more = () => {
        if (closed) return;
        response.write(' '.repeat(1_000));
        setImmediate(more);
      };
      more();
    });
    expect((await faultOf(client({ maxBytes: 10_000 }).http.get(server.origin))).code).toBe(
      'source_too_large',
    );
    await expect.poll(() => closed).toBe(true);
  });

  it('after decompression is broken off, however small it came', async () => {
    const bomb = gzipSync(Buffer.alloc(20_000_000, ' '));
    expect(bomb.byteLength).toBeLessThan(50_000);
    const server = await serving((response) => {
      response
        .writeHead(200, {
          ...GEO_JSON,
          'content-encoding': 'gzip',
          'content-length': String(bomb.byteLength),
        })
        .end(bomb);
    });
    expect((await faultOf(client({ maxBytes: 100_000 }).http.get(server.origin))).code).toBe(
      'source_too_large',
    );
  });

  it('of exactly the limit is taken', async () => {
    const body = JSON.stringify('x'.repeat(998));
    const server = await serving((response) => reply(response, 200, body));
    expect((await client({ maxBytes: 1_000 }).http.get(server.origin)).bytes.byteLength).toBe(1_000);
  });

  it('as an error body is cut, and the error still told', async () => {
    const server = await serving((response) => reply(response, 404, `{"title":"${'x'.repeat(200_000)}"}`));
    expect((await faultOf(client().http.get(server.origin))).facts).toMatchObject({ status: 404 });
  });
});

describe('time', () => {
  it('runs out for an answer that never begins', async () => {
    const server = await serving(() => undefined);
    const { http } = client({ requestTimeoutMs: 40, pullDeadlineMs: 1_000 });
    const fault = await faultOf(http.get(server.origin));
    expect(fault).toMatchObject({ code: 'source_unreachable', retryable: true });
    expect(fault.message).toContain('took too long');
  });

  it('runs out for an answer that drips', async () => {
    const timers: NodeJS.Timeout[] = [];
    const server = await serving((response) => {
      response.writeHead(200, GEO_JSON);
      timers.push(setInterval(() => response.write(' '), 5));
    });
    const { http } = client({ requestTimeoutMs: 60, pullDeadlineMs: 1_000 });
    const fault = await faultOf(http.get(server.origin));
    for (const timer of timers) clearInterval(timer);
    expect(fault.message).toContain('took too long');
  });

  it('of the caller may end first: the request is called off', async () => {
    const caller = new AbortController();
    const server = await serving(() => caller.abort(new Error('enough')));
    const fault = await faultOf(client().http.get(server.origin, { signal: caller.signal }));
    expect(fault.message).toContain('called off');
    const again = await faultOf(client().http.get(server.origin, { signal: caller.signal }));
    expect(again.message).toContain('called off');
    expect(server.seen).toHaveLength(1);
  });
});

describe('several requests', () => {
  it('for equal URLs are one while it is under way', async () => {
    const server = await serving((response) => reply(response, 200, { a: 1 }));
    const { http } = client();
    const answers = await Promise.all([1, 2, 3].map(() => http.get(`${server.origin}/x`)));
    expect(answers.map(textOf)).toEqual(['{"a":1}', '{"a":1}', '{"a":1}']);
    expect(server.seen).toHaveLength(1);
    await http.get(`${server.origin}/x`);
    expect(server.seen).toHaveLength(2);
  });

  it('for equal URLs outlive one caller who gives up', async () => {
    const caller = new AbortController();
    const server = await serving((response) => {
      caller.abort();
      reply(response, 200, { a: 1 });
    });
    const { http } = client();
    const [one, other] = await Promise.allSettled([
      http.get(server.origin, { signal: caller.signal }),
      http.get(server.origin),
    ]);
    expect(one.status).toBe('rejected');
    expect(other.status).toBe('fulfilled');
  });
});
