// Pages of the watch on a running service: the pit that burns, and the simulated shift of the demonstration.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createPlayDesk } from '#play/create-play-desk.ts';
import { invented } from '../../play/invented-play.ts';
import { type Running, startRunning } from '../running.ts';
import { startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

const TEN = '2026-04-14T17:00:00Z';
const FORM = { 'content-type': 'application/x-www-form-urlencoded' };

describe('the page of a site', () => {
  let demo: WatchedDemo;
  beforeAll(async () => {
    demo = await startWatchedDemo(TEN);
  });
  afterAll(() => demo.close());
  const page = async (query = '') =>
    (await demo.service.app.inject({ url: `/sites/north-block${query}` })).body;

  it('shows what stands at the pit from light-up until it is covered', async () => {
    expect(await page()).not.toContain('At the pit now');
    const lit = await demo.api('POST', '/v1/sites/north-block/burns', {
      tap: 'lit',
      by: 'Ana',
      id: 'tap-lit-page',
    });
    await demo.api('POST', '/v1/sites/north-block/observations', {
      station: 'mast',
      time: new Date(demo.clock.nowMs).toISOString(),
      windSpeed: '9 mph',
      windDirection: 290,
      windGust: '11 mph',
      relativeHumidity: '45 %',
    });
    expect(await page()).toMatch(/At the pit now.*STOP.*county road.*wind 9 mph from WNW \(290°\)/s);
    expect(await page()).toMatch(/<section class="call stop">/);
    expect(await page('?lang=es')).toMatch(/En la fosa ahora.*ALTO.*viento 9 mph del ONO \(290°\)/s);
    await demo.api('POST', `/v1/sites/north-block/burns/${lit.body['id']}/taps`, {
      tap: 'covered',
      by: 'Ana',
    });
    expect(await page()).not.toContain('At the pit now');
  });

  it('is without a simulated shift where the service has none', async () => {
    expect(await page()).not.toContain('/demo/play');
    const asked = await demo.service.app.inject({ url: '/demo/play' });
    const sent = await demo.service.app.inject({
      method: 'POST',
      url: '/demo/play',
      headers: FORM,
      payload: 'seed=1',
    });
    expect([asked.statusCode, sent.statusCode]).toEqual([404, 404]);
  });
});

describe('the page of the simulated shift', () => {
  let running: Running;
  beforeAll(async () => {
    const play = createPlayDesk((seed) => Promise.resolve(invented(seed)));
    running = await startRunning(TEN, undefined, true, { play });
  });
  afterAll(() => running.close());
  const post = (payload: string, headers: Record<string, string> = {}) =>
    running.service.app.inject({
      method: 'POST',
      url: '/demo/play?lang=es',
      headers: { ...FORM, ...headers },
      payload,
    });

  it('is found from the page of a site', async () => {
    const { body } = await running.service.app.inject({ url: '/sites/north-block?lang=es' });
    expect(body).toContain('href="/demo/play?lang=es"');
  });

  it('plays when its button is pressed, and then shows that shift in the language of before', async () => {
    const before = await running.service.app.inject({ url: '/demo/play?seed=12' });
    expect(before.body).toContain('has not been played yet');
    const played = await post('seed=12');
    expect([played.statusCode, played.headers.location]).toEqual([303, '/demo/play?lang=es&seed=12']);
    const { body } = await running.service.app.inject({ url: String(played.headers.location) });
    expect(body).toContain('Lo que pasó');
  });

  it('lets a browser send its form here and nowhere else', async () => {
    const { headers } = await running.service.app.inject({ url: '/demo/play' });
    expect(headers['content-security-policy']).toContain("form-action 'self'");
    expect(headers['referrer-policy']).toBe('same-origin');
    const elsewhere = await post('seed=12', { origin: 'https://elsewhere.example' });
    expect(elsewhere.statusCode).toBe(403);
  });

  it.each(['', 'seed=0', 'seed=10000', 'seed=x', 'seed=1&more=1'])(
    'refuses the form "%s" on a page',
    async (form) => {
      const refused = await post(form);
      expect([refused.statusCode, refused.headers['content-type']]).toEqual([
        400,
        'text/html; charset=utf-8',
      ]);
    },
  );
});
