// Secrets are planted wherever a caller or a library could leave one; then every line of the log, at its most talkative, and
// every answer is searched for each of them. OWASP Top 10 2021, A09 (log no credentials); CWE-532, CWE-209.

import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { createLogger } from '#cli/logger.ts';
import { ServiceError } from '#errors.ts';
import { type Keyed, startKeyed } from '../../service/keyed.ts';
import { orderBody, SHIFT, siteBody } from '../access/fitting-request.ts';
import { laden, MESSAGE, SECRETS, traces } from './planted.ts';
import { sendBytes } from './send-bytes.ts';

const lines: string[] = [];
const answers: { request: string; id: string | null; text: string }[] = [];
let keyed: Keyed;
let url = '';
let key = '';

beforeAll(async () => {
  keyed = await startKeyed('2026-03-03T01:10:00Z', {
    logger: createLogger('trace', { write: (line) => void lines.push(line) }),
    baseUrlOf: (base) => base.replace('://', `://pitward:${SECRETS.source}@`),
  });
  key = await keyed.mint({ scopes: ['admin'] });
  url = await keyed.service.app.listen({ host: '127.0.0.1', port: 0 });
});
afterAll(() => keyed.close());
afterEach(() => vi.restoreAllMocks());

async function ask(
  method: string,
  path: string,
  { headers = {}, body }: { headers?: Record<string, string>; body?: unknown } = {},
) {
  const text = typeof body === 'string' ? body : JSON.stringify(body);
  const type = body === undefined ? {} : { 'content-type': 'application/json' };
  const init = { method, headers: { ...type, authorization: `Bearer ${key}`, ...headers } };
  const response = await fetch(`${url}${path}`, body === undefined ? init : { ...init, body: text });
  const told = [...response.headers].map(([name, value]) => `${name}: ${value}`).join('\n');
  const id = response.headers.get('x-request-id');
  answers.push({ request: `${method} ${path}`, id, text: `${told}\n${await response.text()}` });
  return response.status;
}

describe('requests that carry secrets', () => {
  it('in the right place: keys', async () => {
    const basic = (password: string) => ({
      authorization: `Basic ${Buffer.from(`x:${password}`).toString('base64')}`,
    });
    expect(await ask('GET', '/v1/sites')).toBe(200);
    expect(await ask('GET', '/v1/sites', { headers: basic(key) })).toBe(200);
    expect(await ask('GET', '/v1/sites', { headers: basic(SECRETS.unknownKey) })).toBe(401);
    expect(
      await ask('GET', '/v1/sites', { headers: { authorization: `Bearer ${SECRETS.unknownKey}` } }),
    ).toBe(401);
    expect(await ask('GET', '/', { headers: { authorization: `Bearer ${SECRETS.unknownKey}` } })).toBe(401);
    expect(await ask('DELETE', '/v1/nowhere', { headers: { authorization: SECRETS.unknownKey } })).toBe(401);
  });

  it('in the address', async () => {
    for (const secret of [SECRETS.unknownKey, key]) {
      expect(await ask('GET', `/v1/sites?key=${secret}`)).toBe(400);
      expect(await ask('GET', `/v1/sites?${secret}=1`)).toBe(400);
      expect(await ask('GET', `/v1/sites/${secret}`)).toBe(404);
      expect(await ask('GET', `/sites/${secret}`)).toBe(404);
      expect(await ask('GET', `/v1/${secret}/sites?x=1`)).toBe(404);
      expect(await ask('PUT', `/v1/sites/${secret}`, { body: {}, headers: { 'if-match': '"r1"' } })).toBe(
        404,
      );
      expect(await ask('DELETE', `/v1/orders/${secret}`, { headers: { 'if-match': '"r1"' } })).toBe(404);
      expect(await ask('GET', `/v1/sites/${'a'.repeat(90)}${secret}`)).toBe(404);
      expect(await ask('GET', `/%zz${secret}`)).toBe(404);
    }
    expect(await ask('GET', `/a/${SECRETS.query}`)).toBe(404);
    expect(await ask('GET', `/v1/nowhere?token=${SECRETS.query}`)).toBe(404);
    expect(await ask('GET', `/v1/sites/north-block/windows?day=${SECRETS.query}`)).toBe(400);
    expect(await ask('GET', `/?look=${SECRETS.query}`)).toBe(400);
    expect(await ask('POST', `/v1/plan?token=${SECRETS.query}`, { body: {} })).toBe(400);
  });

  it('in headers', async () => {
    const headers = {
      cookie: `session=${SECRETS.cookie}`,
      'proxy-authorization': `Basic ${SECRETS.proxy}`,
      'x-api-key': SECRETS.header,
      'x-request-id': `id-${SECRETS.unknownKey.slice(0, 40)}`,
      referer: `https://elsewhere.example/?token=${SECRETS.query}`,
      'x-forwarded-for': SECRETS.header,
      'if-none-match': `"${SECRETS.header}"`,
    };
    expect(await ask('GET', '/v1/sites', { headers })).toBe(200);
    expect(await ask('GET', '/v1/sites', { headers: { ...headers, authorization: '' } })).toBe(401);
    expect(
      await ask('POST', '/v1/limit-sets', {
        headers: { ...headers, 'content-type': `text/${SECRETS.header}` },
        body: '{}',
      }),
    ).toBe(400);
    expect(
      await ask('PUT', '/v1/orders/x', { body: orderBody('X'), headers: { 'if-match': SECRETS.header } }),
    ).toBe(404);
    expect(
      await ask('POST', '/v1/orders', {
        body: orderBody('X'),
        headers: { origin: `https://${SECRETS.header}.example` },
      }),
    ).toBe(403);
  });

  it('in bodies, read and unreadable', async () => {
    const { body: word, phone, email, unknownKey } = SECRETS;
    const secretFields = { password: word, phone, email, key: unknownKey };
    expect(
      await ask('POST', '/v1/plan', {
        body: { site: { at: [36.4, -120.2], shift: SHIFT, ...secretFields } },
      }),
    ).toBe(400);
    expect(await ask('POST', '/v1/plan', { body: secretFields })).toBe(400);
    expect(
      await ask('POST', '/v1/sites', { body: { ...siteBody('new-site', email), ...secretFields } }),
    ).toBe(400);
    expect(await ask('POST', '/v1/sites', { body: siteBody('new-site', unknownKey) })).toBe(400);
    expect(
      await ask('POST', '/v1/sites', { body: { ...siteBody('new-site', 'valley'), at: [word, phone] } }),
    ).toBe(400);
    expect(await ask('POST', '/v1/orders', { body: orderBody('Ban', [unknownKey, email]) })).toBe(400);
    expect(await ask('POST', '/v1/plan', { body: `{"password":"${word}","phone":${phone} ${email}` })).toBe(
      400,
    );
    expect(await ask('POST', '/v1/plan', { body: `${word}` })).toBe(400);
    expect(await ask('POST', '/v1/plan', { body: `{"__proto__":{"a":"${word}"}}` })).toBe(400);
    expect(await ask('POST', '/v1/plan', { body: `"${word.repeat(9000)}"` })).toBe(413);
  });

  it('as idempotency keys', async () => {
    const headers = { 'idempotency-key': SECRETS.idempotency };
    expect(await ask('POST', '/v1/orders', { body: orderBody('First'), headers })).toBe(201);
    expect(await ask('POST', '/v1/orders', { body: orderBody('First'), headers })).toBe(201);
    expect(await ask('POST', '/v1/orders', { body: orderBody('Second'), headers })).toBe(422);
    expect(
      await ask('POST', '/v1/orders', {
        body: orderBody('Third'),
        headers: { 'idempotency-key': `${SECRETS.idempotency} é` },
      }),
    ).toBe(400);
  });

  it('in what is no HTTP', async () => {
    for (const after of ['Bad Header', ': no name', 'Content-Length: x', `X: ${'a'.repeat(20_000)}`]) {
      const text = await sendBytes(
        url,
        `GET /v1/sites?key=${key} HTTP/1.1\r\nHost: x\r\nAuthorization: Bearer ${key}\r\n${after}\r\n\r\n`,
      );
      expect(text).toMatch(/^HTTP\/1\.1 4\d\d /);
      answers.push({ request: after.slice(0, 20), id: null, text });
    }
  });
});

/** Made before there is a key of the service. */
const KEY = SECRETS.unknownKey;

describe('faults that carry secrets', () => {
  const thrown: readonly [string, unknown, number][] = [
    ['a fault', laden(MESSAGE, KEY), 500],
    [
      'causes of a fault',
      new Error('outside', { cause: laden(MESSAGE, KEY, laden(MESSAGE, KEY, MESSAGE)) }),
      500,
    ],
    ['many faults at once', new AggregateError([laden(MESSAGE, KEY), laden(MESSAGE, KEY)], MESSAGE), 500],
    [
      'a store that is gone',
      new ServiceError('store_unavailable', MESSAGE, { cause: laden(MESSAGE, KEY) }),
      503,
    ],
    [
      'a fault with facts',
      new ServiceError('internal', MESSAGE, {
        facts: { faults: [{ path: 'x', message: MESSAGE }], hung: SECRETS.hung },
      }),
      500,
    ],
    ['a text', MESSAGE, 500],
    ['an object', { message: MESSAGE, hung: SECRETS.hung, statusCode: 200 }, 500],
    [
      'a fault that names itself',
      Object.assign(laden(MESSAGE, KEY), {
        name: MESSAGE,
        code: MESSAGE,
        stack: `${MESSAGE}\n    at ${MESSAGE}`,
      }),
      500,
    ],
  ];

  it.each(thrown)('%s', async (_, fault, status) => {
    vi.spyOn(keyed.store.definitions, 'history').mockRejectedValue(fault);
    vi.spyOn(keyed.store.definitions, 'current').mockRejectedValue(fault);
    vi.spyOn(keyed.service.desk, 'sites').mockImplementation(() => {
      throw fault;
    });
    const before = lines.length;
    expect(await ask('GET', '/v1/limit-sets/valley')).toBe(status);
    expect(await ask('GET', '/v1/orders')).toBe(status);
    expect(await ask('POST', '/v1/orders', { body: orderBody(SECRETS.body) })).toBe(status);
    expect(await ask('GET', '/')).toBe(status);
    const told = lines.slice(before).filter((line) => line.includes('request failed'));
    expect(told).toHaveLength(4);
  });

  it('of the source, whose address has a password', async () => {
    await keyed.standIn.close();
    const before = lines.length;
    const site = { at: [36.1, -120.9], shift: SHIFT };
    expect(
      await ask('POST', '/v1/plan', {
        body: { site, limits: [{ element: 'windSpeed', atMost: { hold: '9 mph' }, source: SECRETS.body }] },
      }),
    ).toBe(502);
    // What the source says of its tries is told under the id of the request that it was asked for.
    const id = answers.at(-1)?.id ?? 'none';
    const tries = lines.slice(before).filter((line) => line.includes('no answer from'));
    expect(tries.length).toBeGreaterThan(1);
    for (const line of tries) expect(JSON.parse(line).reqId).toBe(id);
  });
});

describe('of all that', () => {
  it('no line of the log has any', () => {
    expect(lines.length).toBeGreaterThan(60);
    expect(lines.flatMap((line) => traces(line, key).map((name) => ({ name, line })))).toEqual([]);
  });

  it('no answer has any', () => {
    expect(answers.length).toBeGreaterThan(60);
    expect(
      answers.flatMap(({ request, text }) => traces(text, key).map((name) => ({ name, request, text }))),
    ).toEqual([]);
  });

  it('every line about a request has the id that its answer had', () => {
    const ids = new Set(answers.map(({ id }) => id));
    const without = lines.map((line) => JSON.parse(line)).filter(({ reqId }) => reqId === undefined);
    // Pulls by the clock, the start of the server, and what never became a request.
    const texts = new Set(without.map(({ msg }) => String(msg).replace(/ at http.*/, '')));
    expect([...texts].sort()).toEqual([
      'Server listening',
      'client error',
      'client header_overflow',
      'forecast pulled',
    ]);
    const told = lines.map((line) => JSON.parse(line).reqId).filter((id) => id !== undefined);
    expect(told.filter((id) => !ids.has(id))).toEqual([]);
    for (const line of lines) expect(line.match(/"reqId":/g)?.length ?? 0).toBeLessThanOrEqual(1);
  });

  it('what a fault was is still told: its name, its code, where it was, and its causes', () => {
    const faults = lines.map((line) => JSON.parse(line)).filter(({ msg }) => msg === 'request failed');
    const outside = faults.find(({ fault }) => fault.message === 'outside')?.fault;
    expect(outside).toMatchObject({
      name: 'Error',
      cause: {
        name: 'Error',
        code: 'E_LADEN',
        message: expect.stringContaining('postgres://-@db.inside.example:5432/pit'),
      },
    });
    expect(outside.at[0]).toContain('no-secrets.test.ts');
    expect(outside.cause.cause.cause.name).toBe('string');
    expect(faults.find(({ fault }) => fault.name === 'AggregateError')?.fault.faults).toHaveLength(2);
  });
});
