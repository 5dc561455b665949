// Which burn a smoke may come from, asked of the running service. The pit lies at 36.438, -120.231; the mast reads a wind from
// 210, so that smoke goes toward 30.

import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { startBurning, startForTest, TEN } from './start-burning.ts';
import { SITE, type WatchedDemo } from './watched-demo.ts';

const PIT = [36.438, -120.231] as const;
const placeAt = (azimuthDeg: number, distanceM: number): string => {
  const { lat2, lon2 } = geographiclib.Geodesic.WGS84.Direct(...PIT, azimuthDeg, distanceM);
  return `${(lat2 ?? 0).toFixed(6)},${(lon2 ?? 0).toFixed(6)}`;
};
const DOWNWIND = placeAt(30, 5000);
const UPWIND = placeAt(210, 5000);

interface Source {
  readonly site: string;
  readonly why: string;
  readonly distanceM: number;
  readonly bearing: number;
  readonly beside: number | null;
  readonly state: string;
  readonly text: string;
  readonly smoke: Record<string, unknown> | null;
}

interface Sources {
  readonly covers: readonly Source[];
  readonly cannotExclude: readonly Source[];
  readonly outside: readonly Source[];
  readonly beyond: number;
  readonly time: string;
}

async function ask(demo: WatchedDemo, at: string, time?: number | string): Promise<Sources> {
  const when = typeof time === 'number' ? new Date(time).toISOString() : time;
  const query = new URLSearchParams({ at, ...(when === undefined ? {} : { time: when }) });
  const { status, body } = await demo.api('GET', `/v1/smoke-sources?${query}`);
  expect(status, JSON.stringify(body)).toBe(200);
  return body as unknown as Sources;
}

describe('which burn a smoke comes from', () => {
  it('is the one whose smoke goes that way, with distance, bearing and whose word it is', async () => {
    const demo = await startBurning();
    const { covers, cannotExclude, outside } = await ask(demo, DOWNWIND);
    expect([cannotExclude, outside]).toEqual([[], []]);
    expect(covers).toMatchObject([
      {
        site: 'north-block',
        why: 'sector',
        state: 'lit',
        distanceM: expect.closeTo(5000, -2),
        bearing: 30,
        beside: 0,
        smoke: { kind: 'toward', toward: 30, halfWidth: 20, source: 'observed', station: 'mast' },
      },
    ]);
    expect(covers[0]?.text).toContain('read by mast at 10:00 am');
  });

  it('upwind it is not, and says why', async () => {
    const demo = await startBurning();
    const { covers, cannotExclude, outside } = await ask(demo, UPWIND);
    expect([covers, cannotExclude]).toEqual([[], []]);
    expect(outside).toMatchObject([{ why: 'outside', beside: 180 }]);
    expect(outside[0]?.text).toContain('went elsewhere');
  });

  it('a calm excludes it no more, and a mast that falls silent leaves it to the forecast', async () => {
    const demo = await startBurning();
    demo.pass(5);
    const time = new Date(demo.clock.nowMs).toISOString();
    await demo.api('POST', `${SITE}/observations`, { station: 'mast', time, windSpeed: '0 mph' });
    demo.pass(5);
    await demo.api('POST', `${SITE}/observations`, {
      station: 'mast',
      time: new Date(demo.clock.nowMs).toISOString(),
      windSpeed: '0 mph',
    });
    const { cannotExclude } = await ask(demo, UPWIND);
    expect(cannotExclude).toMatchObject([{ why: 'calm' }]);
    demo.pass(90);
    const later = await ask(demo, UPWIND);
    const [one] = [...later.covers, ...later.cannotExclude, ...later.outside];
    expect(one?.smoke).toMatchObject({ source: 'forecast' });
  });

  it('asked of a past moment it goes by what was so then, whatever is so now', async () => {
    const demo = await startBurning();
    const thenMs = demo.clock.nowMs;
    demo.pass(55);
    await demo.reads({ fromDeg: 30 });
    demo.pass(5);
    await demo.reads({ fromDeg: 30 });
    demo.pass(65);
    await demo.reads({ fromDeg: 30 });
    expect((await ask(demo, UPWIND)).covers).toMatchObject([{ smoke: { toward: 210 } }]);
    const before = await ask(demo, UPWIND, thenMs);
    expect([before.covers, before.outside]).toMatchObject([[], [{ smoke: { toward: 30 } }]]);
    expect(before.time).toBe('2026-04-14T10:05:00-07:00');
  });

  it('without a reading it goes by the forecast that was known then, not by one that came since', async () => {
    const demo = await startForTest(TEN);
    await demo.lights();
    demo.pass(20);
    const thenMs = demo.clock.nowMs;
    const madeAt = ({ covers, cannotExclude, outside }: Sources) =>
      [...covers, ...cannotExclude, ...outside][0]?.smoke?.['madeAt'];
    const first = madeAt(await ask(demo, DOWNWIND));
    expect(first).toMatch(/^2026-04-14T/);
    demo.pass(120);
    await demo.service.keeper.pullAll();
    expect(madeAt(await ask(demo, DOWNWIND))).not.toBe(first);
    expect(madeAt(await ask(demo, DOWNWIND, thenMs))).toBe(first);
  });

  it('far away it cannot be excluded by the wind of the last hour: smoke there left with an earlier one', async () => {
    const demo = await startBurning();
    const reads = async (times: number, fromDeg: number) => {
      for (let i = 0; i < times; i += 1) {
        demo.pass(5);
        await demo.reads({ fromDeg, mph: 11 });
      }
    };
    await reads(4, 270);
    // 66 min ago it went round to the north.
    await reads(14, 360);
    const far = await ask(demo, placeAt(90, 60_000));
    expect([far.covers, far.outside]).toEqual([[], []]);
    expect(far.cannotExclude).toMatchObject([
      {
        ...{ why: 'earlier-wind', bearing: 90, distanceM: expect.closeTo(60_000, -3) },
        text: expect.stringMatching(
          /^In the last hour its smoke went elsewhere: .* smoke of earlier winds\. The/,
        ),
      },
    ]);
    const { body } = await demo.api('GET', `/v1/smoke-sources?at=${placeAt(90, 60_000)}&lang=es`);
    expect(JSON.stringify(body)).toContain('puede haber humo de vientos anteriores');
    expect((await ask(demo, placeAt(90, 3000))).outside).toMatchObject([{ why: 'outside' }]);
  });

  it('covered, it is looked at for as long as its smoke drifts to the place', async () => {
    const demo = await startForTest(TEN);
    await demo.reads();
    const id = await demo.lights();
    demo.pass(10);
    await demo.api('POST', `${SITE}/burns/${id}/taps`, { tap: 'covered', by: 'Ana' });
    demo.pass(150);
    const count = async (distanceM: number) =>
      (await ask(demo, placeAt(30, distanceM))).cannotExclude.map(({ state }) => state);
    // 2 h and what 1.5 m/s takes to get there: 11 min, and more than 5 h.
    expect(await count(1000)).toEqual([]);
    expect(await count(30_000)).toEqual(['covered']);
    demo.pass(6 * 60);
    expect(await count(30_000)).toEqual([]);
  });

  it('before it was lit it is none, and covered it is one that cannot be excluded, for a while', async () => {
    const demo = await startForTest(TEN);
    await demo.reads();
    demo.pass(10);
    const unlitMs = demo.clock.nowMs;
    demo.pass(10);
    await demo.reads();
    const id = await demo.lights();
    demo.pass(10);
    const burningMs = demo.clock.nowMs;
    demo.pass(10);
    await demo.api('POST', `${SITE}/burns/${id}/taps`, { tap: 'covered', by: 'Ana' });
    demo.pass(10);
    await demo.reads();
    const count = ({ covers, cannotExclude, outside }: Sources) =>
      [covers, cannotExclude, outside].map((l) => l.length);
    expect(count(await ask(demo, DOWNWIND, unlitMs))).toEqual([0, 0, 0]);
    expect(count(await ask(demo, DOWNWIND, burningMs))).toEqual([1, 0, 0]);
    const { cannotExclude } = await ask(demo, DOWNWIND);
    expect(cannotExclude).toMatchObject([{ why: 'covered', state: 'covered' }]);
    demo.pass(180);
    expect(count(await ask(demo, DOWNWIND))).toEqual([0, 0, 0]);
  });

  it('a pit lit again after its cover burns, also at the moment of the cover between', async () => {
    const demo = await startForTest(TEN);
    await demo.reads();
    const id = await demo.lights();
    demo.pass(10);
    await demo.api('POST', `${SITE}/burns/${id}/taps`, { tap: 'covered', by: 'Ana' });
    demo.pass(10);
    const betweenMs = demo.clock.nowMs;
    demo.pass(10);
    await demo.api('POST', `${SITE}/burns/${id}/taps`, { tap: 'lit', by: 'Ana' });
    demo.pass(5);
    await demo.reads();
    expect((await ask(demo, DOWNWIND, betweenMs)).cannotExclude).toMatchObject([{ why: 'covered' }]);
    expect((await ask(demo, DOWNWIND)).covers).toMatchObject([{ state: 'lit' }]);
  });

  it('far away it is only counted', async () => {
    const demo = await startBurning();
    expect(await ask(demo, '71.29,-156.79')).toMatchObject({ covers: [], outside: [], beyond: 1 });
  });

  it.each([
    ['at=county road', 'at'],
    ['', 'at'],
    [`at=${DOWNWIND}&time=yesterday`, 'time'],
    [`at=${DOWNWIND}&time=2026-04-14T18:00:00Z`, 'time'],
    [`at=${DOWNWIND}&near=5`, 'near'],
  ])('?%s is refused', async (query, path) => {
    const demo = await startForTest(TEN);
    const { status, body } = await demo.api('GET', `/v1/smoke-sources?${query}`);
    expect([status, body['code']]).toEqual([400, 'bad_query']);
    expect(JSON.stringify(body)).toContain(path);
  });
});
