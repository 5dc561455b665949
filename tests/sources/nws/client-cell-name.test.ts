// A grid that names another cell than the one asked for: taken only where its outline shows that it holds the place.

import { describe, expect, it } from 'vitest';
import * as fake from './fake-service.ts';

const { faultOf, GRID, gridAnswer, inTurn, json, PLACE, POINT, pointAnswer, service, windOf } = fake;

/** A kilometre to the north of the place. */
const NEAR = {
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
const NO_OUTLINES: [unknown][] = [[null], [{ type: 'Polygon', coordinates: [] }], ['POLYGON(())']];
const TOLD = 'the grid names another cell but holds the place';

describe('a grid without an outline that can be read', () => {
  it.each(NO_OUTLINES)('and with the name asked for is taken (%j)', async (outline) => {
    const { source, paths } = await service({ [GRID]: json(gridAnswer(0, {}, outline)) });
    expect((await source.pull(PLACE)).forecast.cell).toBe('XXX 12,34');
    expect(paths().filter((path) => path === POINT)).toHaveLength(1);
  });

  it.each(NO_OUTLINES)('and with another name is no forecast (%j)', async (outline) => {
    const { source, paths } = await service({ [GRID]: json(gridAnswer(0, { gridX: 13 }, outline)) });
    const fault = await faultOf(source.pull(PLACE));
    expect(fault).toMatchObject({ code: 'source_unreadable', retryable: true });
    expect(paths().filter((path) => path === POINT)).toHaveLength(2);
  });

  it('and without a name is no forecast', async () => {
    const nameless = { gridId: null, gridX: null, gridY: null, '@id': null };
    const { source } = await service({ [GRID]: json(gridAnswer(0, nameless, null)) });
    expect((await faultOf(source.pull(PLACE))).code).toBe('source_unreadable');
  });

  it('and with another name gives way to the cell that the service names anew', async () => {
    const { source } = await service({
      [POINT]: inTurn(json(pointAnswer()), json(pointAnswer({ gridX: 13 }))),
      [GRID]: json(gridAnswer(0, { gridX: 13 }, null)),
      '/gridpoints/XXX/13,34': json(gridAnswer(30, { gridX: 13 }, null)),
    });
    const pulled = await source.pull(PLACE);
    expect([pulled.point.cell, windOf(pulled)]).toEqual(['XXX 13,34', 13]);
  });
});

describe('a grid of another name with an outline', () => {
  it('that holds the place is taken, and told', async () => {
    const { source, said, paths } = await service({ [GRID]: json(gridAnswer(0, { gridX: 13 })) });
    expect((await source.pull(PLACE)).forecast.cell).toBe('XXX 13,34');
    expect(said()).toContain(TOLD);
    expect(paths().filter((path) => path === POINT)).toHaveLength(1);
  });

  it('that lies a kilometre off is no forecast, though under its own name it would be', async () => {
    const { source } = await service({ [GRID]: json(gridAnswer(0, { gridX: 13 }, NEAR)) });
    expect((await faultOf(source.pull(PLACE))).code).toBe('source_unreadable');
    const own = await service({ [GRID]: json(gridAnswer(0, {}, NEAR)) });
    expect((await own.source.pull(PLACE)).forecast.cell).toBe('XXX 12,34');
    expect(own.said()).not.toContain(TOLD);
  });
});
