// Every route that changes something, asked with the cookie of somebody who may: only a page of ours is believed, and a
// request that says nothing of where it comes from is refused. OWASP Cross-Site Request Forgery Prevention (Fetch Metadata,
// verifying origin); RFC 6454, 7.3. Programs that send their key themselves are not concerned: see every-route.test.ts.

import { afterAll, describe, expect, it } from 'vitest';
import { startKeyed } from '../../service/keyed.ts';
import { contactBody, type FittingRequest, fittingRequest, hookBody } from './fitting-request.ts';
import { make, makeOwn, makeWatched } from './made-targets.ts';
import { type RegisteredRoute, withRoutes } from './registered-routes.ts';

const { made: keyed, routesOf } = await withRoutes(() =>
  startKeyed('2026-03-03T01:10:00Z', { server: { trustProxy: ['127.0.0.1'] } }),
);
const { app } = keyed.service;
afterAll(() => keyed.close());
const READS = new Set(['GET', 'HEAD', 'OPTIONS']);
const ROUTES = routesOf(app);
const CHANGES = ROUTES.filter(({ method }) => !READS.has(method));

const admin = await keyed.mint({ scopes: ['admin'] });
const authorization = `Bearer ${admin}`;
for (const [url, payload] of [
  ['/v1/orders', { name: 'Standing order', issuer: 'county', from: '2026-04-01' }],
  ['/v1/contacts', contactBody('crew-lead')],
] as const) {
  const { statusCode } = await app.inject({ method: 'POST', url, payload, headers: { authorization } });
  expect(statusCode).toBe(201);
}
const TARGETS = {
  site: 'north-block',
  limitSet: 'valley',
  order: 'standing-order',
  contact: 'crew-lead',
  channel: 'text',
  subscription: (await make(keyed, admin, '/v1/subscriptions', hookBody)).id,
  key: admin,
  ...(await makeWatched(keyed, admin, 'north-block', 'crew-lead')),
};

const HOST = 'pits.example';
const ask = ({ headers, ...request }: FittingRequest, more: Record<string, string>) =>
  app.inject({
    ...(request as { method: 'GET'; url: string }),
    headers: { host: HOST, ...headers, ...more },
  });

const cookie = `pitward=${admin}`;
const secure = { cookie: `__Host-pitward=${admin}`, 'x-forwarded-proto': 'https' };
const REFUSED: readonly (readonly [string, Record<string, string>])[] = [
  ['that says nothing', { cookie }],
  ['of another site', { cookie, 'sec-fetch-site': 'cross-site' }],
  ['of another host of the domain', { cookie, 'sec-fetch-site': 'same-site', origin: `http://${HOST}` }],
  ['of no page', { cookie, 'sec-fetch-site': 'none' }],
  ['of another origin', { cookie, origin: 'https://evil.example' }],
  ['of another port', { cookie, origin: `http://${HOST}:81` }],
  ['of an origin that is held back', { cookie, origin: 'null' }],
  ['of a page in the clear', { ...secure, origin: `http://${HOST}` }],
  ['by HTTPS that says nothing', secure],
];
const TAKEN: readonly (readonly [string, Record<string, string>])[] = [
  ['of our own page', { cookie, 'sec-fetch-site': 'same-origin', origin: `http://${HOST}` }],
  ['of our own page by an older browser', { cookie, origin: `http://${HOST}` }],
  ['of our own page by HTTPS', { ...secure, origin: `https://${HOST}` }],
];

const nameOf = ({ method, url }: RegisteredRoute): string => `${method} ${url}`;

describe.each(CHANGES.map((route, i) => [nameOf(route), route, `kept-${i}`] as const))(
  '%s',
  (_, route, own) => {
    const made = async (name: string): Promise<FittingRequest> => {
      const { headers, ...rest } = fittingRequest(
        route,
        name,
        await makeOwn(keyed, admin, route, name, TARGETS),
      );
      const { 'sec-fetch-site': _own, ...kept } = headers ?? {};
      return { ...rest, headers: kept };
    };

    it('with the cookie is refused to a request of anybody else, and changes nothing', async () => {
      const request = await made(own);
      const kept = async () => JSON.stringify(await keyed.store.definitions.current());
      const before = await kept();
      for (const [who, heads] of REFUSED) {
        const { statusCode, headers } = await ask(request, heads);
        expect([who, statusCode, headers['set-cookie']]).toEqual([who, 403, undefined]);
      }
      expect(await kept()).toBe(before);
    });

    it.each(TAKEN)('with the cookie is taken %s', async (who, heads) => {
      const { statusCode, body } = await ask(await made(`${own}-${who.length}`), heads);
      expect([statusCode, statusCode < 400 ? '' : body]).toEqual([
        expect.toSatisfy((s) => s >= 200 && s < 400),
        '',
      ]);
    });
  },
);

it('every form of a page is sent to one of these', async () => {
  const kinds = ['limits', 'orders', 'sites', 'contacts'];
  const addresses = [
    ...[
      '/',
      '/board',
      '/sites/north-block',
      '/sites/north-block/now',
      `/a/${TARGETS.token}`,
      '/sign-in',
      `/sign-in/${admin}`,
    ],
    ...kinds.map((kind) => `/settings/${kind}`),
    ...[
      '/settings',
      '/settings/limits/valley',
      '/settings/sites/north-block',
      '/settings/contacts/crew-lead',
    ],
  ];
  const patterns = CHANGES.filter(({ method }) => method === 'POST').map(
    ({ url }) => new RegExp(`^${url.replaceAll(/:\w+/g, '[^/]+')}$`),
  );
  const found: string[] = [];
  for (const url of addresses) {
    const { body } = await app.inject({ url, headers: { host: HOST, cookie } });
    for (const [, attributes = ''] of body.matchAll(/<form\b([^>]*)>/g)) {
      const action = /action="([^"]*)"/.exec(attributes)?.[1] ?? url;
      const path = new URL(action.replaceAll('&amp;', '&'), `http://${HOST}${url}`).pathname;
      // What asks for something changes nothing.
      if (attributes.includes('method="get"')) continue;
      expect(attributes).toContain('method="post"');
      expect([path, patterns.some((pattern) => pattern.test(path))]).toEqual([path, true]);
      found.push(path);
    }
  }
  expect(new Set(found)).toEqual(
    new Set([
      `/a/${TARGETS.token}`,
      `/sign-in/${admin}`,
      '/sign-out',
      '/sites/north-block/now',
      '/sites/north-block/readings',
      ...kinds.map((kind) => `/settings/${kind}`),
    ]),
  );
});
