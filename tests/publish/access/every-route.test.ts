// Every route, asked by everybody: who may is what the OpenAPI document says (OpenAPI 3.1, Security Requirement Object), and
// nothing is registered that it does not name. OWASP API Security Top 10 2023: API2 (who asks), API5 (what may they do).

import { afterAll, describe, expect, it } from 'vitest';
import { makePhoneFiles } from '#publish/served/phone-files.ts';
import { SCOPES, type Scope } from '#store/api-key.ts';
import { startKeyed } from '../../service/keyed.ts';
import { openGround } from '../../tiles/open-ground.ts';
import { contactBody, type FittingRequest, fittingRequest, hookBody } from './fitting-request.ts';
import { injected } from './injected.ts';
import { make, makeOwn, makeWatched } from './made-targets.ts';
import { NOT_IN_THE_DOCUMENT } from './not-in-the-document.ts';
import { type RegisteredRoute, withRoutes } from './registered-routes.ts';

const NOW = '2026-03-03T01:10:00Z';
const NOW_MS = Date.parse(NOW);

const ground = await openGround();
const { made: keyed, routesOf } = await withRoutes(() => startKeyed(NOW, { server: ground.server }));
const { app, desk } = keyed.service;
afterAll(async () => {
  await keyed.close();
  await ground.close();
});
const ROUTES = routesOf(app);

const ask = (request: FittingRequest, authorization: string | null) =>
  injected(app, {
    ...(request as { method: 'GET'; url: string }),
    headers: { ...request.headers, ...(authorization === null ? {} : { authorization }) },
  });

const bearer = (key: string): string => `Bearer ${key}`;
const basic = (user: string, password: string): string =>
  `Basic ${Buffer.from(`${user}:${password}`).toString('base64')}`;

const admin = await keyed.mint({ scopes: ['admin'] });
const payload = { name: 'Standing order', issuer: 'county', from: '2026-04-01' };
const standing = await ask({ method: 'POST', url: '/v1/orders', payload }, bearer(admin));
expect(standing.statusCode).toBe(201);

const lead = await ask(
  { method: 'POST', url: '/v1/contacts', payload: contactBody('crew-lead') },
  bearer(admin),
);
expect(lead.statusCode).toBe(201);

const TARGETS = {
  site: 'north-block',
  limitSet: 'valley',
  order: 'standing-order',
  contact: 'crew-lead',
  channel: 'text',
  subscription: (await make(keyed, admin, '/v1/subscriptions', hookBody)).id,
  key: await keyed.mint(),
  feed: await keyed.mint({ scopes: ['calendar'] }),
  ...ground.targets,
  name: makePhoneFiles('0.0.0-test').day.slice('/s/'.length),
  ...(await makeWatched(keyed, admin, 'north-block', 'crew-lead')),
};

/** Nobody that is known: all of these are as good as no key. */
const all = { scopes: SCOPES };
const read = await keyed.mint();
const STRANGERS: Readonly<Record<string, string | null>> = {
  'no key': null,
  'an unknown key': bearer(`pw_${'a'.repeat(8)}_${'A'.repeat(43)}`),
  'the prefix of a known key with other bits': bearer(`${admin.slice(0, 12)}${'A'.repeat(43)}`),
  'a key with its last character changed': bearer(admin.slice(0, -1) + (admin.endsWith('A') ? 'Q' : 'A')),
  'a key that has expired': bearer(await keyed.mint({ ...all, expiresAtMs: NOW_MS })),
  'a key that was revoked': bearer(await keyed.mint({ ...all, revokedAtMs: NOW_MS })),
  'a key as user name of Basic': basic(admin, ''),
  'a key under a scheme of its own': `Pitward ${admin}`,
  'a key without a scheme': admin,
  'the prefix alone': bearer(admin.slice(3, 11)),
  nothing: '',
};

const HOLDERS = new Map<string, { scopes: readonly Scope[]; authorization: string }>();
for (const scope of SCOPES) {
  const key = await keyed.mint({ name: scope, scopes: [scope] });
  HOLDERS.set(`a key to ${scope}`, { scopes: [scope], authorization: bearer(key) });
}
HOLDERS.set('a key to observe, burn and notify', {
  scopes: ['observe', 'burn', 'notify'],
  authorization: bearer(await keyed.mint({ scopes: ['observe', 'burn', 'notify'] })),
});
HOLDERS.set('a key to read, as password of Basic', { scopes: ['read'], authorization: basic('', read) });
HOLDERS.set('a key to read that ends in a second', {
  scopes: ['read'],
  authorization: bearer(await keyed.mint({ expiresAtMs: NOW_MS + 1000 })),
});

interface Operation {
  readonly security?: Record<string, string[]>[];
  readonly responses: Readonly<Record<string, unknown>>;
}

const document = (await ask({ method: 'GET', url: '/openapi.json' }, bearer(read))).json() as {
  paths: Record<string, Record<string, Operation>>;
};

/** `GET /v1/sites/:id` → what the document says of it; HEAD is GET without its body (RFC 9110, 9.3.2). */
function declared({ method, url }: RegisteredRoute): string | null {
  const asked = method === 'HEAD' ? 'GET' : method;
  const operation = document.paths[url.replaceAll(/:(\w+)/g, '{$1}')]?.[asked.toLowerCase()];
  if (!operation) return NOT_IN_THE_DOCUMENT[`${asked} ${url}`] ?? null;
  const { security } = operation;
  if (security === undefined) return null;
  if (security.length === 0) return 'open';
  const [scope = null, ...more] = new Set(security.flatMap((either) => Object.values(either).flat()));
  return more.length === 0 ? scope : null;
}

const nameOf = ({ method, url }: RegisteredRoute): string => `${method} ${url}`;
const mayDo = (scopes: readonly Scope[], scope: string): boolean =>
  scope === 'open' || scopes.some((own) => own === scope || own === 'admin');

describe('the routes that are registered', () => {
  it('are the operations of the document and the few that are not in it, and no others', () => {
    const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((m) => `${m.toUpperCase()} ${path.replaceAll(/\{(\w+)\}/g, ':$1')}`),
    );
    const named = [...operations, ...Object.keys(NOT_IN_THE_DOCUMENT)].sort();
    expect(
      ROUTES.filter(({ method }) => method !== 'HEAD')
        .map(nameOf)
        .sort(),
    ).toEqual(named);
  });

  it('answer HEAD wherever they answer GET', () => {
    const urlsOf = (method: string) => ROUTES.filter((r) => r.method === method).map(({ url }) => url);
    expect(urlsOf('HEAD').sort()).toEqual(urlsOf('GET').sort());
  });

  it.each(ROUTES.map((route) => [nameOf(route), route] as const))('%s declares who may', (_, route) => {
    expect(['open', ...SCOPES]).toContain(declared(route));
    expect(route.scope).toBe(declared(route));
  });

  it('tell in the document that the gate may refuse them, where it may', () => {
    for (const [path, methods] of Object.entries(document.paths))
      for (const { security, responses } of Object.values(methods)) {
        const refusals = ['401', '403', '429'].filter((status) => status in responses);
        expect([path, refusals]).toEqual([path, security?.length === 0 ? [] : ['401', '403', '429']]);
      }
  });

  it('are open only where health is told, where people sign in, to whoever holds a personal link, and for files that are the same for all', () => {
    const open = ROUTES.filter((r) => declared(r) === 'open').map(nameOf);
    const files = ['/s/:name', '/board/s/:file', '/sw.js', '/manifest.webmanifest', '/icon.svg'];
    const urls = [
      '/healthz',
      '/readyz',
      '/v1/calendar/:feed',
      '/a/:token',
      '/sign-in',
      '/sign-in/:key',
      ...files,
    ];
    const reads = urls.flatMap((url) => [`GET ${url}`, `HEAD ${url}`]);
    const changes = ['POST /a/:token', 'POST /sign-in', 'POST /sign-in/:key', 'POST /sign-out'];
    expect(open.sort()).toEqual([...reads, ...changes].sort());
  });

  it('change things for other scopes than read alone, but for a what-if, which keeps nothing', () => {
    const changing = ROUTES.filter(({ method }) => method !== 'GET' && method !== 'HEAD');
    expect(changing.filter((r) => declared(r) === 'read').map(nameOf)).toEqual(['POST /v1/plan']);
  });
});

describe.each(ROUTES.map((route, i) => [nameOf(route), route, `own-${i}`] as const))(
  '%s',
  (_, route, own) => {
    const scope = declared(route) ?? 'none';
    const changes = route.method !== 'GET' && route.method !== 'HEAD';
    const made = async (name: string): Promise<FittingRequest> => {
      const targets = changes ? await makeOwn(keyed, admin, route, name, TARGETS) : TARGETS;
      return fittingRequest(route, name, targets);
    };
    const kept = async () => JSON.stringify(await keyed.store.definitions.current());

    it('is refused to whoever has no live key, and to whoever may not', async () => {
      const request = await made(own);
      const before = await kept();
      for (const [who, authorization] of Object.entries(STRANGERS)) {
        const { statusCode, headers, body } = await ask(request, authorization);
        if (scope === 'open') {
          expect([who, statusCode < 400]).toEqual([who, true]);
          continue;
        }
        expect([who, statusCode]).toEqual([who, 401]);
        expect(headers['www-authenticate']).toEqual([
          expect.stringMatching(/^Basic /),
          expect.stringMatching(/^Bearer /),
        ]);
        expect(body).not.toContain(TARGETS.site);
      }
      for (const [who, { scopes, authorization }] of HOLDERS) {
        if (mayDo(scopes, scope)) continue;
        const { statusCode, body } = await ask(request, authorization);
        expect([who, statusCode]).toEqual([who, 403]);
        if (route.method !== 'HEAD') expect(body).toContain(scope);
      }
      expect(await kept()).toBe(before);
    });

    it('is answered to whoever may', async () => {
      let count = 0;
      for (const [who, { scopes, authorization }] of HOLDERS) {
        if (!mayDo(scopes, scope)) continue;
        count += 1;
        const { statusCode, body } = await ask(await made(`${own}-by-${count}`), authorization);
        expect([who, statusCode, statusCode >= 400 ? body : '']).toEqual([
          who,
          expect.toSatisfy((s) => (s >= 200 && s < 300) || (s === 303 && !route.url.startsWith('/v1/'))),
          '',
        ]);
      }
      // At the least an admin.
      expect(count).toBeGreaterThan(0);
    });
  },
);

describe('an address that is not there', () => {
  it.each(['GET', 'HEAD', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS', 'TRACE', 'PROPFIND'])(
    'asks for a key like one that is: %s',
    async (method) => {
      for (const url of ['/v1/nowhere', '/v1/sites/north-block/nowhere', '/wp', '/v1/sites/'])
        for (const authorization of Object.values(STRANGERS))
          expect([url, (await ask({ method, url }, authorization)).statusCode]).toEqual([url, 401]);
      const { statusCode } = await ask({ method, url: '/v1/nowhere' }, bearer(admin));
      expect(statusCode).toBe(404);
    },
  );

  it('is no way round: other writings of an address find the same route or none', async () => {
    const writings = [
      '//v1/sites',
      '/v1//sites',
      '/V1/sites',
      '/v1/sites/',
      '/%761/sites',
      '/v1/./sites',
      '/v1/sites;a',
      '/v1/sites%2f',
      '/./v1/sites',
      '/v1/sites?',
      '/v1/sites#x',
    ];
    for (const url of writings) {
      const { statusCode } = await ask({ method: 'GET', url }, null);
      expect([url, statusCode]).toEqual([url, 401]);
    }
  });
});

it('a key in the address, in a cookie or in the body is no key', async () => {
  const key = await keyed.mint({ scopes: ['admin'] });
  const asked = [
    { method: 'GET', url: `/v1/sites?key=${key}` },
    { method: 'GET', url: `/v1/sites?access_token=${key}` },
    { method: 'GET', url: '/v1/sites', headers: { cookie: `key=${key}`, 'x-api-key': key } },
    { method: 'GET', url: '/v1/sites', headers: { 'proxy-authorization': bearer(key) } },
    { method: 'POST', url: '/v1/plan', payload: { access_token: key } },
  ];
  for (const request of asked) expect((await ask(request, null)).statusCode).toBe(401);
});

it('whoever asks without a key is told nothing of sites by the open routes, and whoever may read sees their own', async () => {
  const open = await ask({ method: 'GET', url: '/readyz' }, null);
  expect(Object.keys(open.json()).sort()).toEqual(['demo', 'ready']);
  const burner = await ask({ method: 'GET', url: '/readyz' }, bearer(await keyed.mint({ scopes: ['burn'] })));
  expect(burner.body).toBe(open.body);
  const reader = await ask({ method: 'GET', url: '/readyz' }, bearer(read));
  expect(reader.json().sites.map(({ site }: { site: string }) => site)).toContain('north-block');
  expect(desk.organisation).toBe('own');
});
