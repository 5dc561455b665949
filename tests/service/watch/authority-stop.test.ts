// A site that an authority has put on stop: its issuer stands on every surface, the crew is told, and nothing but lifting it
// ends it.

import { extractText, getDocumentProxy } from 'unpdf';
import { expect, it } from 'vitest';
import { wordsOf } from '../../publish/page/read-page.ts';
import { startKeyed } from '../keyed.ts';
import { startBurning, startForTest, TEN } from './start-burning.ts';
import { CREW, OFFICE, SITE, type WatchedDemo } from './watched-demo.ts';

const ISSUER = 'Fern County fire';
const REASON = 'Smoke on the highway';
const ORDER = { kind: 'authority-stop', name: REASON, issuer: ISSUER, sites: ['north-block'] };

const put = async (demo: WatchedDemo, order: object = ORDER): Promise<string> => {
  const { status, body } = await demo.api('POST', '/v1/orders', order);
  expect([status, body['fault'] ?? null]).toEqual([201, null]);
  return String(body['id']);
};

const lift = async (demo: WatchedDemo, id: string): Promise<void> => {
  const { headers } = await demo.service.app.inject({ url: `/v1/orders/${id}` });
  const request = {
    method: 'DELETE',
    url: `/v1/orders/${id}`,
    headers: { 'if-match': String(headers['etag']) },
  };
  expect((await demo.service.app.inject(request as { method: 'DELETE' })).statusCode).toBe(204);
};

it('stands with its issuer on every surface, in both languages, and is nothing less than a stop', async () => {
  const demo = await startBurning();
  await put(demo);
  demo.pass(1);
  await demo.minute();
  const texts = [
    `${SITE}/plan`,
    `${SITE}/windows`,
    `${SITE}/now`,
    '/v1/notices',
    '/v1/events?most=1000',
    '/sites/north-block',
    '/sites/north-block/now',
    '/sites/north-block/sheet',
    '/',
    '/board',
  ];
  for (const lang of ['en', 'es'])
    for (const url of texts) {
      const { body, statusCode } = await demo.service.app.inject({
        url: `${url}${url.includes('?') ? '&' : '?'}lang=${lang}`,
      });
      expect([url, statusCode]).toEqual([url, 200]);
      expect(body.includes(ISSUER), `${url} in ${lang} names ${ISSUER}`).toBe(true);
    }
  const { rawPayload } = await demo.service.app.inject({ url: '/sites/north-block/sheet.pdf' });
  const { text } = await extractText(await getDocumentProxy(new Uint8Array(rawPayload)), {
    mergePages: true,
  });
  expect(text.replaceAll(/\s+/g, ' ')).toContain(ISSUER);
  const now = (await demo.api('GET', `${SITE}/now`)).body;
  expect(now).toMatchObject({ verdict: 'stop', unknown: false });
  expect(now['text']).toContain(ISSUER);
  const { windows } = (await demo.api('GET', `${SITE}/windows`)).body as { windows: { verdict: string }[] };
  expect(new Set(windows.map(({ verdict }) => verdict))).toEqual(new Set(['stop']));
});

it('reaches the crew as a text of one segment that names the issuer, whether or not a pit burns; lifting it is told', async () => {
  for (const start of [startBurning, () => startForTest(TEN)]) {
    const demo = await start();
    await demo.reads();
    await demo.minute();
    for (const number of [CREW, OFFICE]) demo.heardBy(number);
    const id = await put(demo);
    demo.pass(1);
    await demo.minute();
    const [told] = demo.heardBy(CREW);
    expect(told).toContain(ISSUER);
    expect(told?.length).toBeLessThanOrEqual(160);
    expect(demo.heardBy(OFFICE).join()).toContain(ISSUER);
    // Whatever the weather does, it stands.
    demo.pass(10);
    await demo.reads();
    await demo.minute();
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe('stop');
    demo.heardBy(CREW);
    await lift(demo, id);
    for (let i = 0; i < 3; i += 1) {
      demo.pass(5);
      await demo.reads();
      await demo.minute();
    }
    expect(demo.heardBy(CREW).join('\n')).toContain(ISSUER);
    expect((await demo.api('GET', `${SITE}/now`)).body['text']).not.toContain(ISSUER);
  }
});

it('is the reason of the day as it was known then', async () => {
  const demo = await startForTest(TEN);
  await put(demo);
  demo.pass(24 * 60);
  const url = '/sites/north-block/history?day=2026-04-14&at=12:00';
  const words = wordsOf((await demo.service.app.inject({ url })).body);
  const known = words.slice(words.indexOf('As known at 12:00'), words.indexOf('Plans of this day'));
  expect(known).toContain(`Authority stop, ${ISSUER}: ${REASON}.`);
});

it('is told at the end of quiet hours, however long they last, where nothing burns', async () => {
  const quiet = (yaml: string) =>
    yaml.replace('name: Ana, role: crew,', '$& quiet: { from: "09:00", to: "15:00" },');
  const demo = await startForTest(TEN, quiet);
  await demo.reads();
  await demo.minute();
  await put(demo);
  for (let i = 0; i < 9; i += 1) {
    demo.pass(30);
    await demo.minute();
  }
  expect(demo.heardBy(CREW)).toEqual([]);
  demo.pass(31);
  await demo.minute();
  expect(demo.heardBy(CREW).join()).toContain(ISSUER);
});

it('is refused with an end, and as anything less than a stop', async () => {
  const demo = await startForTest(TEN);
  for (const wrong of [{ to: '2026-04-20' }, { verdict: 'hold' }, { issuer: undefined }, { kind: 'ban' }])
    expect((await demo.api('POST', '/v1/orders', { ...ORDER, ...wrong })).status).toBe(400);
});

it('an order for an area holds for the sites that lie there, and is seen by those who may see one of them', async () => {
  const running = await startKeyed('2026-03-03T18:10:00Z');
  try {
    const dispatch = await running.mint({ scopes: ['read', 'notify', 'order'] });
    const creek = await running.mint({ scopes: ['read'], sites: ['creek-block'] });
    const ask = (key: string, method: 'GET' | 'POST', url: string, payload?: object) =>
      running.service.app.inject({
        ...{ method, url, headers: { authorization: `Bearer ${key}` } },
        ...(payload ? { payload } : {}),
      });
    const placeOf = async (id: string): Promise<[number, number]> =>
      (await ask(dispatch, 'GET', `/v1/sites/${id}`)).json().at;
    const [north, south] = [await placeOf('north-block'), await placeOf('creek-block')];
    const ban = { issuer: ISSUER, from: '2026-03-03', verdict: 'stop' };
    const circle = { ...ban, name: 'Circle ban', within: { circle: { at: north, radius: '1 mi' } } };
    const [lat, lon] = south;
    const box = {
      ...ban,
      name: 'Box ban',
      within: { box: { southWest: [lat - 0.01, lon - 0.01], northEast: [lat + 0.01, lon + 0.01] } },
    };
    for (const order of [circle, box])
      expect((await ask(dispatch, 'POST', '/v1/orders', order)).statusCode).toBe(201);
    const bansAt = async (id: string) => {
      const { body } = await ask(dispatch, 'GET', `/v1/sites/${id}/windows?day=2026-03-04`);
      return ['Circle ban', 'Box ban'].filter((name) => body.includes(name));
    };
    expect([await bansAt('north-block'), await bansAt('creek-block')]).toEqual([['Circle ban'], ['Box ban']]);
    const seen = async (url: string) => {
      const { body } = await ask(creek, 'GET', url);
      return ['Circle ban', 'Box ban'].filter((name) => body.includes(name));
    };
    expect(await seen('/v1/orders')).toEqual(['Box ban']);
    expect(await seen('/v1/events?most=1000')).toEqual(['Box ban']);
    for (const within of [
      { circle: { at: north, radius: '0 mi' } },
      { circle: { at: [200, 0], radius: '1 mi' } },
      { box: { southWest: [2, 0], northEast: [1, 0] } },
      {},
    ])
      expect((await ask(dispatch, 'POST', '/v1/orders', { ...circle, within })).statusCode).toBe(400);
    // A dispatch centre posts orders, and changes nothing else.
    const site = { id: 'new-block', name: 'New', at: north, limits: 'valley' };
    expect((await ask(dispatch, 'POST', '/v1/sites', site)).statusCode).toBe(403);
    expect((await ask(creek, 'POST', '/v1/orders', circle)).statusCode).toBe(403);
  } finally {
    await running.close();
  }
});
