// The polite GET against a real server on this machine: what it asks, follows and keeps.

import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { client, faultOf, NOW_DATE, problem, START_MS, serving, textOf } from './http-harness.ts';
import { GEO_JSON, type Handler, reply } from './loopback.ts';

describe('a request', () => {
  it('says who we are and what we take', async () => {
    const server = await serving((response) => reply(response, 200, { a: 1 }));
    const answer = await client({ headers: { 'x-api-key': 'secret' } }).http.get(
      `${server.origin}/points/1,2`,
    );
    expect(textOf(answer)).toBe('{"a":1}');
    expect(answer).toMatchObject({ receivedAtMs: START_MS, confirmedAtMs: START_MS, reused: false });
    expect(server.seen[0]?.headers).toMatchObject({
      'user-agent': 'Pitward/0.1 (ops@example.org)',
      accept: 'application/geo+json',
      'accept-encoding': 'gzip',
      'x-api-key': 'secret',
    });
    expect(server.seen[0]?.headers['accept-language']).toBeUndefined();
  });

  it('reads a compressed answer', async () => {
    const server = await serving((response) => {
      response.writeHead(200, { ...GEO_JSON, 'content-encoding': 'gzip' }).end(gzipSync('{"a":1}'));
    });
    expect(textOf(await client().http.get(server.origin))).toBe('{"a":1}');
  });
});

describe('a redirect', () => {
  it('to a relative location is followed (api#18)', async () => {
    const server = await serving((response, request) => {
      if (request.url === '/points/39.74561,-97.0892')
        reply(response, 301, problem('Redirect', 301), { location: '/points/39.7456,-97.0892' });
      else reply(response, 200, { at: request.url });
    });
    expect(textOf(await client().http.get(`${server.origin}/points/39.74561,-97.0892`))).toBe(
      '{"at":"/points/39.7456,-97.0892"}',
    );
  });

  it('to another origin is refused', async () => {
    const other = await serving((response) => reply(response, 200, {}));
    const server = await serving((response) => reply(response, 302, '', { location: `${other.origin}/x` }));
    const fault = await faultOf(client().http.get(`${server.origin}/a`));
    expect(fault.code).toBe('source_refused');
    expect(fault.message).toContain('another origin');
    expect(other.seen).toEqual([]);
  });

  it('is followed three times and no more', async () => {
    const hops =
      (most: number): Handler =>
      (response, _, count) =>
        count <= most ? reply(response, 308, '', { location: `/${count}` }) : reply(response, 200, { count });
    const three = await serving(hops(3));
    expect(textOf(await client().http.get(three.origin))).toBe('{"count":4}');
    const four = await serving(hops(4));
    expect((await faultOf(client().http.get(four.origin))).message).toContain('more than 3 redirects');
    expect(four.seen).toHaveLength(4);
  });

  it('without a location that can be read is refused', async () => {
    const server = await serving((response, request) => {
      response.writeHead(301, request.url === '/bad' ? { location: 'http://[' } : {}).end();
    });
    const { http } = client();
    expect((await faultOf(http.get(`${server.origin}/none`))).code).toBe('source_refused');
    expect((await faultOf(http.get(`${server.origin}/bad`))).code).toBe('source_refused');
  });
});

describe('what is kept', () => {
  const dated =
    (lastModified: string, more: Record<string, string> = {}): Handler =>
    (response, request) => {
      const headers = { date: NOW_DATE, 'last-modified': lastModified, ...more };
      const known = request.headers['if-modified-since'] ?? request.headers['if-none-match'];
      if (known) response.writeHead(304, headers).end();
      else reply(response, 200, { a: 1 }, headers);
    };

  it('is asked for conditionally, and confirmed by 304', async () => {
    const server = await serving(dated('Mon, 02 Mar 2026 17:00:00 GMT', { etag: '"e1"' }));
    const { http, clock } = client();
    await http.get(server.origin);
    clock.advance(60_000);
    const again = await http.get(server.origin);
    expect(textOf(again)).toBe('{"a":1}');
    expect(again).toMatchObject({ receivedAtMs: START_MS, confirmedAtMs: START_MS + 60_000, reused: true });
    expect(server.seen[1]?.headers).toMatchObject({
      'if-modified-since': 'Mon, 02 Mar 2026 17:00:00 GMT',
      'if-none-match': '"e1"',
    });
  });

  it.each([['Thu, 05 Mar 2026 13:00:00 GMT'], ['yesterday'], ['2026-03-02T17:00:00Z']])(
    'is not asked for with a Last-Modified of %s, which is later than the answer or no date (api#99)',
    async (lastModified) => {
      const server = await serving(dated(lastModified));
      const { http } = client();
      await http.get(server.origin);
      expect((await http.get(server.origin)).reused).toBe(false);
      expect(server.seen[1]?.headers['if-modified-since']).toBeUndefined();
    },
  );

  it('is used without asking within its max-age, less the age that it came with', async () => {
    const server = await serving((response) =>
      reply(response, 200, {}, { 'cache-control': 'public, max-age=60, s-maxage=3600', age: '10' }),
    );
    const { http, clock } = client();
    await http.get(server.origin);
    clock.advance(49_999);
    expect((await http.get(server.origin)).reused).toBe(true);
    clock.advance(1);
    expect((await http.get(server.origin)).reused).toBe(false);
    expect(server.seen).toHaveLength(2);
  });

  it.each([['no-store'], ['no-cache, max-age=60'], ['s-maxage=3600'], ['max-age=0']])(
    'is asked for anew under %s',
    async (control) => {
      const server = await serving((response) => reply(response, 200, {}, { 'cache-control': control }));
      const { http } = client();
      await http.get(server.origin);
      await http.get(server.origin);
      expect(server.seen).toHaveLength(2);
    },
  );

  it('is believed for an hour at most', async () => {
    const server = await serving((response) =>
      reply(response, 200, {}, { 'cache-control': 'max-age=864000' }),
    );
    const { http, clock } = client();
    await http.get(server.origin);
    clock.advance(3_600_000);
    await http.get(server.origin);
    expect(server.seen).toHaveLength(2);
  });

  it('is never an error, whatever max-age it carries (api#73)', async () => {
    const server = await serving((response, _, count) =>
      count === 1
        ? reply(response, 404, problem('InvalidPoint', 404), { 'cache-control': 'max-age=86400' })
        : reply(response, 200, {}),
    );
    const { http } = client();
    await faultOf(http.get(server.origin));
    expect((await http.get(server.origin)).reused).toBe(false);
  });

  it('is passed over when asked anew, with another language to miss a stale cache', async () => {
    const server = await serving(dated('Mon, 02 Mar 2026 17:00:00 GMT', { 'cache-control': 'max-age=600' }));
    const { http } = client();
    await http.get(server.origin);
    expect((await http.get(server.origin, { anew: true })).reused).toBe(false);
    expect(server.seen[1]?.headers).toMatchObject({ 'accept-language': 'en-US' });
    expect(server.seen[1]?.headers['if-modified-since']).toBeUndefined();
  });

  it('is gone once it is forgotten', async () => {
    const server = await serving(dated('Mon, 02 Mar 2026 17:00:00 GMT'));
    const { http } = client();
    await http.get(server.origin);
    http.forget(server.origin);
    expect((await http.get(server.origin)).reused).toBe(false);
  });
});
