// What is finished leaves before the framework: the same answer, and only to whom the gate would give it.

import { request } from 'node:http';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { HOUR_MS } from '#core/units/time.ts';
import { createCallers } from '#publish/access/caller.ts';
import { answerKeyOf, createAnswerCache, makeAnswer } from '#publish/api/answer-cache.ts';
import { createDraining } from '#publish/api/draining.ts';
import { createFront } from '#publish/api/front.ts';
import { createLimiter, type RateLimits } from '#publish/api/rate-limit.ts';
import { createReadyAnswers } from '#publish/api/ready-answers.ts';
import { type Keyed, startKeyed } from '../../service/keyed.ts';

const NOW = '2026-03-03T01:10:00Z';
const WINDOWS = '/v1/sites/north-block/windows?day=tomorrow';
const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

interface Got {
  readonly status: number;
  readonly headers: Record<string, unknown>;
  readonly body: string;
}

/** Over a real connection, with exactly these heads. */
function ask(
  base: string,
  path: string,
  headers: Record<string, string> = {},
  method = 'GET',
  sent = '',
): Promise<Got> {
  return new Promise((resolve, reject) => {
    const asked = request(new URL(path, base), { method, headers, agent: false }, (response) => {
      let body = '';
      response.setEncoding('utf8').on('data', (more) => {
        body += more;
      });
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, body }),
      );
    });
    asked.on('error', reject);
    asked.end(sent);
  });
}

describe('an answer that is ready', () => {
  let keyed: Keyed;
  let base = '';
  let key = '';
  const bearer = (text: string) => ({ authorization: `Bearer ${text}` });
  const start = async (server: { rateLimits?: RateLimits; trustProxy?: readonly string[] } = {}) => {
    keyed = await startKeyed(NOW, { server });
    closing.push(() => keyed.close());
    base = await keyed.service.app.listen({ host: '127.0.0.1', port: 0 });
    key = await keyed.mint();
    expect((await ask(base, WINDOWS, bearer(key))).status).toBe(200);
  };

  it('is byte for byte, and head for head, what the framework gives', async () => {
    await start();
    const known = (headers: Record<string, unknown>) => {
      const { date: _, 'keep-alive': __, connection: ___, 'x-request-id': id, ...others } = headers;
      expect(id).toMatch(/^[\w-]{8,}$/);
      return others;
    };
    for (const more of [{}, { 'if-none-match': '*' }, { 'if-none-match': '"another"' }]) {
      const headers = { ...bearer(key), ...more };
      const direct = await ask(base, WINDOWS, headers);
      const injected = await keyed.service.app.inject({ url: WINDOWS, headers });
      expect([direct.status, direct.body]).toEqual([injected.statusCode, injected.body]);
      expect(known(direct.headers)).toEqual(known(injected.headers));
    }
    const own = await ask(base, WINDOWS, { ...bearer(key), 'x-request-id': 'my-request-7' });
    expect(own.headers['x-request-id']).toBe('my-request-7');
  });

  it('is for nobody whom the gate would not let in', async () => {
    await start();
    const north = ['north-block'];
    const statusFor = async (headers: Record<string, string>) => (await ask(base, WINDOWS, headers)).status;
    expect(await statusFor({})).toBe(401);
    expect(await statusFor(bearer(`pw_abcdefgh_${'A'.repeat(43)}`))).toBe(401);
    expect(await statusFor(bearer(await keyed.mint({ revokedAtMs: keyed.clock.nowMs - 1 })))).toBe(401);
    expect(await statusFor(bearer(await keyed.mint({ scopes: ['observe'] })))).toBe(403);
    expect(await statusFor(bearer(await keyed.mint({ sites: ['creek-road'] })))).toBe(404);
    expect(await statusFor(bearer(await keyed.mint({ organisation: 'another' })))).toBe(404);
    expect(await statusFor(bearer(await keyed.mint({ sites: north })))).toBe(200);
    expect(await statusFor(bearer(await keyed.mint({ scopes: ['admin'] })))).toBe(200);
    const shortLived = await keyed.mint({ expiresAtMs: keyed.clock.nowMs + 1000 });
    expect(await statusFor(bearer(shortLived))).toBe(200);
    keyed.clock.nowMs += 1000;
    expect(await statusFor(bearer(shortLived))).toBe(401);
  });

  it('goes with the forecast and with the day', async () => {
    await start();
    const etag = async () => (await ask(base, WINDOWS, bearer(key))).headers['etag'];
    const before = await etag();
    expect(await etag()).toBe(before);
    keyed.clock.nowMs += 24 * HOUR_MS;
    expect(await etag()).not.toBe(before);
    const aged = await etag();
    await keyed.service.keeper.pullAll();
    expect(await etag()).not.toBe(aged);
  });

  it('is counted by key, and in the metrics', async () => {
    await start({ rateLimits: { keyPerMin: 6, addressPerMin: 3, loopbackPerMin: 1 } });
    const statuses: number[] = [];
    for (let i = 0; i < 6; i += 1) statuses.push((await ask(base, WINDOWS, bearer(key))).status);
    expect(statuses).toEqual([200, 200, 200, 200, 200, 429]);
    const { body } = await ask(base, '/metrics', bearer(await keyed.mint()));
    const row = (status: string) =>
      new RegExp(`requests_total\\{.*route="/v1/sites/:id/windows".*status="${status}".*\\} (\\d+)`).exec(
        body,
      )?.[1];
    expect([row('2xx'), row('4xx')]).toEqual(['6', '1']);
  });

  it('is left to the framework while the server closes', async () => {
    await start();
    const closed = keyed.service.app.close();
    await expect(ask(base, WINDOWS, bearer(key))).rejects.toThrow();
    await closed;
  });
});

describe('the front', () => {
  let base = '';
  let passed: string[] = [];
  let pressed = false;
  let counted: unknown[] = [];
  const cache = createAnswerCache();
  const url = '/v1/sites/north-block/plan?day=today';

  const start = async (behindProxy = false): Promise<void> => {
    const front = createFront(createDraining());
    const access = { kind: 'open', hosts: [] } as const;
    front.answerBy(
      createReadyAnswers({
        ...{ access, cache, behindProxy },
        desk: { versionOf: () => 7, nowMs: () => 1000 },
        limiter: createLimiter({ keyPerMin: 1, addressPerMin: 1, loopbackPerMin: 3 }, true),
        callerOf: createCallers(access, 'ours'),
        requestIdFor: () => 'id-1',
        isUnderPressure: () => pressed,
        count: (...one) => void counted.push(one.slice(0, 3)),
      }),
    );
    const server = front.serverFactory((asked, response) => {
      passed.push(`${asked.method} ${asked.url}`);
      response.end('the framework');
    });
    await new Promise<void>((resolve) => {
      server.listen(0, '127.0.0.1', resolve);
    });
    closing.push(
      () => server.close(),
      () => front.shut(),
    );
    const address = server.address();
    base = `http://127.0.0.1:${typeof address === 'object' ? address?.port : ''}`;
  };

  beforeEach(() => {
    passed = [];
    pressed = false;
    counted = [];
    const use = { version: 7, madeAtMs: 500, goodUntilMs: 2000 };
    cache.put(answerKeyOf('ours/north-block', url), makeAnswer('{"ready":true}', 'application/json', use));
  });

  it('answers by itself what is ready, and counts it', async () => {
    await start();
    expect(await ask(base, url)).toMatchObject({ status: 200, body: '{"ready":true}' });
    expect(passed).toEqual([]);
    expect(counted).toEqual([['/v1/sites/:id/plan', 'GET', 200]]);
  });

  it.each([
    ['another method', url, {}, 'HEAD', ''],
    ['a change', url, {}, 'POST', '{}'],
    ['a body', url, { 'content-length': '2' }, 'GET', '{}'],
    ['another question', `${url}&lang=es`, {}, 'GET', ''],
    ['a site that is none', '/v1/sites/north-block%2f/plan?day=today', {}, 'GET', ''],
    ['another name of this machine', url, { host: 'evil.example' }, 'GET', ''],
  ])('leaves to the framework %s', async (_, path, headers, method, sent) => {
    await start();
    await ask(base, path, headers, method, sent);
    expect([passed, counted]).toEqual([[`${method} ${path}`], []]);
  });

  it('leaves to the framework what comes too often, under pressure, and without a key from behind a proxy', async () => {
    await start();
    for (let i = 0; i < 4; i += 1) await ask(base, url);
    expect(passed).toHaveLength(1);
    pressed = true;
    await ask(base, url);
    expect(passed).toHaveLength(2);
    pressed = false;
    await start(true);
    await ask(base, url);
    expect(passed).toHaveLength(3);
  });
});
