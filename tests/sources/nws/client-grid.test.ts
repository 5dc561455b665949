// The source against a stand-in for the service (reference, parts C and D, and section 2): what it asks for, and
// grids that are old, unchanged or broken.

import { describe, expect, it } from 'vitest';
import * as fake from './fake-service.ts';

const {
  failing,
  faultOf,
  GRID,
  gridAnswer,
  inTurn,
  json,
  PLACE,
  POINT,
  pointAnswer,
  service,
  START_MS,
  windOf,
} = fake;

describe('a pull', () => {
  it('asks for point, grid, and the alerts of point and zones', async () => {
    const { source, server, paths } = await service();
    const pulled = await source.pull(PLACE);
    expect(paths().slice(0, 2)).toEqual([POINT, GRID]);
    expect(paths().slice(2).sort()).toEqual(
      [fake.POINT_ALERTS, fake.COUNTY_ALERTS, fake.ZONE_ALERTS, fake.FIRE_ALERTS].sort(),
    );
    expect(
      server.seen.every(({ headers }) => headers['user-agent'] === 'Pitward/0.1 (ops@example.org)'),
    ).toBe(true);
    expect(server.seen.every(({ headers }) => headers.accept === 'application/geo+json')).toBe(true);
    expect(pulled.point).toMatchObject({ cell: 'XXX 12,34', timeZone: 'America/New_York', place: PLACE });
    expect(pulled.forecast).toMatchObject({
      source: 'nws',
      cell: 'XXX 12,34',
      fetchedAtMs: START_MS,
      faults: [],
    });
    expect(pulled.forecast.issuedAtMs).toBe(Date.UTC(2026, 2, 2, 17));
    expect(pulled.alerts).toEqual({ fetchedAtMs: START_MS, complete: true, alerts: [] });
    expect(windOf(pulled)).toBe(10);
  });

  it('asks once for a code that two kinds of zone share', async () => {
    const same = pointAnswer({ fireWeatherZone: fake.zones('fire', 'XXZ110') });
    const { source, paths } = await service({ [POINT]: json(same) });
    const { point } = await source.pull(PLACE);
    expect(paths().filter((path) => path === fake.ZONE_ALERTS)).toHaveLength(1);
    expect(point.zones).toHaveLength(3);
  });

  it('writes places with at most four decimals', async () => {
    const { source, paths } = await service();
    await source.pull({ latDeg: 40.61000000000001, lonDeg: -74.03 });
    expect(paths()[0]).toBe(POINT);
  });

  it('of several places keeps them apart', async () => {
    const { source, paths } = await service({ '/points/40.611,-74.03': json(pointAnswer()) });
    await source.pull(PLACE);
    await source.pull({ latDeg: 40.611, lonDeg: -74.03 });
    expect(paths()).toContain('/points/40.611,-74.03');
  });

  it('that is called off rejects', async () => {
    const caller = new AbortController();
    const { source } = await service({ [GRID]: () => caller.abort() });
    const fault = await faultOf(source.pull(PLACE, caller.signal));
    expect(fault).toMatchObject({ code: 'source_unreachable', retryable: true });
  });

  it('ends at its deadline', async () => {
    const { source, clock } = await service({ [GRID]: failing(500, 'UnexpectedProblem') });
    await faultOf(source.pull(PLACE));
    expect(clock.nowMs() - START_MS).toBeLessThan(120_000);
  });
});

describe('a grid that has not changed', () => {
  const unchanged: fake.Route = (response, request) => {
    const headers = {
      'last-modified': 'Mon, 02 Mar 2026 17:00:00 GMT',
      date: 'Mon, 02 Mar 2026 18:20:00 GMT',
    };
    if (request.headers['if-modified-since']) response.writeHead(304, headers).end();
    else json(gridAnswer(0), headers)(response, request, 0);
  };

  it('is confirmed by 304 and keeps the time of its first receipt', async () => {
    const { source, clock } = await service({ [GRID]: unchanged });
    const first = await source.pull(PLACE);
    clock.advance(1_200_000);
    const second = await source.pull(PLACE);
    expect(second.forecast).toEqual(first.forecast);
    expect(second.forecast.fetchedAtMs).toBe(START_MS);
    expect(second.alerts.fetchedAtMs).toBe(START_MS + 1_200_000);
  });

  it('keeps it too where the service sends the same bytes again', async () => {
    const { source, clock } = await service();
    await source.pull(PLACE);
    clock.advance(1_200_000);
    expect((await source.pull(PLACE)).forecast.fetchedAtMs).toBe(START_MS);
  });
});

describe('a grid that is not the newest', () => {
  it('is not taken where an older one comes: ours is kept, and told (api#71)', async () => {
    const { source, log, paths } = await service({
      [GRID]: inTurn(json(gridAnswer(30)), json(gridAnswer(0))),
    });
    await source.pull(PLACE);
    const second = await source.pull(PLACE);
    expect(windOf(second)).toBe(13);
    expect(paths().filter((path) => path === GRID)).toHaveLength(3);
    expect(log.lines.some(({ message }) => message.includes('ours is kept'))).toBe(true);
  });

  it('is asked for once more, and the newer answer taken', async () => {
    const { source, server } = await service({
      [GRID]: inTurn(json(gridAnswer(10)), json(gridAnswer(0)), json(gridAnswer(20))),
    });
    await source.pull(PLACE);
    expect(windOf(await source.pull(PLACE))).toBe(12);
    const again = server.seen.filter(({ path }) => path === GRID)[2];
    expect(again?.headers['accept-language']).toBe('en-US');
    expect(again?.headers['if-modified-since']).toBeUndefined();
  });

  it('is asked for once more where it is more than 8 h old', async () => {
    const { source, clock, paths } = await service({
      [GRID]: inTurn(json(gridAnswer(0)), json(gridAnswer(30))),
    });
    clock.advance(8 * 3_600_000);
    expect(windOf(await source.pull(PLACE))).toBe(13);
    expect(paths().filter((path) => path === GRID)).toHaveLength(2);
  });

  it('is still taken where asking once more fails', async () => {
    const { source, clock } = await service({
      [GRID]: inTurn(json(gridAnswer(0)), failing(404, 'NotFound')),
    });
    clock.advance(8 * 3_600_000);
    expect(windOf(await source.pull(PLACE))).toBe(10);
  });

  it('but dated ahead is taken as it is, and does not bar the next', async () => {
    const ahead = gridAnswer(0, { updateTime: '2026-03-05T13:00:00+00:00' });
    const { source, routes } = await service({ [GRID]: json(ahead) });
    expect((await source.pull(PLACE)).forecast.issuedAtMs).toBe(Date.UTC(2026, 2, 5, 13));
    routes[GRID] = json(gridAnswer(30));
    expect(windOf(await source.pull(PLACE))).toBe(13);
  });

  it('but undated is taken as undated', async () => {
    const { source } = await service({
      [GRID]: inTurn(json(gridAnswer(0)), json(gridAnswer(0, { updateTime: null }))),
    });
    await source.pull(PLACE);
    expect((await source.pull(PLACE)).forecast.issuedAtMs).toBeNull();
  });
});

describe('a grid that cannot be read', () => {
  it('is asked for once more, whole', async () => {
    const broken = json('{"properties":', {
      'last-modified': 'Mon, 02 Mar 2026 17:00:00 GMT',
      date: 'Mon, 02 Mar 2026 18:20:00 GMT',
    });
    const { source, server } = await service({ [GRID]: inTurn(broken, json(gridAnswer(0))) });
    expect(windOf(await source.pull(PLACE))).toBe(10);
    expect(server.seen.filter(({ path }) => path === GRID)[1]?.headers['if-modified-since']).toBeUndefined();
  });

  it('twice is source_unreadable, and the next pull is not stuck with it', async () => {
    const dated = { 'last-modified': 'Mon, 02 Mar 2026 17:00:00 GMT', date: 'Mon, 02 Mar 2026 18:20:00 GMT' };
    const { source, routes, server } = await service({ [GRID]: json('{"properties":', dated) });
    expect((await faultOf(source.pull(PLACE))).code).toBe('source_unreadable');
    routes[GRID] = json(gridAnswer(0));
    expect(windOf(await source.pull(PLACE))).toBe(10);
    const asked = server.seen.filter(({ path }) => path === GRID);
    expect(asked.map(({ headers }) => headers['if-modified-since'])).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });

  it('as HTML with 200 is source_unreadable', async () => {
    const page = json('<html>maintenance</html>', { 'content-type': 'text/html' });
    const { source } = await service({ [GRID]: page });
    expect((await faultOf(source.pull(PLACE))).code).toBe('source_unreadable');
  });
});

describe('a layer whose unit changes between pulls', () => {
  it('is converted by the unit that it has, and told', async () => {
    const inMps = gridAnswer(30, {
      windSpeed: { uom: 'unit:m_s-1', values: [{ validTime: '2026-03-02T18:00:00Z/PT6H', value: 9.26 }] },
    });
    const { source, log } = await service({ [GRID]: inTurn(json(gridAnswer(0)), json(inMps)) });
    await source.pull(PLACE);
    expect(windOf(await source.pull(PLACE))).toBe(9.26);
    expect(log.lines.at(-1)?.facts).toMatchObject({
      layer: 'windSpeed',
      was: 'wmoUnit:km_h-1',
      unit: 'unit:m_s-1',
    });
  });
});
