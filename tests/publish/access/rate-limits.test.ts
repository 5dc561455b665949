// So many requests a minute: by key where one is presented, by address where none is; behind a proxy by the address that
// the proxy tells, and only by one that is trusted. OWASP API Security Top 10 2023, API4.

import { afterEach, describe, expect, it } from 'vitest';
import { type Keyed, startKeyed } from '../../service/keyed.ts';

let keyed: Keyed;
afterEach(() => keyed.close());

const start = async (trustProxy: readonly string[] = []) => {
  const rateLimits = { keyPerMin: 5, addressPerMin: 3, loopbackPerMin: 1 };
  keyed = await startKeyed('2026-03-03T01:10:00Z', { server: { rateLimits, trustProxy } });
};

interface From {
  readonly key?: string;
  readonly address?: string;
  readonly forwardedFor?: string;
  readonly url?: string;
}

async function ask({ key, address = '198.51.100.7', forwardedFor, url = '/v1/sites' }: From) {
  const headers = {
    ...(key ? { authorization: `Bearer ${key}` } : {}),
    ...(forwardedFor ? { 'x-forwarded-for': forwardedFor } : {}),
  };
  return keyed.service.app.inject({ url, headers, remoteAddress: address });
}

const statuses = async (count: number, from: From): Promise<number[]> => {
  const found: number[] = [];
  for (let i = 0; i < count; i += 1) found.push((await ask(from)).statusCode);
  return found;
};

describe('requests a minute', () => {
  it('are counted by key, wherever they come from, and say when to ask again', async () => {
    await start();
    const [key, other] = [await keyed.mint(), await keyed.mint()];
    expect(await statuses(3, { key })).toEqual([200, 200, 200]);
    expect(await statuses(3, { key, address: '203.0.113.9' })).toEqual([200, 200, 429]);
    const { headers, body } = await ask({ key });
    expect(Number(headers['retry-after'])).toBeGreaterThan(0);
    expect(Number(headers['retry-after'])).toBeLessThanOrEqual(60);
    expect(JSON.parse(body)).toMatchObject({ code: 'too_many_requests', status: 429 });
    expect(await statuses(1, { key: other })).toEqual([200]);
  });

  it('are counted by address for whoever has no key or a wrong one, and spend nothing of a key', async () => {
    await start();
    const key = await keyed.mint();
    const wrong = `pw_abcdefgh_${'A'.repeat(43)}`;
    expect(await statuses(2, {})).toEqual([401, 401]);
    expect(await statuses(3, { key: wrong })).toEqual([401, 429, 429]);
    expect(await statuses(1, { url: '/v1/nowhere' })).toEqual([429]);
    expect(await statuses(1, { address: '203.0.113.9' })).toEqual([401]);
    expect(await statuses(5, { key })).toEqual([200, 200, 200, 200, 200]);
  });

  it('of one network of IPv6 are of one address', async () => {
    await start();
    for (const [i, status] of [401, 401, 401, 429].entries())
      expect(await statuses(1, { address: `2001:db8:1:2::${i + 1}` })).toEqual([status]);
    expect(await statuses(1, { address: '2001:db8:1:3::1' })).toEqual([401]);
  });

  it('of personal links are counted, so that nobody tries many', async () => {
    await start();
    expect(await statuses(4, { url: '/a/guessed.guessed' })).toEqual([404, 404, 404, 429]);
  });

  it('of health are not counted, but for whoever shows a key', async () => {
    await start();
    const key = await keyed.mint();
    expect(new Set(await statuses(20, { url: '/healthz' }))).toEqual(new Set([200]));
    expect(new Set(await statuses(20, { url: '/readyz' }))).toEqual(new Set([200]));
    expect((await statuses(6, { key, url: '/readyz' })).at(-1)).toBe(429);
  });
});

describe('X-Forwarded-For', () => {
  it('is not believed where no proxy is named', async () => {
    await start();
    const forged = async (i: number) => (await ask({ forwardedFor: `203.0.113.${i}` })).statusCode;
    expect([await forged(1), await forged(2), await forged(3), await forged(4)]).toEqual([
      401, 401, 401, 429,
    ]);
  });

  it('is believed of the proxies named alone, and only as far as they saw it', async () => {
    await start(['10.0.0.2', '10.1.0.0/24']);
    const address = '10.0.0.2';
    // What the client wrote itself stands before what the proxy has added.
    expect(await statuses(4, { address, forwardedFor: '6.6.6.6, 203.0.113.9' })).toEqual([
      401, 401, 401, 429,
    ]);
    expect(await statuses(1, { address, forwardedFor: '7.7.7.7, 203.0.113.9' })).toEqual([429]);
    expect(await statuses(1, { address, forwardedFor: '203.0.113.9, 203.0.113.10' })).toEqual([401]);
    expect(await statuses(1, { address: '10.1.0.77', forwardedFor: '203.0.113.9' })).toEqual([429]);
    expect(await statuses(4, { address: '10.0.0.3', forwardedFor: '203.0.113.11' })).toEqual([
      401, 401, 401, 429,
    ]);
    expect(await statuses(1, { address: '10.0.0.3', forwardedFor: '203.0.113.12' })).toEqual([429]);
  });
});
