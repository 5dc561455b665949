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

  it('are incomplete while they fail and are left alone for it, and known again within ten minutes of their return', async () => {
    const paths = [fake.POINT_ALERTS, fake.FIRE_ALERTS, fake.ZONE_ALERTS, fake.COUNTY_ALERTS];
    const found = await service(
      Object.fromEntries(paths.map((path) => [path, failing(500, 'UnexpectedProblem')])),
    );
    const complete = async () => (await found.source.pull(PLACE)).alerts.complete;
    for (let minute = 0; minute < 30; minute += 1) {
      expect(await complete()).toBe(false);
      found.clock.advance(60_000);
    }
    expect(found.source.lines()).toContainEqual(
      expect.objectContaining({ kind: 'alerts', leftAloneSinceMs: START_MS }),
    );
    const asked = found.paths().filter((path) => path.startsWith('/alerts')).length;
    expect(asked).toBeLessThan(30);
    for (const path of paths) found.routes[path] = list();
    const backMs = found.clock.nowMs();
    while (!(await complete())) found.clock.advance(60_000);
    expect(found.clock.nowMs() - backMs).toBeLessThanOrEqual(600_000);
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

  const CANCELLED = `${fake.FIRE_ALERTS}&message_type=cancel`;
  /** How many alerts stand after a pull with the warning, and at each of these minutes after it without. */
  async function standing(minutes: readonly number[], cancelled: unknown[]) {
    const found = await service({ [fake.FIRE_ALERTS]: list(warning), [CANCELLED]: list(...cancelled) });
    await found.source.pull(PLACE);
    found.routes[fake.FIRE_ALERTS] = list();
    const counts: number[] = [];
    for (const minute of minutes) {
      found.clock.advance(START_MS + minute * 60_000 - found.clock.nowMs());
      counts.push((await found.source.pull(PLACE)).alerts.alerts.length);
    }
    return { counts, paths: found.paths() };
  }

  it('keep one that is gone from the list without a word, for an hour (api#75)', async () => {
    const { counts, paths } = await standing([5, 25, 45, 64, 65], []);
    expect(counts).toEqual([1, 1, 1, 1, 0]);
    expect(paths).toContain(CANCELLED);
  });

  it('end one at once that a message cancels, which is asked for only then', async () => {
    const cancel = alert({ id: 'C', messageType: 'Cancel', replaces: ['A'], vtec: [vtec('CAN')] });
    const { counts, paths } = await standing([5, 25], [cancel]);
    expect(counts).toEqual([0, 0]);
    expect(paths.filter((path) => path === CANCELLED)).toHaveLength(1);
  });

  it.each([
    ['for another alert', alert({ id: 'C', messageType: 'Cancel', replaces: ['B'], vtec: [vtec('CAN')] })],
    [
      'for other land',
      alert({ id: 'C', messageType: 'Cancel', replaces: ['A'], zones: ['fire/XXZ999'], vtec: [vtec('CAN')] }),
    ],
    ['that is a test', alert({ id: 'C', messageType: 'Cancel', replaces: ['A'], status: 'Test' })],
  ])('keep one where a message cancels %s', async (_, cancel) => {
    expect((await standing([5, 25], [cancel])).counts).toEqual([1, 1]);
  });

  it('keep one where what is cancelled cannot be read', async () => {
    const found = await service({
      [fake.FIRE_ALERTS]: list(warning),
      [CANCELLED]: failing(400, 'BadRequest'),
    });
    await found.source.pull(PLACE);
    found.routes[fake.FIRE_ALERTS] = list();
    found.clock.advance(5 * 60_000);
    const { alerts } = await found.source.pull(PLACE);
    expect([alerts.alerts.length, alerts.complete]).toEqual([1, true]);
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
