// Messages for dispatch centres of a running service, read back as others read them: libxml2 with the OASIS schema (CAP 1.2),
// an XML parser with our rules, an Atom reader (RFC 4287).

import { parseAtomFeed } from 'feedsmith';
import { expect, it } from 'vitest';
import type { CapAlert } from '#core/cap/cap-alert.ts';
import { ownCapFaults } from '#core/cap/cap-rules.ts';
import { startKeyed } from '../keyed.ts';
import { startBurning, TURNED } from '../watch/start-burning.ts';
import { SITE, type WatchedDemo } from '../watch/watched-demo.ts';
import { readAlert, schemaFaults } from './read-cap.ts';

const get = (demo: Pick<WatchedDemo, 'service'>, url: string, headers: Record<string, string> = {}) =>
  demo.service.app.inject({ url, headers });

interface Read {
  readonly url: string;
  readonly text: string;
  readonly alert: CapAlert;
}

/** All messages of the index, oldest first. */
async function readFeed(demo: Pick<WatchedDemo, 'service'>): Promise<Read[]> {
  const { statusCode, body } = await get(demo, '/v1/cap.atom');
  expect(statusCode).toBe(200);
  const { entries = [] } = parseAtomFeed(body);
  const read: Read[] = [];
  for (const { links } of entries.toReversed()) {
    const url = links?.[0]?.href ?? '';
    const { body: text } = await get(demo, url);
    read.push({ url, text, alert: readAlert(text) });
  }
  return read;
}

const codeOf = ({ alert }: Read): string =>
  alert.infos[0]?.parameters.find(([name]) => name === 'pitward:code')?.[1] ?? 'burn';

it('tells a shift: lit, smoke onto the road, over, covered; each valid by the schema and by our rules, its chain right', async () => {
  const demo = await startBurning();
  await demo.reads(TURNED);
  await demo.minute();
  demo.pass(2);
  expect((await readFeed(demo)).length).toBeGreaterThan(1);
  for (let i = 0; i < 12; i += 1) {
    demo.pass(5);
    await demo.reads();
    await demo.minute();
  }
  const [burn] = (await demo.api('GET', `${SITE}/burns`)).body['burns'] as { id: string }[];
  for (const tap of ['burning-down', 'covered']) {
    demo.pass(1);
    await demo.api('POST', `${SITE}/burns/${burn?.id}/taps`, { tap, by: 'Ana' });
  }
  const read = await readFeed(demo);
  expect(await schemaFaults(read.map(({ text }) => text))).toEqual([]);
  expect(read.flatMap(({ alert }) => ownCapFaults(alert))).toEqual([]);

  const smoke = read.filter((r) => codeOf(r) === 'smoke-turned-to-place').map(({ alert }) => alert);
  expect(smoke.map(({ msgType }) => msgType)[0]).toBe('Alert');
  const [raised] = smoke;
  const ended = smoke.at(-1);
  expect(raised?.infos[0]).toMatchObject({
    language: 'en-US',
    categories: ['Met', 'Fire', 'Env'],
    urgency: 'Immediate',
    severity: 'Moderate',
    certainty: 'Observed',
    responseType: 'Execute',
  });
  expect(raised?.incidents).toEqual([burn?.id]);
  expect(raised).toMatchObject({ status: 'Exercise', scope: 'Restricted' });
  expect(ended?.infos[0]).toMatchObject({ urgency: 'Past' });
  expect(['AllClear', 'Monitor']).toContain(ended?.infos[0]?.responseType);
  expect(ended?.references.at(-1)?.identifier).toBe(smoke.at(-2)?.identifier);

  // Latitude first; the smoke of a wind from 290° goes to about 110°: east and a little south of the pit.
  const [area] = raised?.infos[0]?.areas ?? [];
  expect(area?.circles[0]?.at).toEqual([36.438, -120.231]);
  const edge = area?.polygons[0]?.slice(1, -1) ?? [];
  const [lat, lon] = edge[Math.floor(edge.length / 2)] ?? [0, 0];
  expect(lat).toBeLessThan(36.438);
  expect(lat).toBeGreaterThan(36.4);
  expect(lon).toBeGreaterThan(-120.231);
  const numbers = Object.fromEntries(raised?.infos[0]?.parameters ?? []);
  expect(numbers).toMatchObject({
    'pitward:windFromDeg': '290',
    'pitward:verdict': 'stop',
    'pitward:basis': 'observed',
  });
  expect(Date.parse(numbers['pitward:asOf'] ?? '')).toBeLessThanOrEqual(Date.parse(raised?.sent ?? ''));

  const burns = read.filter((r) => codeOf(r) === 'burn').map(({ alert }) => alert);
  expect(burns.map(({ msgType }) => msgType)).toEqual(['Alert', 'Update', 'Update']);
  expect(burns.at(-1)?.references).toHaveLength(2);
  expect(burns.map(({ infos }) => infos[1]?.language)).toEqual(['es-US', 'es-US', 'es-US']);
});

it('a message keeps its bytes and its name, whatever happens after; both routes answer 304', async () => {
  const demo = await startBurning();
  const [first] = await readFeed(demo);
  const url = first?.url ?? '';
  const { headers, body } = await get(demo, url);
  expect(headers['content-type']).toContain('application/cap+xml');
  const again = await get(demo, url, { 'if-none-match': String(headers['etag']) });
  expect([again.statusCode, again.body]).toEqual([304, '']);
  const feed = await get(demo, '/v1/cap.atom');
  expect(feed.headers['content-type']).toContain('application/atom+xml');
  const same = await get(demo, '/v1/cap.atom', { 'if-none-match': String(feed.headers['etag']) });
  expect(same.statusCode).toBe(304);
  const { headers: was, body: definition } = await get(demo, `${SITE}/definition`);
  const moved = await demo.service.app.inject({
    method: 'PUT',
    url: SITE,
    headers: { 'if-match': String(was['etag']) },
    payload: { ...JSON.parse(definition).body, name: 'Another name' },
  });
  expect(moved.statusCode).toBe(200);
  await demo.reads(TURNED);
  await demo.minute();
  expect((await get(demo, url)).body).toBe(body);
  const named = await get(demo, '/v1/cap.atom', { 'if-none-match': String(feed.headers['etag']) });
  expect(named.statusCode).toBe(200);
  const urls = (await readFeed(demo)).map((r) => r.url);
  expect(new Set(urls).size).toBe(urls.length);
  expect(urls).toContain(url);
});

it('what stands is told again before its message expires, and an expired one is never the last word', async () => {
  const demo = await startBurning();
  for (let i = 0; i < 16; i += 1) {
    demo.pass(10);
    await demo.reads(TURNED);
    await demo.minute();
    await demo.service.cap.publish();
    const nowMs = demo.clock.nowMs;
    for (const head of await demo.store.cap.open('own')) expect(head.expiresMs).toBeGreaterThan(nowMs);
  }
  const smoke = (await readFeed(demo)).filter((r) => codeOf(r) === 'smoke-turned-to-place');
  expect(smoke.length).toBeGreaterThan(2);
  const alerts = smoke.map(({ alert }) => alert);
  expect(alerts.map(({ msgType }) => msgType)).toEqual(['Alert', ...alerts.slice(1).map(() => 'Update')]);
  expect(await schemaFaults(smoke.map(({ text }) => text))).toEqual([]);
});

it('two who publish the same events at once publish each once', async () => {
  const demo = await startBurning();
  await demo.reads(TURNED);
  await demo.minute();
  await Promise.all([demo.service.cap.publish(), get(demo, '/v1/cap.atom'), get(demo, '/v1/cap.atom')]);
  const read = await readFeed(demo);
  const told = read.map((r) => JSON.stringify(r.alert.infos[0]?.parameters));
  expect(new Set(told).size).toBe(told.length);
});

it('a key for one site sees the messages of that one', async () => {
  const running = await startKeyed('2026-03-03T18:10:00Z');
  try {
    const admin = await running.mint({ scopes: ['admin'] });
    const narrow = await running.mint({ scopes: ['read'], sites: ['creek-block'] });
    const other = await running.mint({ scopes: ['read'], organisation: 'elsewhere' });
    const ask = (key: string, url: string, payload?: object) =>
      running.service.app.inject({
        ...{ method: payload ? 'POST' : 'GET', url, headers: { authorization: `Bearer ${key}` } },
        ...(payload ? { payload } : {}),
      });
    for (const id of ['north-block', 'creek-block'])
      expect((await ask(admin, `/v1/sites/${id}/burns`, { tap: 'lit', by: 'Ana' })).statusCode).toBe(201);
    const urlsOf = async (key: string) =>
      (parseAtomFeed((await ask(key, '/v1/cap.atom')).body).entries ?? []).map(
        (e) => e.links?.[0]?.href ?? '',
      );
    const siteOf = async (url: string) =>
      readAlert((await ask(admin, url)).body).infos[0]?.parameters.find(
        ([name]) => name === 'pitward:site',
      )?.[1];
    const all = await urlsOf(admin);
    const own = await urlsOf(narrow);
    const creek: string[] = [];
    for (const url of all) if ((await siteOf(url)) === 'creek-block') creek.push(url);
    expect(own.length).toBeGreaterThan(0);
    expect(own).toEqual(creek);
    expect(all.length).toBeGreaterThan(own.length);
    expect(await urlsOf(other)).toEqual([]);
    for (const url of all) {
      expect((await ask(narrow, url)).statusCode).toBe(own.includes(url) ? 200 : 404);
      expect((await ask(other, url)).statusCode).toBe(404);
    }
  } finally {
    await running.close();
  }
});
