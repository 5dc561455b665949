// The alerts of many places as the source gives them: one question for all, and nothing known where its answer will not do.

import { describe, expect, it } from 'vitest';
import type { PlaceAlerts } from '#sources/grid-source.ts';
import { alert, vtec } from './alert-fixture.ts';
import { knownPlace } from './alert-server.ts';
import { failing, json, type Route, START_MS, service } from './fake-service.ts';

const ALL = '/alerts/active';
const CANCELLED = '/alerts/active?message_type=cancel';
const MINUTE_MS = 60_000;

const list = (...features: unknown[]) => ({ type: 'FeatureCollection', features });
const elsewhere = alert({ id: 'E', zones: ['fire/XXZ999'] });
const warning = alert({ id: 'A', vtec: [vtec('NEW')] });

/** Places each in a public zone of its own, all in one county and, but for the last, one fire zone. */
const placesOf = (count: number) =>
  Array.from({ length: count }, (_, i) => {
    const fire = i === count - 1 ? 'fire/XXZ239' : 'fire/XXZ238';
    const known = knownPlace(40 + i / 100, -74, [
      `forecast/XXZ${String(i).padStart(3, '0')}`,
      'county/XXC005',
      fire,
    ]);
    return { point: known.point, locatedAtMs: 0, kept: known };
  });

/** Reads again and again, each time with what is remembered. */
async function reading(count: number, routes: Readonly<Record<string, Route>>) {
  const found = await service(routes);
  let asked = placesOf(count).map((located) => ({ located, remembered: null as unknown }));
  return {
    ...found,
    async read(): Promise<PlaceAlerts[]> {
      const alerts = await found.source.grid.alerts(asked);
      asked = asked.map(({ located }, i) => ({ located, remembered: alerts[i]?.remembered }));
      return alerts;
    },
  };
}

const idsOf = (alerts: readonly PlaceAlerts[]) => alerts.map(({ seen }) => seen.alerts.map(({ id }) => id));
const isComplete = (alerts: readonly PlaceAlerts[]) => new Set(alerts.map(({ seen }) => seen.complete));

describe('the alerts of a hundred places', () => {
  it('are had with one question, each place its own', async () => {
    const { read, paths } = await reading(100, { [ALL]: json(list(elsewhere, warning)) });
    const alerts = await read();
    expect(paths()).toEqual([ALL]);
    expect(isComplete(alerts)).toEqual(new Set([true]));
    expect(idsOf(alerts)).toEqual([...Array.from({ length: 99 }, () => ['A']), []]);
    expect(alerts[0]?.seen.fetchedAtMs).toBe(START_MS);
  });

  it('are asked for conditionally, and a list that has not changed is as new as its confirmation', async () => {
    const { read, server, clock } = await reading(100, {
      [ALL]: (response, request, count) => {
        if (request.headers['if-none-match'] === '"1"') response.writeHead(304).end();
        else json(list(elsewhere, warning), { etag: '"1"' })(response, request, count);
      },
    });
    await read();
    clock.advance(5 * MINUTE_MS);
    const alerts = await read();
    expect(server.seen).toHaveLength(2);
    expect(alerts[0]?.seen.fetchedAtMs).toBe(START_MS + 5 * MINUTE_MS);
    expect(idsOf(alerts)[0]).toEqual(['A']);
  });

  it('that are gone without a word stay, after one question for what was cancelled', async () => {
    const { read, routes, paths, clock } = await reading(100, {
      [ALL]: json(list(elsewhere, warning)),
      [CANCELLED]: json(list()),
    });
    await read();
    routes[ALL] = json(list(elsewhere));
    clock.advance(5 * MINUTE_MS);
    expect(idsOf(await read())[0]).toEqual(['A']);
    expect(paths()).toEqual([ALL, ALL, CANCELLED]);
  });

  it('end at once where a message cancels them', async () => {
    const cancel = alert({ id: 'C', messageType: 'Cancel', replaces: ['A'], vtec: [vtec('CAN')] });
    const { read, routes, clock } = await reading(100, {
      [ALL]: json(list(elsewhere, warning)),
      [CANCELLED]: json(list(cancel)),
    });
    await read();
    routes[ALL] = json(list(elsewhere));
    clock.advance(5 * MINUTE_MS);
    expect(idsOf(await read()).flat()).toEqual([]);
  });

  it('include those of a list of many megabytes', async () => {
    const long = alert({ id: 'L', zones: ['fire/XXZ999'], description: 'x'.repeat(12_000_000) });
    const { read } = await reading(100, { [ALL]: json(list(long, warning)) });
    const alerts = await read();
    expect([idsOf(alerts)[0], isComplete(alerts)]).toEqual([['A'], new Set([true])]);
  });

  it('may include one that names no land at all', async () => {
    const { read } = await reading(100, { [ALL]: json(list(alert({ id: 'N', zones: [] }))) });
    for (const { seen } of await read()) expect(seen.alerts).toMatchObject([{ id: 'N', possible: true }]);
  });

  const next = { next: 'https://api.weather.gov/alerts?cursor=x' };
  const many = Array.from({ length: 500 }, (_, i) => alert({ id: `E${i}`, zones: ['fire/XXZ999'] }));
  const text =
    (body: string): Route =>
    (response) => {
      response.writeHead(200, { 'content-type': 'application/geo+json' });
      response.end(body);
    };

  it.each<[string, Route]>([
    ['is refused', failing(400, 'BadRequest')],
    ['fails', failing(500, 'UnexpectedProblem')],
    ['is cut short', text(JSON.stringify(list(elsewhere, warning)).slice(0, -30))],
    ['is no list', json({ properties: {} })],
    ['has further pages', json({ ...list(elsewhere), pagination: next })],
    ['has as many alerts as a page has at most', json(list(...many))],
    ['has no alert of any place in the country', json(list())],
    [
      'comes from a cache that sleeps',
      json(list(elsewhere), { age: '3600', 'cache-control': 'max-age=86400' }),
    ],
    [
      'is larger than any list can be',
      (response) => {
        response.writeHead(200, { 'content-type': 'application/geo+json', 'content-length': '40000000' });
        response.flushHeaders();
      },
    ],
  ])(
    'are not known where the list %s: what stood before stands, and the lists are not whole',
    async (_, route) => {
      const { read, routes, clock } = await reading(100, { [ALL]: json(list(elsewhere, warning)) });
      await read();
      routes[ALL] = route;
      clock.advance(5 * MINUTE_MS);
      const alerts = await read();
      expect(isComplete(alerts)).toEqual(new Set([false]));
      expect(idsOf(alerts)[0]).toEqual(['A']);
    },
  );

  it('are not known for a place that lacks a zone, and known for the others', async () => {
    const { source } = await service({ [ALL]: json(list(elsewhere)) });
    const places = placesOf(100).map((located, i) => ({
      located: i === 7 ? { ...located, kept: { ...located.kept, lackingZones: ['fire'] } } : located,
      remembered: null,
    }));
    const alerts = await source.grid.alerts(places);
    expect(alerts.flatMap(({ seen }, i) => (seen.complete ? [] : [i]))).toEqual([7]);
  });

  it('are nobody’s where the reading is called off', async () => {
    const { source } = await service({ [ALL]: json(list(elsewhere)) });
    const asked = placesOf(100).map((located) => ({ located, remembered: null }));
    await expect(source.grid.alerts(asked, AbortSignal.abort(new Error('enough')))).rejects.toThrow('enough');
  });
});

describe('the alerts of a few places', () => {
  it('are asked for one by one, by point and zone, as long as that takes no longer than a minute', async () => {
    const few = await reading(20, {});
    await few.read();
    expect(few.paths()).not.toContain(ALL);
    // 20 points, 20 public zones, a county and two fire zones.
    expect(few.paths()).toHaveLength(43);
    const more = await reading(29, { [ALL]: json(list(elsewhere)) });
    await more.read();
    expect(more.paths()).toEqual([ALL]);
  });
});
