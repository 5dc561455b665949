// The official alerts without the forecast, lists out of caches that sleep, and a source that is closed.

import { describe, expect, it } from 'vitest';
import { alert, vtec } from './alert-fixture.ts';
import * as fake from './fake-service.ts';

const { failing, faultOf, FIRE_ALERTS, GRID, inTurn, json, PLACE, POINT, service, START_MS } = fake;

const MIN_MS = 60_000;
const list = (...features: unknown[]) => ({ type: 'FeatureCollection', features });
const warning = alert({ id: 'A', vtec: [vtec('NEW')] });
const ago = (min: number): number => START_MS - min * MIN_MS;

describe('the alerts alone', () => {
  it('are had while the grid fails, with the cell in memory', async () => {
    const { source, routes, paths } = await service();
    await source.pull(PLACE);
    routes[GRID] = failing(503, 'ForecastGridExpired');
    routes[FIRE_ALERTS] = json(list(warning));
    await faultOf(source.pull(PLACE));
    const from = paths().length;
    const seen = await source.alerts(PLACE);
    expect(seen).toMatchObject({ complete: true, alerts: [{ id: 'A', event: 'Red Flag Warning' }] });
    expect(paths().slice(from).sort()).toEqual(
      [fake.POINT_ALERTS, FIRE_ALERTS, fake.ZONE_ALERTS, fake.COUNTY_ALERTS].sort(),
    );
  });

  it('are had of a place never pulled', async () => {
    const { source, paths } = await service({ [FIRE_ALERTS]: json(list(warning)) });
    expect((await source.alerts(PLACE)).alerts).toHaveLength(1);
    expect(paths()).toContain(POINT);
    expect(paths()).not.toContain(GRID);
  });

  it('share the memory of the pulls: one that an answer leaves out once stays', async () => {
    const { source, routes } = await service({ [FIRE_ALERTS]: json(list(warning)) });
    await source.pull(PLACE);
    routes[FIRE_ALERTS] = json(list());
    expect((await source.alerts(PLACE)).alerts).toHaveLength(1);
    expect((await source.pull(PLACE)).alerts.alerts).toHaveLength(1);
  });

  it('are asked for once where two ask at the same time', async () => {
    const { source, paths } = await service();
    await source.pull(PLACE);
    const from = paths().length;
    await Promise.all([source.alerts(PLACE), source.alerts(PLACE)]);
    expect(paths().slice(from)).toHaveLength(4);
  });
});

describe('a list of alerts that is believed', () => {
  it('is no more than a minute old, whatever its max-age', async () => {
    const { source, clock, routes } = await service({
      [FIRE_ALERTS]: json(list(), { 'cache-control': 'public, max-age=3600' }),
    });
    await source.pull(PLACE);
    routes[FIRE_ALERTS] = json(list(warning));
    clock.advance(MIN_MS);
    expect((await source.pull(PLACE)).alerts.alerts).toHaveLength(0);
    clock.advance(1);
    expect((await source.pull(PLACE)).alerts.alerts).toHaveLength(1);
  });
});

interface Old {
  readonly ageMin?: number;
  readonly dateMin?: number;
  readonly updatedMin?: number;
}

const oldList = ({ ageMin, dateMin, updatedMin }: Old) =>
  json(
    { ...list(), ...(updatedMin === undefined ? {} : { updated: new Date(ago(updatedMin)).toISOString() }) },
    {
      ...(ageMin === undefined ? {} : { age: String(ageMin * 60) }),
      ...(dateMin === undefined ? {} : { date: new Date(ago(dateMin)).toUTCString() }),
    },
  );

describe('a list of alerts out of a cache', () => {
  const stale: Old[] = [
    { ageMin: 16 },
    { ageMin: 11, updatedMin: 31 },
    { dateMin: 16 },
    { ageMin: 1, dateMin: 16, updatedMin: 1 },
  ];

  it.each(stale)('that sleeps (%j) is asked for once more, and is then no list', async (old) => {
    const { source, paths } = await service({ [FIRE_ALERTS]: oldList(old) });
    expect((await source.pull(PLACE)).alerts.complete).toBe(false);
    expect(paths().filter((path) => path === FIRE_ALERTS)).toHaveLength(2);
  });

  it.each(stale)('that sleeps (%j) gives way to the fresh one behind it', async (old) => {
    const { source, server } = await service({
      [FIRE_ALERTS]: inTurn(oldList(old), json(list(warning))),
    });
    const { alerts } = await source.pull(PLACE);
    expect(alerts).toMatchObject({ complete: true, alerts: [{ id: 'A' }] });
    const asked = server.seen.filter(({ path }) => path === FIRE_ALERTS);
    expect(asked.map(({ headers }) => headers['accept-language'])).toEqual([undefined, 'en-US']);
  });

  it.each([
    { updatedMin: 6_000 },
    { ageMin: 10, updatedMin: 6_000 },
    { ageMin: 15, updatedMin: 29 },
    { ageMin: 15 },
    { dateMin: 15, updatedMin: 6_000 },
    { dateMin: -600 },
  ])('that is awake (%j) is the list', async (old: Old) => {
    const { source, paths } = await service({ [FIRE_ALERTS]: oldList(old) });
    expect((await source.pull(PLACE)).alerts.complete).toBe(true);
    expect(paths().filter((path) => path === FIRE_ALERTS)).toHaveLength(1);
  });
});

describe('a source that is closed', () => {
  it.each([[GRID], [FIRE_ALERTS]])('ends a pull that waits for %s', async (path) => {
    let arrived = (): void => undefined;
    const isAsked = new Promise<void>((resolve) => {
      arrived = resolve;
    });
    const { source } = await service({ [path]: () => arrived() });
    const fault = faultOf(source.pull(PLACE));
    await isAsked;
    await source.close();
    expect(await fault).toMatchObject({ code: 'source_unreachable', retryable: true });
  });

  it('asks nothing more', async () => {
    const { source, paths } = await service();
    await source.pull(PLACE);
    const before = paths().length;
    await source.close();
    expect((await faultOf(source.pull(PLACE))).code).toBe('source_unreachable');
    expect((await faultOf(source.alerts(PLACE))).code).toBe('source_unreachable');
    expect(paths()).toHaveLength(before);
  });
});

describe('a caller that gives up', () => {
  it('hears of it at once, and the next question has its whole answer', async () => {
    let arrived = (): void => undefined;
    const isAsked = new Promise<void>((resolve) => {
      arrived = resolve;
    });
    const { source, routes } = await service({ [FIRE_ALERTS]: () => arrived() });
    const abort = new AbortController();
    const fault = faultOf(source.alerts(PLACE, abort.signal));
    await isAsked;
    abort.abort();
    expect((await fault).code).toBe('source_unreachable');
    routes[FIRE_ALERTS] = json(list(warning));
    expect(await source.alerts(PLACE)).toMatchObject({ complete: true, alerts: [{ id: 'A' }] });
  });
});
