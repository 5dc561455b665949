import { describe, expect, it } from 'vitest';
import { addDays, clockTimeMs, localDateAt, parseInstantMs } from '#core/units/local-time.ts';
import { DEMO_CELLS, type DemoCell } from '#demo/cells.ts';
import { type Json, placeText, useStandIn, ZONE } from './use-stand-in.ts';

const standIn = useStandIn();
const { at, get, json } = standIn;

const featuresOf = async (query: string): Promise<readonly Json[]> => {
  const { features } = await json(`/alerts/active?${query}`);
  if (!features) throw new Error(`no features for ${query}`);
  return features;
};

const RIDGE = DEMO_CELLS.find((c) => c.siteId === 'ridge-block') as DemoCell;

describe('alerts of the stand-in', () => {
  it.each(['00:00', '06:00', '14:41', '21:50', '23:59'])(
    'at %s: the Red Flag Warning of tomorrow comes by fire zone, and not by point, public zone or county',
    async (time) => {
      at('2026-11-24', time);
      const byZone = await featuresOf(`zone=${RIDGE.fireZone}`);
      const tomorrow = addDays(localDateAt(standIn.nowMs(), ZONE), 1);
      const ms = (feature: Json, key: string) =>
        parseInstantMs(String(feature['properties']?.[key])) ?? Number.NaN;
      const ours = byZone.filter(
        (f) =>
          ms(f, 'onset') <= clockTimeMs(tomorrow, '07:00', ZONE) &&
          ms(f, 'ends') >= clockTimeMs(tomorrow, '17:00', ZONE),
      );
      expect(ours).toHaveLength(1);
      const [warning] = ours as [Json];
      expect(warning).toMatchObject({
        geometry: null,
        properties: { event: 'Red Flag Warning', status: 'Actual' },
      });
      expect(warning['properties']?.['affectedZones']).toEqual([
        `${standIn.baseUrl()}/zones/fire/${RIDGE.fireZone}`,
      ]);
      expect(ms(warning, 'sent')).toBeLessThanOrEqual(standIn.nowMs());
      expect(byZone.every((f) => ms(f, 'expires') < ms(f, 'ends'))).toBe(true);
      expect(await featuresOf(`point=${placeText(RIDGE)}`)).toEqual([]);
      expect(await featuresOf(`zone=${RIDGE.forecastZone},${RIDGE.county}`)).toEqual([]);
      expect(await featuresOf(`zone=${RIDGE.county},${RIDGE.fireZone}`)).toEqual(byZone);
    },
  );

  it('list the warning of today until it ends at 10 pm', async () => {
    at('2026-11-24', '21:59');
    expect(await featuresOf(`zone=${RIDGE.fireZone}`)).toHaveLength(2);
    at('2026-11-24', '22:00');
    expect(await featuresOf(`zone=${RIDGE.fireZone}`)).toHaveLength(1);
  });

  it('keep the event of a date over its messages, and name the message before', async () => {
    const eventOf = (f: Json | undefined) =>
      /FW\.W\.\d{4}/.exec(String(f?.['properties']?.['parameters']?.['VTEC']?.[0]))?.[0];
    at('2026-11-24', '10:00');
    const [, first] = await featuresOf(`zone=${RIDGE.fireZone}`);
    expect(first).toMatchObject({ properties: { messageType: 'Alert', references: [] } });
    at('2026-11-24', '16:00');
    const [, second] = await featuresOf(`zone=${RIDGE.fireZone}`);
    expect(second).toMatchObject({
      properties: { messageType: 'Update', references: [{ identifier: first?.['properties']?.['id'] }] },
    });
    at('2026-11-25', '10:00');
    const [third] = await featuresOf(`zone=${RIDGE.fireZone}`);
    expect(third).toMatchObject({
      properties: { messageType: 'Update', references: [{ identifier: second?.['properties']?.['id'] }] },
    });
    expect(eventOf(first)).toMatch(/^FW\.W\.\d{4}$/);
    expect([eventOf(second), eventOf(third)]).toEqual([eventOf(first), eventOf(first)]);
  });

  it('are not sent again until a message comes, an event ends or the date changes', async () => {
    const path = `/alerts/active?zone=${RIDGE.fireZone}`;
    at('2026-11-24', '10:00');
    let modified = (await get(path)).headers.get('last-modified') ?? '';
    for (const [time, status] of [
      ['14:40', 304],
      ['14:41', 200],
      ['21:59', 304],
      ['22:00', 200],
      ['23:59', 304],
    ] as const) {
      at('2026-11-24', time);
      const response = await get(path, { 'If-Modified-Since': modified });
      expect([time, response.status]).toEqual([time, status]);
      modified = response.headers.get('last-modified') ?? '';
    }
    at('2026-11-25', '00:00');
    expect((await get(path, { 'If-Modified-Since': modified })).status).toBe(200);
  });

  it('are none for the other two sites', async () => {
    at('2026-11-24', '10:00');
    for (const cell of DEMO_CELLS.filter((c) => c !== RIDGE)) {
      expect(await featuresOf(`zone=${cell.fireZone}`)).toEqual([]);
      expect(await featuresOf(`point=${placeText(cell)}`)).toEqual([]);
    }
  });

  it.each(['?area=XX', `?point=36.438,-120.231&zone=XXZ221`, '?zone=nonsense', '?zone=XXZ221&_=1'])(
    'refuse the query "%s"',
    async (query) => {
      const response = await get(`/alerts/active${query}`);
      expect(response.status).toBe(400);
      expect(response.headers.get('content-type')).toBe('application/problem+json');
    },
  );

  it('refuse a point far away', async () => {
    expect((await get('/alerts/active?point=4,5')).status).toBe(404);
  });
});
