// The maps of a running service: what they say is what the JSON routes say, where it lies.

import { check } from '@placemarkio/check-geojson';
import { geoContains } from 'd3-geo';
import type { Polygon } from 'geojson';
import { expect, it } from 'vitest';
import { noticeMapSchema, siteMapSchema, smokeMapSchema } from '#publish/wire-geo.ts';
import { startRunning } from '../running.ts';
import { startBurning, startForTest, TEN, TURNED } from './start-burning.ts';
import { SITE, type WatchedDemo } from './watched-demo.ts';

async function mapOf(demo: Pick<WatchedDemo, 'service'>, url: string): Promise<unknown> {
  const { statusCode, headers, body } = await demo.service.app.inject({ url });
  expect([statusCode, headers['content-type']]).toEqual([200, 'application/geo+json; charset=utf-8']);
  // Throws where another reader finds fault (RFC 7946).
  check(body);
  return JSON.parse(body);
}

it('sites stand where they lie with the times of their plan, and with the verdict of the watch where it is worse', async () => {
  const demo = await startForTest(TEN);
  await demo.reads();
  const plan = (await demo.api('GET', `${SITE}/plan`)).body;
  const { features } = siteMapSchema.parse(await mapOf(demo, '/v1/sites.geojson'));
  expect(features).toHaveLength(1);
  const { lightUp, lightUpBy, lastCharge, coveredBy } = plan;
  expect(features[0]).toMatchObject({
    id: 'north-block',
    geometry: { type: 'Point', coordinates: [-120.231, 36.438] },
    properties: { verdict: 'go', unknown: false, burn: null, lightUp, lightUpBy, lastCharge, coveredBy },
  });
  await demo.lights();
  demo.pass(5);
  await demo.reads(TURNED);
  await demo.minute();
  const now = siteMapSchema.parse(await mapOf(demo, '/v1/sites.geojson')).features[0];
  expect(now?.properties).toMatchObject({ verdict: 'stop', burn: 'lit' });
});

it('before anything is known every site is a hold of which nobody can say more', async () => {
  const running = await startRunning(TEN, undefined, false);
  try {
    const { features } = siteMapSchema.parse(await mapOf(running, '/v1/sites.geojson'));
    expect(features.length).toBeGreaterThan(1);
    for (const { properties } of features)
      expect(properties).toMatchObject({ verdict: 'hold', unknown: true, day: null, lightUp: null });
  } finally {
    await running.close();
  }
});

it('smoke of an open burn is a sector of the wind at the pit, or the pit alone where nobody can say which way', async () => {
  const demo = await startBurning();
  await demo.reads({ fromDeg: 270 });
  const smoke = async (query = '') =>
    smokeMapSchema.parse(await mapOf(demo, `/v1/smoke.geojson${query}`)).features;
  const [sector] = await smoke('?reachM=8000');
  expect(sector?.properties).toMatchObject({ site: 'north-block', state: 'lit', reachM: 8000 });
  const { toward, source } = sector?.properties.smoke ?? {};
  expect([Math.abs((toward ?? 0) - 90) < 20, source]).toEqual([true, 'observed']);
  const { coordinates } = (sector?.geometry ?? { coordinates: [] }) as Polygon;
  const area: Polygon = { type: 'Polygon', coordinates: coordinates.map((ring) => ring.toReversed()) };
  expect([geoContains(area, [-120.18, 36.438]), geoContains(area, [-120.28, 36.438])]).toEqual([true, false]);
  demo.pass(60);
  await demo.reads({ mph: 0, gustMph: 0 });
  const [calm] = await smoke();
  expect([calm?.geometry?.type, calm?.properties.smoke?.kind, calm?.properties.reachM]).toEqual([
    'Point',
    'calm',
    null,
  ]);
  expect((await demo.service.app.inject({ url: '/v1/smoke.geojson?reachM=5' })).statusCode).toBe(400);
});

it('notices stand at their pits and say what the list of them says', async () => {
  const demo = await startBurning();
  await demo.reads(TURNED);
  await demo.minute();
  const listed = (await demo.api('GET', '/v1/notices?lang=es')).body['notices'] as object[];
  const { features } = noticeMapSchema.parse(await mapOf(demo, '/v1/notices.geojson?lang=es'));
  expect(listed.length).toBeGreaterThan(0);
  expect(features.map(({ properties: { name: _, ...told } }) => told)).toEqual(listed);
  expect(new Set(features.map(({ id }) => id)).size).toBe(features.length);
});
