// Bound to this machine the service is open to whoever sits at it, and to no page of the world that a browser there shows.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isCrossSite, isProvenOwn } from '#publish/access/cross-site.ts';
import { isOwnHost } from '#publish/access/own-host.ts';
import { type Running, startRunning } from '../../service/running.ts';

let running: Running;
beforeAll(async () => {
  running = await startRunning('2026-03-03T01:10:00Z', undefined, true, {
    access: () => ({ kind: 'open', hosts: ['pits.office.example'] }),
  });
});
afterAll(() => running.close());

const ask = (url: string, headers: Record<string, string>, method: 'GET' | 'POST' = 'GET') =>
  running.service.app.inject({ method, url, headers, ...(method === 'POST' ? { payload: { x: [] } } : {}) });

describe('without keys', () => {
  it.each([
    'localhost',
    'localhost:8080',
    '127.0.0.1:8080',
    '127.8.9.1',
    '[::1]:8080',
    'PITS.office.example:80',
  ])('everything is answered under the name %s', async (host) => {
    for (const url of ['/', '/v1/sites', '/metrics', '/openapi.json', '/v1/sites/north-block/windows'])
      expect([url, (await ask(url, { host })).statusCode]).toEqual([url, 200]);
  });

  // A name of somebody else that is made to lead here: "DNS rebinding" (OWASP, CWE-350).
  it.each([
    'evil.example',
    'localhost.evil.example',
    '127.0.0.1.evil.example',
    '192.168.1.7',
    'pits.office.example.evil.example',
    '[::2]',
    '0.0.0.0',
  ])('nothing but health is answered under the name "%s"', async (host) => {
    for (const url of ['/', '/v1/sites', '/metrics', '/openapi.json', '/v1/nowhere']) {
      const { statusCode, body } = await ask(url, { host });
      expect([url, statusCode]).toEqual([url, 421]);
      expect(body).not.toContain('north-block');
    }
    expect((await ask('/healthz', { host })).statusCode).toBe(200);
  });

  // Whoever passes on what the world asks may name this machine as the host.
  it.each([
    ['forwarded', 'for=203.0.113.9'],
    ['x-forwarded-for', '203.0.113.9'],
    ['x-forwarded-host', 'pits.example'],
    ['via', '1.1 proxy'],
  ])('nothing but health is answered through a proxy that nobody has named (%s)', async (name, value) => {
    const headers = { host: '127.0.0.1:8080', [name]: value };
    for (const url of ['/', '/v1/sites', '/metrics', '/v1/nowhere']) {
      const { statusCode, body } = await ask(url, headers);
      expect([url, statusCode]).toEqual([url, 421]);
      expect(body).toContain(url === '/' ? '' : 'listen.trustProxy');
    }
    expect((await ask('/healthz', headers)).statusCode).toBe(200);
  });

  it('whether it is ready is told under any name, and no site is', async () => {
    for (const host of ['evil.example', 'localhost']) {
      const { statusCode, body } = await ask('/readyz', { host });
      expect([statusCode, body.includes('north-block')]).toEqual([200, host === 'localhost']);
    }
  });

  it('a page of another site changes nothing, whatever its browser says of it', async () => {
    const host = 'localhost:8080';
    for (const headers of [
      { origin: 'https://evil.example' },
      { origin: 'null' },
      { origin: 'http://localhost:8081' },
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site', origin: 'http://localhost:8080' },
    ]) {
      expect((await ask('/v1/limit-sets', { host, ...headers } as never, 'POST')).statusCode).toBe(403);
    }
    const ours = { host, origin: 'http://localhost:8080', 'sec-fetch-site': 'same-origin' };
    // Ours is let through, and refused for what is in it.
    expect((await ask('/v1/limit-sets', ours, 'POST')).statusCode).toBe(400);
  });

  it('no answer lets a page elsewhere read it', async () => {
    const { headers } = await ask('/v1/sites', { host: 'localhost', origin: 'https://evil.example' });
    expect(Object.keys(headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });
});

describe('the name of this machine', () => {
  it.each([
    ['localhost', true],
    ['127.0.0.1:1', true],
    ['127.1.1.1', true],
    ['[::1]', true],
    ['::1', false],
    ['128.0.0.1', false],
    ['localhostx', false],
    ['localhost:', false],
    ['localhost:8080:9', false],
    ['user@localhost', false],
    [undefined, false],
  ])('%s: %s', (host, own) => {
    expect(isOwnHost(host, [])).toBe(own);
  });
});

describe('a request of another site', () => {
  it.each([
    [{}, false],
    [{ origin: 'http://pits.example' }, false],
    [{ origin: 'https://pits.example' }, false],
    [{ origin: 'http://pits.example:81' }, true],
    [{ origin: 'http://other.example' }, true],
    [{ origin: 'nonsense' }, true],
    [{ secFetchSite: 'none' }, false],
    [{ secFetchSite: 'same-origin' }, false],
    [{ secFetchSite: 'same-site' }, true],
    [{ secFetchSite: 'cross-site' }, true],
    [{ secFetchSite: 'something new' }, true],
  ])('%j: %s', (told, crossSite) => {
    expect(isCrossSite({ host: 'pits.example', origin: undefined, secFetchSite: undefined, ...told })).toBe(
      crossSite,
    );
  });
});

describe('a request with the cookie', () => {
  const own = 'https://pits.example';
  it.each([
    [{}, false],
    [{ secFetchSite: 'none' }, false],
    [{ secFetchSite: 'same-site' }, false],
    [{ secFetchSite: 'cross-site', origin: own }, false],
    [{ secFetchSite: 'same-origin' }, true],
    [{ secFetchSite: 'same-origin', origin: own }, true],
    [{ origin: own }, true],
    [{ origin: 'null' }, false],
    [{ origin: 'https://pits.example.evil.example' }, false],
    // In the clear anybody on the way writes the page.
    [{ origin: 'http://pits.example' }, false],
  ])('is proven to be of our own page by %j: %s', (told, proven) => {
    const from = { host: 'pits.example', origin: undefined, secFetchSite: undefined, ...told };
    expect(isProvenOwn(from, true)).toBe(proven);
    if (proven) expect(isProvenOwn(from, false)).toBe(true);
  });
});
