// The log of events of a running service: what a crew, the wind, an office and the forecast did, read on as programs do.

import { expect, it } from 'vitest';
import { DAY_MS, MINUTE_MS } from '#core/units/time.ts';
import { type EventAnswer, eventsSchema } from '#publish/wire-events.ts';
import { createEventDesk } from '#service/event-desk.ts';
import { eventOf } from '../../builders/store.ts';
import { startKeyed } from '../keyed.ts';
import { startBurning, startForTest, TEN, TURNED } from './start-burning.ts';
import { SITE, type WatchedDemo } from './watched-demo.ts';

const read = async (demo: WatchedDemo, query = '') => {
  const { status, body } = await demo.api('GET', `/v1/events${query}`);
  expect(status, JSON.stringify(body)).toBe(200);
  return eventsSchema.parse(body);
};

const told = (events: readonly EventAnswer[]) => events.map(({ type, text }) => `${type}: ${text}`);

it('tells a shift in its order: lit, the wind that turned, the ban, covered; each once, with where and until when', async () => {
  const demo = await startBurning();
  demo.pass(5);
  await demo.reads(TURNED);
  await demo.minute();
  const [burn] = (await demo.api('GET', `${SITE}/burns`)).body['burns'] as { id: string }[];
  const ban = {
    name: 'Burn ban',
    issuer: 'County fire warden',
    sites: 'all',
    from: '2026-04-14',
    verdict: 'stop',
  };
  expect((await demo.api('POST', '/v1/orders', ban)).status).toBe(201);
  await demo.minute();
  // Tapped without signal: it comes late, with its own time.
  demo.pass(30);
  const tappedAt = new Date(demo.clock.nowMs - 20 * MINUTE_MS).toISOString();
  for (const tap of ['put-out-early', 'covered'])
    expect(
      (await demo.api('POST', `${SITE}/burns/${burn?.id}/taps`, { tap, by: 'Ana', at: tappedAt })).body,
    ).toMatchObject({ state: tap });
  await demo.minute();

  const { events, more, missingUpTo } = await read(demo);
  expect([more, missingUpTo]).toEqual([false, null]);
  const ids = events.map(({ id }) => Number(id));
  expect(ids).toEqual(ids.toSorted((a, b) => a - b));
  expect(new Set(ids).size).toBe(ids.length);
  const types = events.map(({ type }) => type);
  for (const type of ['burn-lit', 'notice-raised', 'order-added', 'verdict-changed', 'burn-covered'] as const)
    expect(types).toContain(type);
  expect(types.indexOf('burn-lit')).toBeLessThan(types.indexOf('notice-raised'));
  expect(types.indexOf('order-added')).toBeLessThan(types.indexOf('burn-covered'));
  expect(types.filter((type) => type === 'burn-lit')).toHaveLength(1);

  const turned = events.find(({ data }) => data['code'] === 'smoke-turned-to-place');
  expect(turned).toMatchObject({ type: 'notice-raised', site: 'north-block', verdict: 'stop' });
  expect(turned?.place).toEqual({ lat: 36.438, lon: -120.231 });
  expect(Date.parse(turned?.validUntil ?? '')).toBeGreaterThan(Date.parse(turned?.at ?? ''));
  const covered = events.find(({ type }) => type === 'burn-covered');
  expect(covered).toMatchObject({ subject: burn?.id, validUntil: null, verdict: null });
  expect(Date.parse(String(covered?.data['tappedAt']))).toBe(Date.parse(tappedAt));
  expect(Date.parse(covered?.at ?? '')).toBe(demo.clock.nowMs);
  const added = events.find(({ type }) => type === 'order-added');
  expect(added).toMatchObject({
    site: null,
    place: null,
    subject: 'burn-ban',
    text: expect.stringContaining('Burn ban'),
  });
  expect(told(events).filter((line) => line.endsWith(': '))).toEqual([]);
});

it('read on in small pieces by type and site gives the same as in one, and nothing twice', async () => {
  const demo = await startBurning();
  await demo.reads(TURNED);
  await demo.minute();
  const all = (await read(demo, '?most=1000')).events;
  expect(all.length).toBeGreaterThan(2);
  for (const filter of ['', '&types=burn-lit,notice-raised', '&site=north-block', '&types=forecast-stale']) {
    const found: EventAnswer[] = [];
    let after = '0';
    for (let more = true; more; ) {
      const page = await read(demo, `?after=${after}&most=1${filter}`);
      expect(page.events.length).toBeLessThanOrEqual(1);
      expect(Number(page.next)).toBeGreaterThanOrEqual(Number(after));
      found.push(...page.events);
      ({ next: after, more } = page);
    }
    expect(found).toEqual((await read(demo, `?most=1000${filter}`)).events);
    // And then nothing until something happens.
    expect((await read(demo, `?after=${after}${filter}`)).events).toEqual([]);
  }
  const inSpanish = await read(demo, '?lang=es&types=burn-lit');
  expect(told(inSpanish.events)[0]).toMatch(/^burn-lit: Encendida: .* marcado por Ana\.$/);
});

it('what comes while it is read comes with the next reading, whole', async () => {
  const demo = await startForTest(TEN);
  const { events } = demo.store;
  const desk = createEventDesk({
    ...events,
    async ends() {
      const ends = await events.ends();
      await demo.store.commit({ events: [eventOf('own/north-block'), eventOf('own/north-block')] });
      return ends;
    },
  });
  const viewer = {
    organisation: 'own',
    sites: ['north-block'],
    scopes: new Set(['read'] as const),
    name: 'k',
  };
  const positions: number[] = [];
  let after = 0;
  for (let i = 0; i < 4; i += 1) {
    const seen = await desk.after(viewer, { after, most: 100, siteKey: null, kinds: null });
    positions.push(...seen.events.map(({ position }) => position));
    after = seen.next;
  }
  expect(positions).toEqual(Array.from({ length: after }, (_, i) => i + 1));
  expect(after).toBeGreaterThan(6);
});

it('says what is missing of a log whose old end was dropped, and refuses a place in it that is not there yet', async () => {
  const demo = await startForTest(TEN);
  await demo.reads();
  await demo.lights();
  const { next } = await read(demo);
  demo.pass((500 * DAY_MS) / MINUTE_MS);
  await demo.store.care.expire({
    plansMs: 400 * DAY_MS,
    claimsMs: DAY_MS,
    repliesMs: DAY_MS,
    burnsMs: 2000 * DAY_MS,
    observationsMs: 2000 * DAY_MS,
    auditMs: 2000 * DAY_MS,
  });
  expect(await read(demo, '?after=0')).toMatchObject({ events: [], missingUpTo: next });
  expect(await read(demo)).toMatchObject({ events: [], missingUpTo: null });
  expect(await read(demo, `?after=${next}`)).toMatchObject({ events: [], missingUpTo: null });
  for (const query of [`?after=${Number(next) + 1}`, '?after=-1', '?types=wind', '?most=0', '?upto=3'])
    expect((await demo.api('GET', `/v1/events${query}`)).status).toBe(400);
});

it('a key that sees one site reads the events of that one, and orders that are for it', async () => {
  const running = await startKeyed('2026-03-03T18:10:00Z');
  try {
    const admin = await running.mint({ scopes: ['admin'] });
    const narrow = await running.mint({ scopes: ['read'], sites: ['creek-block'] });
    const ask = async (method: 'GET' | 'POST', url: string, key: string, payload?: object) => {
      const headers = { authorization: `Bearer ${key}` };
      const response = await running.service.app.inject({
        ...{ method, url, headers },
        ...(payload ? { payload } : {}),
      });
      return { status: response.statusCode, body: response.json() };
    };
    for (const id of ['north-block', 'creek-block'])
      expect((await ask('POST', `/v1/sites/${id}/burns`, admin, { tap: 'lit', by: 'Ana' })).status).toBe(201);
    const order = { issuer: 'County', from: '2026-03-03', verdict: 'stop' };
    for (const [id, sites] of [
      ['north', ['north-block']],
      ['creek', ['creek-block']],
      ['both', 'all'],
    ])
      expect((await ask('POST', '/v1/orders', admin, { ...order, name: id, sites })).status).toBe(201);
    const seen = async (key: string, query = '') =>
      (await ask('GET', `/v1/events?types=burn-lit,order-added${query}`, key)).body.events.map(
        (e: EventAnswer) => `${e.type} ${e.site ?? e.subject}`,
      );
    expect(await seen(admin)).toEqual([
      'burn-lit north-block',
      'burn-lit creek-block',
      'order-added north',
      'order-added creek',
      'order-added both',
    ]);
    expect(await seen(narrow)).toEqual(['burn-lit creek-block', 'order-added creek', 'order-added both']);
    expect(await seen(admin, '&site=north-block')).toEqual([
      'burn-lit north-block',
      'order-added north',
      'order-added both',
    ]);
    expect((await ask('GET', '/v1/events?site=north-block', narrow)).status).toBe(404);
    // It is told what was for it, and not for whom else; what it cannot see neither comes nor goes for it.
    const orders = async (key: string) =>
      (await ask('GET', '/v1/events?types=order-added,order-changed,order-lifted', key)).body.events;
    const change = async (id: string, sites: unknown) => {
      const { etag = '' } = (
        await running.service.app.inject({
          url: `/v1/orders/${id}`,
          headers: { authorization: `Bearer ${admin}` },
        })
      ).headers;
      const headers = { authorization: `Bearer ${admin}`, 'if-match': String(etag) };
      const request = { url: `/v1/orders/${id}`, headers };
      const { statusCode } = await running.service.app.inject(
        sites === null
          ? { ...request, method: 'DELETE' }
          : { ...request, method: 'PUT', payload: { ...order, name: id, sites } },
      );
      expect(statusCode).toBeLessThan(300);
    };
    await change('creek', ['creek-block', 'north-block']);
    await change('creek', ['north-block']);
    await change('north', null);
    await change('both', null);
    const told = (await orders(narrow)).map((e: EventAnswer) => {
      const { body, before } = e.data as Record<string, { sites: unknown } | null>;
      return [e.type, e.subject, body?.sites ?? null, before?.sites ?? null];
    });
    expect(told).toEqual([
      ['order-added', 'creek', ['creek-block'], null],
      ['order-added', 'both', 'all', null],
      ['order-changed', 'creek', ['creek-block'], ['creek-block']],
      ['order-changed', 'creek', [], ['creek-block']],
      ['order-lifted', 'both', null, 'all'],
    ]);
    expect(await orders(admin)).toHaveLength(7);
  } finally {
    await running.close();
  }
});
