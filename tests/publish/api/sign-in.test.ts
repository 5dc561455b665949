// A personal link: opening it changes nothing, its button signs the browser in, and a link that does not work is answered
// alike whatever is the matter with it. RFC 9110, 15.5.2 (401 carries a challenge); RFC 9111, 5.2.2.5 (no-store).

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Keyed, startKeyed } from '../../service/keyed.ts';
import { wordsOf } from '../page/read-page.ts';

const NOW = '2026-03-03T01:10:00Z';
const NOW_MS = Date.parse(NOW);
let keyed: Keyed;
beforeAll(async () => {
  keyed = await startKeyed(NOW, { server: { trustProxy: ['10.0.0.2'] } });
});
afterAll(() => keyed.close());

const OWN = { 'sec-fetch-site': 'same-origin' };
const PAGE = { accept: 'text/html,application/xhtml+xml' };

const ask = (
  url: string,
  headers: Record<string, string> = {},
  method: 'GET' | 'POST' = 'GET',
  payload?: object,
) =>
  keyed.service.app.inject({
    method,
    url,
    headers: { host: 'pits.example', ...headers },
    ...(payload ? { payload } : {}),
  });

const crew = () => keyed.mint({ name: 'Ana', scopes: ['read', 'observe', 'burn'] });

describe('a personal link', () => {
  it('says for whom it is and has one button; opened by whatever, it signs nobody in', async () => {
    const end = NOW_MS + 90 * 86_400_000;
    const key = await keyed.mint({
      name: 'Ana <b>',
      scopes: ['read', 'observe', 'burn'],
      sites: ['north-block'],
      expiresAtMs: end,
    });
    for (const method of ['GET', 'HEAD'] as const) {
      const { statusCode, headers } = await keyed.service.app.inject({ method, url: `/sign-in/${key}` });
      expect([statusCode, headers['set-cookie']]).toEqual([200, undefined]);
      expect(headers).toMatchObject({ 'cache-control': 'no-store', 'referrer-policy': 'strict-origin' });
      expect(headers['content-security-policy']).toContain("form-action 'self'");
      expect(headers['content-security-policy']).not.toContain('script');
    }
    const { body } = await ask(`/sign-in/${key}`);
    expect(wordsOf(body)).toContain('This link is for Ana <b>');
    // 90 days after March 2, in the evening at the site.
    expect(wordsOf(body)).toContain('Crew: North block, pit 1, until May 31, 2026.');
    expect(body.match(/<button/g)).toHaveLength(1);
    expect(body).not.toContain(key);
    const spanish = await ask(`/sign-in/${key}?lang=es&fbclid=added-by-a-messenger`);
    expect(wordsOf(spanish.body)).toContain('Este enlace es para Ana <b>');
    expect(wordsOf(spanish.body)).toContain('hasta el 31 de mayo de 2026');
  });

  it('at the press of its button sets the cookie and leads on, and the cookie is the key', async () => {
    const key = await crew();
    const pressed = await ask(`/sign-in/${key}?lang=es`, OWN, 'POST');
    expect(pressed.statusCode).toBe(303);
    expect(pressed.headers).toMatchObject({ location: '/?lang=es', 'cache-control': 'no-store' });
    expect(pressed.headers['set-cookie']).toMatch(
      new RegExp(`^pitward=${key}; Max-Age=34560000; Path=/; HttpOnly; SameSite=Lax$`),
    );
    const cookie = `pitward=${key}`;
    for (const url of ['/', '/sites/north-block', '/v1/sites', '/v1/sites/north-block/windows'])
      for (const _ of ['made', 'kept'])
        expect([url, (await ask(url, { cookie })).statusCode]).toEqual([url, 200]);
    expect((await ask('/v1/contacts', { cookie })).statusCode).toBe(403);
    const who = await ask('/sign-in', { cookie });
    expect(wordsOf(who.body)).toContain('Signed in as Ana');
    expect(who.body).toContain('action="/sign-out"');
  });

  it('for one site leads to that site', async () => {
    const key = await keyed.mint({ sites: ['ridge-block'] });
    expect((await ask(`/sign-in/${key}`, OWN, 'POST')).headers['location']).toBe('/sites/ridge-block');
  });

  it('by HTTPS through the proxy that is trusted sets a cookie for HTTPS, and takes no other', async () => {
    const key = await crew();
    const proxied = (
      url: string,
      headers: Record<string, string>,
      remoteAddress: string,
      method: 'GET' | 'POST',
    ) =>
      keyed.service.app.inject({
        ...{ method, url, remoteAddress },
        headers: { host: 'pits.example', 'x-forwarded-proto': 'https', ...headers },
      });
    const { headers } = await proxied(`/sign-in/${key}`, OWN, '10.0.0.2', 'POST');
    expect(headers['set-cookie']).toMatch(
      /^__Host-pitward=pw_\S+; Max-Age=\d+; Path=\/; HttpOnly; SameSite=Lax; Secure$/,
    );
    const status = async (cookie: string, from = '10.0.0.2') =>
      (await proxied('/v1/sites/north-block/windows', { cookie }, from, 'GET')).statusCode;
    expect(await status(`__Host-pitward=${key}`)).toBe(200);
    expect(await status(`pitward=${key}`)).toBe(401);
    // Whoever is no proxy of ours may say of himself what he likes.
    const untrusted = await proxied(`/sign-in/${key}`, OWN, '198.51.100.7', 'POST');
    expect(untrusted.headers['set-cookie']).toMatch(/^pitward=/);
    expect(await status(`__Host-pitward=${key}`, '198.51.100.7')).toBe(401);
  });

  it('that is unknown, has ended or was taken back is answered alike', async () => {
    const key = await crew();
    const dead = [
      `pw_abcdefgh_${'A'.repeat(43)}`,
      `${key.slice(0, -2)}AA`,
      await keyed.mint({ expiresAtMs: NOW_MS }),
      await keyed.mint({ revokedAtMs: NOW_MS }),
      'nonsense',
      `${key}x`,
      key.slice(0, 20),
    ];
    const told = new Set<string>();
    for (const link of dead)
      for (const method of ['GET', 'POST'] as const) {
        const { statusCode, headers, body } = await ask(`/sign-in/${link}`, OWN, method);
        const { 'x-request-id': _id, date: _date, ...rest } = headers;
        told.add(JSON.stringify([statusCode, rest, body]));
        expect(statusCode).toBe(404);
        expect(headers['set-cookie']).toBeUndefined();
      }
    expect(told.size).toBe(1);
    expect(wordsOf([...told][0] ?? '')).toContain('Ask the office for a new link');
    const pasted = await ask('/sign-in', OWN, 'POST', { key: dead[0] });
    expect([pasted.statusCode, pasted.headers['set-cookie']]).toEqual([404, undefined]);
  });

  it('or a key can be put into a field instead', async () => {
    const key = await crew();
    for (const text of [key, ` https://pits.example/sign-in/${key}?lang=es `]) {
      const { statusCode, headers } = await ask('/sign-in', OWN, 'POST', { key: text });
      expect([statusCode, headers['location']]).toEqual([303, '/']);
      expect(headers['set-cookie']).toContain(`pitward=${key};`);
    }
    expect((await ask('/sign-in', OWN, 'POST', {})).statusCode).toBe(404);
  });

  it.each([{}, { origin: 'https://evil.example' }, { 'sec-fetch-site': 'cross-site' }])(
    'is pressed by nobody elsewhere: %j',
    async (heads) => {
      const { statusCode, headers } = await ask(`/sign-in/${await crew()}`, heads as never, 'POST');
      expect([statusCode, headers['set-cookie']]).toEqual([403, undefined]);
    },
  );
});

describe('the cookie of a key', () => {
  it('that is revoked is no longer one, at once, and the page says what to do', async () => {
    const key = await crew();
    const cookie = `pitward=${key}`;
    expect((await ask('/', { ...PAGE, cookie })).statusCode).toBe(200);
    await keyed.store.keys.revoke(key.slice(3, 11), NOW_MS, {
      ...{ atMs: NOW_MS, organisation: 'own', who: 'test', what: 'key-revoked' },
      ...{ subject: key.slice(3, 11), detail: null },
    });
    await keyed.service.mirror.sync();
    for (const url of ['/', '/v1/sites/north-block/windows', '/nowhere']) {
      const { statusCode, body } = await ask(url, { ...PAGE, cookie });
      expect([url, statusCode]).toEqual([url, 401]);
      expect(wordsOf(body)).toContain('Ask the office for one');
    }
    expect(wordsOf((await ask('/sign-in', { cookie })).body)).toContain('Sign in first');
  });

  it('is taken away by signing out, though the key has ended', async () => {
    const key = await keyed.mint({ revokedAtMs: NOW_MS });
    for (const cookie of [`pitward=${key}`, `pitward=${await crew()}`]) {
      const { statusCode, headers } = await ask('/sign-out?lang=es', { cookie, ...OWN }, 'POST');
      expect([statusCode, headers['location']]).toEqual([303, '/sign-in?lang=es&out=1']);
      expect(headers['set-cookie']).toMatch(/^pitward=; Max-Age=0; Path=\/; HttpOnly; SameSite=Lax$/);
    }
    expect(wordsOf((await ask('/sign-in?out=1')).body)).toContain('This phone is signed out.');
  });

  it('does not count beside a key that the request itself shows', async () => {
    const cookie = `pitward=${await keyed.mint({ scopes: ['admin'] })}`;
    const bearer = (key: string) => ({ cookie, authorization: `Bearer ${key}` });
    expect((await ask('/v1/contacts', bearer(await crew()))).statusCode).toBe(403);
    expect((await ask('/v1/contacts', bearer(`pw_abcdefgh_${'A'.repeat(43)}`))).statusCode).toBe(401);
    expect((await ask('/v1/contacts', { cookie })).statusCode).toBe(200);
  });
});

describe('who asks without a key', () => {
  it.each(['/', '/sites/north-block', '/docs', '/sites/nowhere', '/nowhere', '/v1/sites'])(
    'for %s in a browser gets a page that explains the link, and no box for a password',
    async (url) => {
      const { statusCode, headers, body } = await ask(url, PAGE);
      expect([statusCode, headers['content-type']]).toEqual([401, 'text/html; charset=utf-8']);
      expect(headers['www-authenticate']).toBe('Bearer realm="Pitward"');
      expect(headers).toMatchObject({ 'x-frame-options': 'DENY', 'x-content-type-options': 'nosniff' });
      expect(wordsOf(body)).toContain('Open the personal link that the office sent you');
      expect(body).not.toContain('North block');
    },
  );

  it('from a script of a page gets no box either', async () => {
    for (const heads of [{ 'sec-fetch-mode': 'cors' }, { cookie: 'pitward=gone' }]) {
      const { statusCode, headers, body } = await ask('/v1/sites', heads as never);
      expect([statusCode, headers['www-authenticate']]).toEqual([401, 'Bearer realm="Pitward"']);
      expect(JSON.parse(body).code).toBe('unauthorized');
    }
  });

  it('as a program is told of Basic and Bearer', async () => {
    const { headers, body } = await ask('/v1/sites');
    expect(headers['www-authenticate']).toEqual([
      expect.stringMatching(/^Basic /),
      expect.stringMatching(/^Bearer /),
    ]);
    expect(JSON.parse(body).code).toBe('unauthorized');
  });

  it('and tries many links, cookies or keys is slowed down', async () => {
    const rateLimits = { keyPerMin: 5, addressPerMin: 3, loopbackPerMin: 1 };
    const slow = await startKeyed(NOW, { server: { rateLimits } });
    const from = (
      url: string,
      remoteAddress: string,
      headers: Record<string, string> = {},
      method: 'GET' | 'POST' = 'GET',
    ) => slow.service.app.inject({ method, url, remoteAddress, headers });
    const statuses = async (url: string, address: string, headers = {}, method: 'GET' | 'POST' = 'GET') => {
      const found: number[] = [];
      for (let i = 0; i < 4; i += 1) found.push((await from(url, address, headers, method)).statusCode);
      return found;
    };
    expect(await statuses('/sign-in/guessed', '198.51.100.1')).toEqual([404, 404, 404, 429]);
    expect(await statuses('/sign-in/guessed', '198.51.100.2', OWN, 'POST')).toEqual([404, 404, 404, 429]);
    expect(await statuses('/', '198.51.100.3', { cookie: `pitward=pw_abcdefgh_${'A'.repeat(43)}` })).toEqual([
      401, 401, 401, 429,
    ]);
    await slow.close();
  });
});
