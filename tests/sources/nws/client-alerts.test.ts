// The source against a stand-in for the service (reference, parts C and D, and section 2): the alerts, and sources
// that cannot be set up.

import { describe, expect, it } from 'vitest';
import { createNwsSource } from '#sources/nws/client.ts';
import { alert, vtec } from './alert-fixture.ts';
import * as fake from './fake-service.ts';

const { failing, json, PLACE, POINT, pointAnswer, service, START_MS } = fake;

describe('the alerts of a pull', () => {
  const list = (...features: unknown[]) => json({ type: 'FeatureCollection', features });
  const warning = alert({ id: 'A', vtec: [vtec('NEW')] });

  it('come from the fire zone though the point query has none (api#109)', async () => {
    const { source } = await service({ [fake.FIRE_ALERTS]: list(warning) });
    const { alerts } = await source.pull(PLACE);
    expect(alerts.alerts.map(({ id, possible }) => [id, possible])).toEqual([['A', false]]);
  });

  it.each([[fake.POINT_ALERTS], [fake.FIRE_ALERTS], [fake.ZONE_ALERTS], [fake.COUNTY_ALERTS]])(
    'are incomplete where %s fails, and the pull succeeds',
    async (path) => {
      const found = fake.FIRE_ALERTS === path ? fake.POINT_ALERTS : fake.FIRE_ALERTS;
      const { source } = await service({ [path]: failing(400, 'BadRequest'), [found]: list(warning) });
      const { alerts, forecast } = await source.pull(PLACE);
      expect(alerts.complete).toBe(false);
      expect(alerts.alerts).toHaveLength(1);
      expect(forecast.faults).toEqual([]);
    },
  );

  it.each([
    ['cannot be read', json('{"features":')],
    ['is no list', json({ properties: {} })],
    [
      'has a further page',
      json({ features: [], pagination: { next: 'https://api.weather.gov/alerts?cursor=x' } }),
    ],
  ])('are incomplete where an answer %s', async (_, route) => {
    const { source } = await service({ [fake.FIRE_ALERTS]: route });
    expect((await source.pull(PLACE)).alerts.complete).toBe(false);
  });

  it('are incomplete for a place whose fire zone is not known', async () => {
    const { source } = await service({ [POINT]: json(pointAnswer({ fireWeatherZone: null })) });
    expect((await source.pull(PLACE)).alerts.complete).toBe(false);
  });

  it('are as old as the oldest of the answers', async () => {
    const { source, clock } = await service({
      [fake.FIRE_ALERTS]: json({ features: [] }, { 'cache-control': 'max-age=300' }),
    });
    await source.pull(PLACE);
    clock.advance(60_000);
    expect((await source.pull(PLACE)).alerts.fetchedAtMs).toBe(START_MS);
  });

  it('keep one that an answer leaves out once (api#75)', async () => {
    const { source, clock, routes } = await service({ [fake.FIRE_ALERTS]: list(warning) });
    await source.pull(PLACE);
    routes[fake.FIRE_ALERTS] = list();
    const ids: number[] = [];
    for (let pull = 0; pull < 3; pull += 1) {
      clock.advance(60_000 * 2);
      ids.push((await source.pull(PLACE)).alerts.alerts.length);
    }
    expect(ids).toEqual([1, 1, 0]);
  });

  it('are told where one is left out', async () => {
    const { source, log } = await service({ [fake.POINT_ALERTS]: list(alert({ id: 'T', status: 'Test' })) });
    await source.pull(PLACE);
    expect(log.lines.at(-1)).toMatchObject({ level: 'info', facts: { id: 'T', reason: 'not-actual' } });
  });
});

describe('a source that cannot be set up', () => {
  const options = {
    nowMs: () => 0,
    sleep: () => Promise.resolve(),
    random: () => 0,
    log: { info: () => undefined, warn: () => undefined },
  };

  it.each([[''], ['  '], ['a\r\nb'], ['ops@exämple.org']])('with contact %j is config_invalid', (contact) => {
    expect(() => createNwsSource({ ...options, contact })).toThrow(
      expect.objectContaining({ code: 'config_invalid' }),
    );
  });

  it.each([['ftp://x'], ['api.weather.gov'], ['https://']])(
    'with base URL %s is config_invalid',
    (baseUrl) => {
      expect(() => createNwsSource({ ...options, contact: 'ops@example.org', baseUrl })).toThrow(
        expect.objectContaining({ code: 'config_invalid' }),
      );
    },
  );
});
