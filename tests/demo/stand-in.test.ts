import { describe, expect, it } from 'vitest';
import { parseInstantMs } from '#core/units/local-time.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { DEMO_CELLS } from '#demo/cells.ts';
import { gridpointDocument } from '#demo/documents.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { type Json, placeText, useStandIn } from './use-stand-in.ts';

const standIn = useStandIn();
const { at, get, json } = standIn;

describe('points of the stand-in', () => {
  it.each(DEMO_CELLS)(
    'lead from the place of $siteId to its raw grid, all on the same server',
    async (cell) => {
      at('2026-11-24', '17:05');
      const response = await get(`/points/${placeText(cell)}`);
      expect(response.status).toBe(200);
      expect(response.headers.get('content-type')).toBe('application/geo+json');
      expect(response.headers.get('cache-control')).toMatch(/^public, max-age=\d+, s-maxage=3600$/);
      const text = await response.text();
      const { properties } = JSON.parse(text) as Json;
      expect(properties?.['timeZone']).toBe(cell.timeZone);
      expect(properties?.['fireWeatherZone']).toBe(`${standIn.baseUrl()}/zones/fire/${cell.fireZone}`);
      expect(text).not.toContain('api.weather.gov');
      const grid = await fetch(String(properties?.['forecastGridData']));
      expect(grid.status).toBe(200);
      expect(await grid.json()).toEqual(gridpointDocument(cell, standIn.nowMs(), standIn.baseUrl()));
    },
  );

  it('lead from a place nearby to the nearest cell', async () => {
    const { properties } = await json('/points/36.1,-120.5');
    expect([properties?.['gridX'], properties?.['gridY']]).toEqual([37, 71]);
  });

  it.each(['/points/36.438,-119', '/points/4,5', '/points/-36.438,-120.231', '/points/91,200'])(
    'know nothing of %s, far away, and say so as a problem',
    async (path) => {
      const response = await get(path);
      expect(response.status).toBe(404);
      expect(response.headers.get('content-type')).toBe('application/problem+json');
      expect(await response.json()).toMatchObject({
        type: expect.stringMatching(/\/InvalidPoint$/),
        title: 'Data Unavailable For Requested Point',
        status: 404,
        detail: `Unable to provide data for requested point ${path.slice('/points/'.length)}`,
        instance: expect.any(String),
        correlationId: expect.any(String),
      });
    },
  );

  it.each([
    ['/points/36.43801,-120.23099', '/points/36.438,-120.231'],
    ['/points/36.4380,-120.231', '/points/36.438,-120.231'],
    ['/points/-0,5', '/points/0,5'],
  ])('are redirected from %s to %s, by a relative address', async (path, location) => {
    const response = await get(path);
    expect(response.status).toBe(301);
    expect(response.headers.get('location')).toBe(location);
    expect(response.headers.get('content-type')).toBe('application/problem+json');
  });
});

describe('raw grids of the stand-in', () => {
  const path = '/gridpoints/XXV/41,77';

  it('are not sent again within the hour, and are in the next', async () => {
    at('2026-11-24', '17:00');
    const first = await get(path);
    const modified = first.headers.get('last-modified') ?? '';
    const body = (await first.json()) as Json;
    expect(Date.parse(modified)).toBe(parseInstantMs(String(body['properties']?.['updateTime'])));
    expect(Date.parse(modified)).toBeLessThan(Date.parse(first.headers.get('date') ?? ''));

    standIn.later(59 * MINUTE_MS);
    const again = await get(path, { 'If-Modified-Since': modified });
    expect(again.status).toBe(304);
    expect(await again.text()).toBe('');
    expect(again.headers.get('last-modified')).toBe(modified);

    standIn.later(MINUTE_MS);
    const next = await get(path, { 'If-Modified-Since': modified });
    expect(next.status).toBe(200);
    expect(Date.parse(next.headers.get('last-modified') ?? '')).toBe(Date.parse(modified) + HOUR_MS);
  });

  it('are sent whole where the condition cannot be read', async () => {
    expect((await get(path, { 'If-Modified-Since': 'yesterday' })).status).toBe(200);
  });

  it.each([
    '/gridpoints/XXV/1,1',
    '/gridpoints/XXW/41,77',
    '/gridpoints/XXV/41,77/forecast',
    '/',
    '/zones/fire/XXZ238',
  ])('are not found at %s', async (unknown) => {
    const response = await get(unknown);
    expect(response.status).toBe(404);
    expect(response.headers.get('content-type')).toBe('application/problem+json');
    expect(response.headers.get('cache-control')).toBeNull();
  });

  it('are for reading only', async () => {
    const response = await fetch(`${standIn.baseUrl()}${path}`, { method: 'POST', body: 'x' });
    expect(response.status).toBe(405);
    expect(response.headers.get('allow')).toBe('GET');
  });
});

describe('the stand-in itself', () => {
  it('has cancelled no alert, and knows no other kind of message', async () => {
    const listOf = async (more: string) => {
      const answer = await get(`/alerts/active?zone=${warned}${more}`);
      return answer.status === 200
        ? ((await answer.json()) as { features: unknown[] }).features.length
        : answer.status;
    };
    const warned = DEMO_CELLS.find(({ story }) => story === 'dryNorthWind')?.fireZone;
    expect(await listOf('')).toBeGreaterThan(0);
    expect(await listOf('&message_type=cancel')).toBe(0);
    expect(await listOf('&message_type=rumour')).toBe(400);
  });

  it('gives all alerts at once where none are singled out, and none of them as cancelled', async () => {
    const listOf = async (query: string) => {
      const { features } = (await (await get(`/alerts/active${query}`)).json()) as { features: unknown[] };
      return features;
    };
    const zones = DEMO_CELLS.flatMap((cell) => [cell.forecastZone, cell.county, cell.fireZone]);
    const all = await listOf('');
    expect(all.length).toBeGreaterThan(0);
    expect(all).toEqual(await listOf(`?zone=${zones.join()}`));
    expect(await listOf('?message_type=cancel')).toEqual([]);
    expect((await get('/alerts/active?area=XX')).status).toBe(400);
  });

  it('answers a broken clock with a problem and goes on', async () => {
    let broken = true;
    const other = await startStandIn({
      nowMs: () => {
        if (broken) throw new Error('the clock stands still');
        return Date.UTC(2026, 10, 24, 20);
      },
    });
    try {
      const response = await fetch(`${other.baseUrl}/gridpoints/XXV/41,77`);
      expect(response.status).toBe(500);
      expect(await response.json()).toMatchObject({ detail: 'the clock stands still' });
      broken = false;
      expect((await fetch(`${other.baseUrl}/gridpoints/XXV/41,77`)).status).toBe(200);
    } finally {
      await other.close();
    }
  });

  it('says that its port is taken, and may be closed twice', async () => {
    const other = await startStandIn({ nowMs: () => 0 });
    const port = Number(new URL(other.baseUrl).port);
    await expect(startStandIn({ nowMs: () => 0, port })).rejects.toMatchObject({ code: 'EADDRINUSE' });
    await other.close();
    await other.close();
    await expect(fetch(`${other.baseUrl}/`)).rejects.toThrow();
  });
});
