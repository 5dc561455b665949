// What the week becomes by a change that is not made yet: of the sites concerned alone, and the same plan as after it was made.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addDays } from '#core/units/local-time.ts';
import { createSettingsDesk } from '#service/settings-desk.ts';
import { type Running, startRunning } from './running.ts';

let running: Running;
beforeAll(async () => {
  running = await startRunning('2026-03-03T01:10:00Z');
});
afterAll(() => running.close());

const desk = () => {
  const { store, service, clock } = running;
  const nowMs = () => Math.floor(clock.nowMs / 1000) * 1000;
  return createSettingsDesk({ definitions: store.definitions, mirror: service.mirror, nowMs });
};
const bodyOf = async (kind: string, id: string) =>
  (await running.store.definitions.current()).find((d) => d.kind === kind && d.id === id)?.body;
const own = { organisation: 'own', sites: null } as const;

describe('the week of a change that is not made yet', () => {
  it('is told of the sites that the change concerns, and of no others', async () => {
    const hills = (await bodyOf('limit-set', 'hills')) as object[];
    const same = await desk().weeks({ ...own, kind: 'limit-set', id: 'hills', body: hills }, 6);
    expect(same).toEqual({ sites: [], more: 0 });
    const changed = await desk().weeks({ ...own, kind: 'limit-set', id: 'hills', body: hills.slice(1) }, 6);
    expect(changed.sites.map(({ id, why }) => [id, why])).toEqual([['ridge-block', null]]);
    const contact = await desk().weeks({ ...own, kind: 'contact', id: 'marit', body: null }, 6);
    expect(contact.sites).toEqual([]);
  });

  it('is that of the plan before, and of the plan as it is after the change', async () => {
    const { service, store, clock } = running;
    const body = [
      { element: 'windSpeed', atMost: { hold: '9 mph' }, source: 'our rule' },
      { clock: { lightFrom: '10:00' }, source: 'county' },
    ];
    const { sites } = await desk().weeks({ ...own, kind: 'limit-set', id: 'valley', body }, 6);
    const [week] = sites.filter(({ id }) => id === 'creek-block');
    const key = 'own/creek-block';
    const first = week?.before?.days[0]?.day.date ?? '';
    expect(week?.before?.days).toEqual(service.desk.plan(key, first, 7).days);
    const change = { organisation: 'own', kind: 'limit-set', id: 'valley', body, replaces: 1 } as const;
    await store.definitions.change([
      { ...change, origin: 'api', changedAtMs: clock.nowMs, changedBy: 'test' },
    ]);
    await service.mirror.sync();
    expect(week?.after?.days).toEqual(service.desk.plan(key, first, 7).days);
    expect(week?.after?.days).not.toEqual(week?.before?.days);
    expect(week?.after?.days.at(-1)?.day.date).toBe(addDays(first, 6));
  });

  it('is planned for so many sites, and says how many more are concerned', async () => {
    const order = { name: 'Ban', issuer: 'county', sites: 'all' };
    const { sites, more } = await desk().weeks({ ...own, kind: 'order', id: 'ban', body: order }, 2);
    expect([sites.length, more]).toEqual([2, 1]);
    for (const { after } of sites)
      expect(new Set(after?.days.map((d) => d.verdict))).toEqual(new Set(['stop']));
    const seen = { ...own, sites: ['north-block'], kind: 'order', id: 'ban', body: order } as const;
    expect((await desk().weeks(seen, 2)).sites.map(({ id }) => id)).toEqual(['north-block']);
    expect((await desk().weeks({ ...seen, organisation: 'elsewhere', sites: null }, 2)).sites).toEqual([]);
  });

  it('of a site that moves, is new, goes, or has nothing held is not made up', async () => {
    const site = (await bodyOf('site', 'north-block')) as Record<string, unknown>;
    const weekOf = async (id: string, body: unknown) =>
      (await desk().weeks({ ...own, kind: 'site', id, body }, 6)).sites.map(({ why, after }) => [why, after]);
    expect(await weekOf('north-block', { ...site, at: [36.9, -120.9] })).toEqual([['newPlace', null]]);
    expect(await weekOf('another', { ...site, id: 'another' })).toEqual([['newPlace', null]]);
    expect(await weekOf('north-block', null)).toEqual([['siteGone', null]]);
    const bare = await startRunning('2026-03-03T01:10:00Z', undefined, false);
    const empty = createSettingsDesk({
      ...{ definitions: bare.store.definitions, mirror: bare.service.mirror, nowMs: () => bare.clock.nowMs },
    });
    const named = {
      ...own,
      kind: 'site',
      id: 'north-block',
      body: { ...site, name: 'Another name' },
    } as const;
    expect((await empty.weeks(named, 6)).sites).toMatchObject([
      { before: null, after: null, why: 'noForecast' },
    ]);
    await bare.close();
  });
});
