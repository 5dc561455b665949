// The source against a stand-in for the service (reference, parts C and D, and section 2): cells that move or go,
// and places without a forecast.

import { describe, expect, it } from 'vitest';
import * as fake from './fake-service.ts';

const { failing, faultOf, GRID, gridAnswer, inTurn, json, PLACE, POINT, pointAnswer, service, windOf } = fake;

describe('the cell of a place', () => {
  const OTHER = '/gridpoints/XXX/13,34';
  const moved = pointAnswer({ gridX: 13 });
  const elsewhere = {
    type: 'Polygon',
    coordinates: [
      [
        [-75.05, 41.6],
        [-75.05, 41.62],
        [-75.02, 41.62],
        [-75.02, 41.6],
        [-75.05, 41.6],
      ],
    ],
  };

  it('is asked for once a day', async () => {
    const { source, clock, paths } = await service({ [GRID]: json(gridAnswer(0)) });
    await source.pull(PLACE);
    clock.advance(86_399_000);
    await source.pull(PLACE);
    expect(paths().filter((path) => path === POINT)).toHaveLength(1);
    clock.advance(1_000);
    await source.pull(PLACE);
    expect(paths().filter((path) => path === POINT)).toHaveLength(2);
  });

  it('serves on where the daily question fails', async () => {
    const { source, clock, said } = await service({
      [POINT]: inTurn(json(pointAnswer()), failing(500, 'UnexpectedProblem')),
    });
    await source.pull(PLACE);
    clock.advance(86_400_000);
    expect(windOf(await source.pull(PLACE))).toBe(10);
    expect(said().some((line) => line.startsWith('cell not renewed'))).toBe(true);
  });

  it('that no longer holds the place is resolved again, and told (wg#756)', async () => {
    const { source, said, routes } = await service({ [OTHER]: json(gridAnswer(30, { gridX: 13 })) });
    await source.pull(PLACE);
    routes[GRID] = json(gridAnswer(10, {}, elsewhere));
    routes[POINT] = json(moved);
    const pulled = await source.pull(PLACE);
    expect(pulled.point.cell).toBe('XXX 13,34');
    expect(windOf(pulled)).toBe(13);
    expect(said()).toContain('the place has another grid cell');
  });

  it('that the service names anew though it lies far off gives no forecast', async () => {
    const { source } = await service({ [GRID]: json(gridAnswer(0, {}, elsewhere)) });
    const fault = await faultOf(source.pull(PLACE));
    expect(fault).toMatchObject({ code: 'source_unreadable', retryable: true });
    expect(fault.message).toContain('does not hold 40.61,-74.03');
  });

  it('that lies a kilometre off is taken and flagged', async () => {
    const near = {
      type: 'Polygon',
      coordinates: [
        [
          [-74.05, 40.62],
          [-74.05, 40.64],
          [-74.02, 40.64],
          [-74.02, 40.62],
          [-74.05, 40.62],
        ],
      ],
    };
    const { source } = await service({ [GRID]: json(gridAnswer(0, {}, near)) });
    const { forecast } = await source.pull(PLACE);
    expect(forecast.faults.map(({ kind }) => kind)).toEqual(['place-outside-cell']);
  });

  it('whose height jumps by more than 300 m is resolved again', async () => {
    const height = (value: number) => ({ elevation: { unitCode: 'wmoUnit:m', value } });
    const { source, paths, routes } = await service();
    await source.pull(PLACE);
    routes[GRID] = json(gridAnswer(10, height(420)));
    await source.pull(PLACE);
    expect(paths().filter((path) => path === POINT)).toHaveLength(1);
    routes[GRID] = json(gridAnswer(20, height(721)));
    await source.pull(PLACE);
    expect(paths().filter((path) => path === POINT)).toHaveLength(2);
  });

  it('that is unknown (404) is resolved again at once, and the new one asked', async () => {
    const { source, routes } = await service({ [OTHER]: json(gridAnswer(30, { gridX: 13 })) });
    await source.pull(PLACE);
    routes[GRID] = failing(404, 'InvalidGridpoint');
    routes[POINT] = json(moved);
    expect((await source.pull(PLACE)).forecast.cell).toBe('XXX 13,34');
  });

  it('that is unknown though just named is asked once more, and is then the fault of the service (api#11)', async () => {
    const flaky = await service({ [GRID]: inTurn(failing(404, 'InvalidPoint'), json(gridAnswer(0))) });
    expect(windOf(await flaky.source.pull(PLACE))).toBe(10);
    const { source, paths } = await service({ [GRID]: failing(404, 'InvalidPoint') });
    const fault = await faultOf(source.pull(PLACE));
    expect(fault).toMatchObject({
      code: 'source_unreachable',
      retryable: true,
      facts: { status: 404, problem: 'InvalidPoint' },
    });
    expect(paths()).toEqual([POINT, GRID, POINT, GRID]);
  });

  it('whose office has an expired grid (503) is resolved again, and the expiry told (api#29)', async () => {
    const { source, paths } = await service({ [GRID]: failing(503, 'ForecastGridExpired') });
    const fault = await faultOf(source.pull(PLACE));
    expect(fault).toMatchObject({ code: 'source_unreachable', retryable: true });
    expect(fault.facts).toMatchObject({ status: 503, problem: 'ForecastGridExpired', correlationId: 'c1' });
    expect(paths()).toEqual([POINT, GRID, POINT]);
  });

  it('that fails with 500 again and again is source_unreachable (api#160)', async () => {
    const { source, paths } = await service({ [GRID]: failing(500, 'UnexpectedProblem') });
    expect((await faultOf(source.pull(PLACE))).facts).toMatchObject({
      status: 500,
      problem: 'UnexpectedProblem',
    });
    expect(paths()).toEqual([POINT, GRID, GRID, GRID, GRID]);
  });
});

describe('a place without a forecast', () => {
  it('is outside of the coverage (404 InvalidPoint)', async () => {
    const { source } = await service({ [POINT]: failing(404, 'InvalidPoint') });
    const fault = await faultOf(source.pull(PLACE));
    expect(fault).toMatchObject({
      code: 'outside_coverage',
      retryable: false,
      facts: { problem: 'InvalidPoint' },
    });
  });

  it('has null grid members, and no grid URL is built from them (api#51)', async () => {
    const nulls = pointAnswer({ gridId: null, gridX: null, gridY: null, forecastGridData: null });
    const { source, paths } = await service({ [POINT]: json(nulls) });
    expect((await faultOf(source.pull(PLACE))).code).toBe('outside_coverage');
    expect(paths()).toEqual([POINT]);
  });

  it('that had one yesterday is a fault of the service', async () => {
    const { source, routes } = await service();
    await source.pull(PLACE);
    routes[GRID] = failing(404, 'InvalidGridpoint');
    routes[POINT] = failing(404, 'InvalidPoint');
    expect(await faultOf(source.pull(PLACE))).toMatchObject({ code: 'source_unreachable', retryable: true });
  });

  it('that no longer has one just when its cell has moved is a fault of the service, too', async () => {
    const { source, routes } = await service();
    await source.pull(PLACE);
    const height = { elevation: { unitCode: 'wmoUnit:m', value: 900 } };
    routes[GRID] = json(gridAnswer(10, height));
    routes[POINT] = failing(404, 'InvalidPoint');
    const fault = await faultOf(source.pull(PLACE));
    expect(fault).toMatchObject({ code: 'source_unreachable', retryable: true });
    expect(fault.message).toContain('no longer knows');
  });

  it('that is no place is refused without a request', async () => {
    const { source, paths } = await service();
    expect((await faultOf(source.pull({ latDeg: 91, lonDeg: 0 }))).code).toBe('outside_coverage');
    expect(paths()).toEqual([]);
  });

  it.each([[500], [404]])(
    'that answers %d for good gives no forecast, and no neighbour is asked (HA#77608)',
    async (status) => {
      const grids: Record<string, fake.Route> = { [GRID]: failing(status, 'UnexpectedProblem') };
      for (const cell of ['11,34', '13,34', '12,33', '12,35'])
        grids[`/gridpoints/XXX/${cell}`] = json(gridAnswer(0));
      const { source, paths } = await service(grids);
      expect(await faultOf(source.pull(PLACE))).toMatchObject({
        code: 'source_unreachable',
        retryable: true,
      });
      expect(new Set(paths().filter((path) => path.startsWith('/gridpoints')))).toEqual(new Set([GRID]));
    },
  );
});
