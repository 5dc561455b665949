// What a key may not see answers like what was never there: the same status, headers and bytes but for the name asked for.
// OWASP API Security Top 10 2023, API1: broken object level authorization.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Keyed, startKeyed } from '../../service/keyed.ts';
import {
  addressOf,
  contactBody,
  hookBody,
  LIMITS,
  orderBody,
  SHIFT,
  siteBody,
  type Targets,
} from './fitting-request.ts';
import { injected } from './injected.ts';
import { make, makeWatched } from './made-targets.ts';
import { type RegisteredRoute, withRoutes } from './registered-routes.ts';

const { made: keyed, routesOf } = await withRoutes<Keyed>(() => startKeyed('2026-03-03T01:10:00Z'));
const { app } = keyed.service;
afterAll(() => keyed.close());

const ALL = ['read', 'observe', 'burn', 'notify', 'admin'] as const;
const own = await keyed.mint({ scopes: ALL });

/** What is there and not theirs, and what is nowhere; names of one length, so that bytes can be compared. */
const THERE: Targets = {
  site: 'ridge-block',
  limitSet: 'hills',
  order: 'ridge-ban',
  contact: 'ridge-lead',
  key: own,
  channel: 'text',
  subscription: (await make(keyed, own, '/v1/subscriptions', hookBody)).id,
  ...(await makeWatched(keyed, own, 'ridge-block', 'ridge-lead')),
};
const mirrored = (text: string): string =>
  text.replaceAll(/[0-9a-f]/g, (digit) => (15 - Number.parseInt(digit, 16)).toString(16));
const NOWHERE: Targets = {
  ...THERE,
  site: 'fudge-block',
  limitSet: 'tulls',
  order: 'fudge-ban',
  contact: 'fudge-lead',
  burn: `burn-${mirrored(THERE.burn.slice(5))}`,
  message: mirrored(THERE.message),
  silence: mirrored(THERE.silence),
  subscription: `hook-${mirrored(THERE.subscription.slice(5))}`,
  cap: `pitward.own.${mirrored(THERE.cap.slice(12))}`,
};

const WHO = {
  'a key of another organisation': await keyed.mint({ scopes: ALL, organisation: 'elsewhere' }),
  'a key for another site': await keyed.mint({ scopes: ALL, sites: ['creek-block'] }),
  'a key of another organisation for a site of the same name': await keyed.mint({
    scopes: ALL,
    organisation: 'beyond',
    sites: ['ridge-block', 'fudge-block'],
  }),
} as const;

async function ask(key: string, method: string, url: string, payload?: object, headers: object = {}) {
  const response = await injected(app, {
    method: method as 'GET',
    url,
    headers: { ...headers, authorization: `Bearer ${key}` },
    ...(payload ? { payload } : {}),
  });
  const { date: _, 'x-request-id': __, ...told } = response.headers;
  return { status: response.statusCode, headers: told, body: response.body };
}

/** The answer with the name asked for taken out. */
async function unnamed(answer: ReturnType<typeof ask>, targets: Targets) {
  const { headers, ...rest } = await answer;
  let text = JSON.stringify({ ...rest, headers: { ...headers, etag: 'etag' in headers } });
  for (const name of Object.values(targets)) if (name !== targets.channel) text = text.replaceAll(name, '*');
  return text;
}

beforeAll(async () => {
  const order = await ask(own, 'POST', '/v1/orders', orderBody('Ridge ban', ['ridge-block']));
  expect([order.status, JSON.parse(order.body).id]).toEqual([201, 'ridge-ban']);
  const lead = await ask(own, 'POST', '/v1/contacts', contactBody('ridge-lead', ['ridge-block']));
  expect(lead.status).toBe(201);
});

/** About one thing that is somebody's. A personal link is for whoever has it; a channel is of whoever runs the service. */
const ONE = routesOf(app).filter(
  ({ url }) => url.includes(':') && !/:token|:channel|:feed|:key|:name/.test(url),
);
const READS = ONE.filter(({ method }) => method === 'GET' || method === 'HEAD');
const nameOf = ({ method, url }: RegisteredRoute): string => `${method} ${url}`;

/** Everything that a change could say: nothing, a revision, that it is new. */
const CONDITIONS = [{}, { 'if-match': '"r1"' }, { 'if-match': '"r2"' }, { 'if-none-match': '*' }];
const bodyFor = (url: string, { site, limitSet, order, contact }: Targets): object => {
  if (/incident/.test(url)) return { reference: 'CAD-1' };
  if (/burns/.test(url)) return { tap: 'charging', by: 'Crew lead' };
  if (/answers/.test(url)) return { answer: 'got-it', by: contact };
  if (url.endsWith('/replay')) return { after: '0' };
  if (url.endsWith('/rotate')) return {};
  if (url.startsWith('/v1/subscriptions')) return hookBody;
  if (/observations/.test(url)) return [{ time: 'now' }];
  if (url.startsWith('/v1/limit-sets')) return LIMITS;
  if (url.startsWith('/v1/contacts')) return contactBody(contact);
  return url.startsWith('/v1/orders') ? orderBody(order) : siteBody(site, limitSet);
};

describe.each(Object.entries(WHO))('to %s', (_, key) => {
  it.each(READS.map((route) => [nameOf(route), route] as const))(
    '%s is there for its owner alone',
    async (__, route) => {
      const of = (targets: Targets) => ask(key, route.method, addressOf(route.url, targets));
      expect(await unnamed(of(THERE), THERE)).toBe(await unnamed(of(NOWHERE), NOWHERE));
      expect((await of(THERE)).status).toBe(404);
      expect((await ask(own, route.method, addressOf(route.url, THERE))).status).toBe(200);
    },
  );

  it.each(ONE.filter((r) => !READS.includes(r)).map((route) => [nameOf(route), route] as const))(
    '%s does not tell that it is there, and changes nothing',
    async (__, { method, url }) => {
      const before = JSON.stringify(await owners());
      for (const condition of CONDITIONS) {
        const change = (targets: Targets) => {
          const payload = method === 'DELETE' ? undefined : bodyFor(url, targets);
          return ask(key, method, addressOf(url, targets), payload, condition);
        };
        expect(await unnamed(change(THERE), THERE)).toBe(await unnamed(change(NOWHERE), NOWHERE));
      }
      expect(JSON.stringify(await owners())).toBe(before);
    },
  );

  it.each([
    '/v1/sites',
    '/v1/limit-sets',
    '/v1/orders',
    '/v1/contacts',
    '/v1/notices',
    '/v1/sites.geojson',
    '/v1/smoke.geojson',
    '/v1/notices.geojson',
    '/v1/silences',
    '/v1/subscriptions',
    '/v1/cap.atom',
    '/',
    '/sites.csv',
    '/readyz',
  ])('%s does not list it', async (url) => {
    const { status, body } = await ask(key, 'GET', url);
    expect(status).toBe(200);
    const { channel: _channel, ...names } = THERE;
    for (const name of [...Object.values(names), 'Ridge block', 'Ridge ban'])
      expect(body).not.toContain(name);
    const { body: owned } = await ask(own, 'GET', url);
    expect(Object.values(names).some((name) => owned.includes(name))).toBe(true);
  });

  it('a what-if names no limit set that is not theirs, and no order', async () => {
    const whatIf = (targets: Targets) =>
      ask(key, 'POST', '/v1/plan?day=2026-04-02', {
        site: { id: targets.site, at: [36.296, -120.342], shift: SHIFT, limits: targets.limitSet },
      });
    expect(await unnamed(whatIf(THERE), THERE)).toBe(await unnamed(whatIf(NOWHERE), NOWHERE));
    const ordered = (site: string) =>
      ask(key, 'POST', '/v1/plan?day=2026-04-02', {
        site: { id: site, at: [36.296, -120.342], shift: SHIFT },
        limits: LIMITS,
      });
    expect(await unnamed(ordered(THERE.site), THERE)).toBe(await unnamed(ordered(NOWHERE.site), NOWHERE));
  });

  it('nor may it speak for them: silence a site, ask for its notices, or say what came in over a channel', async () => {
    const silence = ({ site }: Targets) =>
      ask(key, 'POST', '/v1/silences', { site, minutes: 9, reason: 'not theirs' });
    const notices = ({ site }: Targets) => ask(key, 'GET', `/v1/notices?site=${site}`);
    // Of a site of that name in its own organisation a key may be told that nothing stands there to be silenced.
    for (const asked of [silence, notices]) {
      expect(await unnamed(asked(THERE), THERE)).toBe(await unnamed(asked(NOWHERE), NOWHERE));
    }
    const before = JSON.stringify(await owners());
    for (const text of ['1', 'STOP'])
      expect((await ask(key, 'POST', '/v1/inbound/text', { from: '+15555550123', text })).status).toBe(403);
    expect(JSON.stringify(await owners())).toBe(before);
  });

  it('figures about the whole service are not theirs to see', async () => {
    expect((await ask(key, 'GET', '/metrics')).status).toBe(403);
  });
});

const owners = async () => [
  (await keyed.store.definitions.current()).filter(({ organisation }) => organisation === 'own'),
  await keyed.store.hooks.of('own'),
  await keyed.store.watch.thread(THERE.message),
  await keyed.store.watch.silences(['own/ridge-block'], keyed.clock.nowMs),
  (await ask(own, 'GET', '/v1/sites/ridge-block/burns')).body,
  (await ask(own, 'GET', '/v1/sites/ridge-block/messages')).body,
];

describe('a key for some sites', () => {
  const creek = WHO['a key for another site'];

  it('cannot learn the names of limit sets by trying them on its own site', async () => {
    const { headers } = await ask(creek, 'GET', '/v1/sites/creek-block/definition');
    const condition = { 'if-match': headers['etag'] };
    const change = ({ limitSet }: Targets) =>
      ask(creek, 'PUT', '/v1/sites/creek-block', siteBody('creek-block', limitSet), condition);
    expect(await unnamed(change(THERE), THERE)).toBe(await unnamed(change(NOWHERE), NOWHERE));
    expect((await change(THERE)).status).toBe(400);
  });

  it('sees its site whole, and the orders and limits that hold there', async () => {
    const everywhere = await ask(own, 'POST', '/v1/orders', orderBody('County ban'));
    const two = await ask(own, 'POST', '/v1/orders', orderBody('Two sites', ['creek-block', 'ridge-block']));
    expect([everywhere.status, two.status]).toEqual([201, 201]);
    for (const url of ['windows', 'hours', 'plan', 'definition', 'history'])
      expect((await ask(creek, 'GET', `/v1/sites/creek-block/${url}`)).status).toBe(200);
    expect((await ask(creek, 'GET', '/v1/limit-sets/valley')).status).toBe(200);
    const orders = JSON.parse((await ask(creek, 'GET', '/v1/orders')).body).definitions;
    expect(orders.map(({ id, body }: { id: string; body: { sites: unknown } }) => [id, body.sites])).toEqual([
      ['county-ban', 'all'],
      ['two-sites', ['creek-block']],
    ]);
  });

  it('is not told of an order for others that was taken out again', async () => {
    const made = await ask(own, 'POST', '/v1/orders', orderBody('Short ban', ['ridge-block']));
    expect(made.status).toBe(201);
    expect((await ask(own, 'DELETE', '/v1/orders/short-ban', undefined, { 'if-match': '"r1"' })).status).toBe(
      204,
    );
    expect((await ask(own, 'GET', '/v1/orders/short-ban/history')).status).toBe(200);
    expect((await ask(creek, 'GET', '/v1/orders/short-ban/history')).status).toBe(404);
  });
});

describe('organisations', () => {
  it('may each have a site of the same name, and see their own', async () => {
    const other = await keyed.mint({ scopes: ALL, organisation: 'third' });
    expect((await ask(other, 'POST', '/v1/limit-sets', { gusts: LIMITS })).status).toBe(201);
    const theirs = { ...siteBody('north-block', 'gusts'), name: 'Their north block' };
    expect((await ask(other, 'POST', '/v1/sites', theirs)).status).toBe(201);
    const nameSeen = async (key: string) =>
      JSON.parse((await ask(key, 'GET', '/v1/sites/north-block')).body).name;
    expect([await nameSeen(other), await nameSeen(own)]).toEqual(['Their north block', 'North block, pit 1']);
  });

  it('do not get each other’s replies by an idempotency key', async () => {
    const other = await keyed.mint({ scopes: ALL, organisation: 'fourth' });
    const headers = { 'idempotency-key': 'first-try' };
    const send = (key: string) => ask(key, 'POST', '/v1/limit-sets', { shared: LIMITS }, headers);
    const [mine, theirs] = [await send(own), await send(other)];
    expect([mine.status, theirs.status]).toEqual([201, 201]);
    expect([mine, theirs].map(({ headers: h }) => h['idempotency-replayed'])).toEqual([undefined, undefined]);
    expect((await send(own)).headers['idempotency-replayed']).toBe('true');
  });
});
