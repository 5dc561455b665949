// What a process holds of the store: no more than has changed is read, nothing half, and no version twice.

import { beforeEach, describe, expect, it } from 'vitest';
import { ServiceError } from '#errors.ts';
import { createMirror, type Mirror } from '#memory/mirror.ts';
import { CELL, type FakeStore, fakeStore, NOW_MS, PLACE, siteBody } from './fake-store.ts';

const LIMITS = [{ element: 'windSpeed', atMost: { hold: '12 mph' }, source: 'permit' }];
const SITE = 'own/north-block';

let fake: FakeStore;
let mirror: Mirror;
let steadyMs = 0;
let decoded: string[] = [];

beforeEach(async () => {
  fake = fakeStore();
  steadyMs = 0;
  decoded = [];
  mirror = createMirror({
    store: fake.store,
    source: {
      read: ({ bytes, hash, receivedAtMs }) => {
        const text = Buffer.from(bytes).toString();
        decoded.push(text);
        if (text === 'no grid') throw new ServiceError('source_unreadable', 'that is no grid');
        return { documentId: hash, fetchedAtMs: receivedAtMs } as never;
      },
    },
    steadyMs: () => steadyMs,
  });
  fake.put('limit-set', 'valley', LIMITS);
  fake.put('site', 'north-block', siteBody('north-block'));
  fake.putCell({ document: fake.keep('grid 1'), receivedAtMs: NOW_MS, confirmedAtMs: NOW_MS });
  fake.putPlace({
    cell: CELL,
    timeZone: 'America/Chicago',
    alerts: fake.keep('{"complete":true,"alerts":[]}'),
    alertsFetchedAtMs: NOW_MS,
  });
});

/** Syncs, and gives what was asked of the store for it. */
async function sync(): Promise<readonly string[]> {
  fake.asked.length = 0;
  await mirror.sync();
  return [...fake.asked];
}

const documentId = () => mirror.state(SITE).held?.forecast.documentId;

describe('a mirror', () => {
  it('holds nothing before it has read the store, and then all of it', async () => {
    expect([mirror.syncedAtMs(), mirror.state(SITE).held, mirror.book().sites.size]).toEqual([null, null, 0]);
    steadyMs = 17;
    await sync();
    expect([...mirror.book().sites.keys()]).toEqual([SITE]);
    const { held, version, checkedAtMs } = mirror.state(SITE);
    expect(held?.forecast.documentId).toBe(fake.keep('grid 1'));
    expect(held?.alerts).toEqual({ complete: true, alerts: [], fetchedAtMs: NOW_MS });
    expect([held?.pointTimeZone, checkedAtMs, version > 0]).toEqual(['America/Chicago', NOW_MS, true]);
    expect(mirror.syncedAtMs()).toBe(17);
  });

  it('asks for marks alone where nothing has changed, and for no more than has', async () => {
    await sync();
    expect(await sync()).toEqual(['marks']);
    fake.putCell({ confirmedAtMs: NOW_MS + 60_000 });
    expect(await sync()).toEqual(['marks', `cells ${CELL}`]);
    fake.putPlace({ alerts: fake.keep('{"complete":false,"alerts":[]}') });
    expect(await sync()).toEqual(['marks', `places ${PLACE}`, 'document']);
    fake.put('site', 'north-block', siteBody('north-block', { name: 'North' }));
    expect(await sync()).toEqual(['marks', 'definitions']);
    expect(decoded).toEqual(['grid 1']);
  });

  it('gives a new version where an answer would be made from something else, and only there', async () => {
    await sync();
    const first = mirror.state(SITE).version;
    fake.putCell({ confirmedAtMs: NOW_MS + 60_000 });
    await sync();
    expect([mirror.state(SITE).version, mirror.state(SITE).checkedAtMs]).toEqual([first, NOW_MS + 60_000]);
    const changes = [
      () => fake.putCell({ document: fake.keep('grid 2'), receivedAtMs: NOW_MS + 1 }),
      () => fake.putPlace({ alerts: fake.keep('{"complete":false,"alerts":[]}') }),
      () => fake.putPlace({ timeZone: 'America/Denver' }),
      () => fake.put('site', 'north-block', siteBody('north-block', { name: 'North' })),
      () => fake.put('limit-set', 'valley', [{ ...LIMITS[0], atMost: { hold: '11 mph' } }]),
    ];
    for (const change of changes) {
      const before = mirror.state(SITE).version;
      change();
      await sync();
      expect(mirror.state(SITE).version).toBeGreaterThan(before);
    }
  });

  it('learns from the marks alone when the alerts were read again', async () => {
    await sync();
    const { version } = mirror.state(SITE);
    const place = fake.places.get(PLACE);
    if (place) fake.places.set(PLACE, { ...place, alertsFetchedAtMs: NOW_MS + 300_000 });
    expect(await sync()).toEqual(['marks']);
    expect(mirror.state(SITE).held?.alerts.fetchedAtMs).toBe(NOW_MS + 300_000);
    expect(mirror.state(SITE).version).toBe(version);
  });

  it('gives a site that went and came back a version that none ever had', async () => {
    await sync();
    fake.put('site', 'creek-block', siteBody('creek-block'));
    await sync();
    const highest = Math.max(mirror.state(SITE).version, mirror.state('own/creek-block').version);
    fake.put('site', 'north-block', null);
    await sync();
    expect(mirror.state(SITE)).toMatchObject({ held: null, version: 0 });
    fake.put('site', 'north-block', siteBody('north-block'));
    await sync();
    expect(mirror.state(SITE).version).toBeGreaterThan(highest);
  });

  it('lets go of cells and places that are gone, and with them of the forecast', async () => {
    await sync();
    fake.cells.clear();
    await sync();
    expect([mirror.cell(CELL), mirror.state(SITE).held]).toEqual([null, null]);
    fake.places.clear();
    await sync();
    expect([mirror.place(PLACE), [...mirror.places()]]).toEqual([null, []]);
  });
});

describe('a store that fails', () => {
  it.each(['marks', 'definitions', 'keys', `cells ${CELL}`, `places ${PLACE}`, 'document'])(
    'in the midst of a reading (%s) leaves what was held, whole; the next reading makes up for it',
    async (at) => {
      steadyMs = 1;
      await sync();
      const before = { ...mirror.state(SITE), book: mirror.book() };
      fake.putCell({ document: fake.keep('grid 2'), receivedAtMs: NOW_MS + 1 });
      fake.putPlace({ timeZone: 'America/Denver' });
      fake.put('site', 'north-block', siteBody('north-block', { name: 'North' }));
      steadyMs = 2;
      fake.failing = at;
      const reading = mirror.sync();
      // Keys are read only where they have changed.
      if (at === 'keys') return void (await reading);
      await expect(reading).rejects.toMatchObject({ code: 'store_unavailable' });
      expect({ ...mirror.state(SITE), book: mirror.book() }).toEqual(before);
      expect(mirror.syncedAtMs()).toBe(1);
      await sync();
      expect(documentId()).toBe(fake.keep('grid 2'));
      expect(mirror.state(SITE).held?.pointTimeZone).toBe('America/Denver');
      expect(mirror.book().sites.get(SITE)?.fields.name).toBe('North');
      expect(mirror.syncedAtMs()).toBe(2);
    },
  );
});

describe('a document', () => {
  it('that is lost or cannot be read leaves the site without a forecast, and says why', async () => {
    await sync();
    fake.putCell({ document: 'a'.repeat(64) });
    await sync();
    expect(mirror.state(SITE)).toMatchObject({ held: null, fault: { code: 'store_unavailable' } });
    fake.putCell({ document: fake.keep('no grid') });
    await sync();
    expect(mirror.state(SITE)).toMatchObject({ held: null, fault: { code: 'source_unreadable' } });
    fake.putCell({ document: fake.keep('grid 3') });
    await sync();
    expect([documentId(), mirror.state(SITE).fault]).toEqual([fake.keep('grid 3'), null]);
  });

  it('of alerts that is lost was never read: that alone is a hold', async () => {
    fake.putPlace({ alerts: 'b'.repeat(64) });
    await sync();
    expect(mirror.state(SITE).held?.alerts.complete).toBe(false);
  });

  it('is decoded once for all sites at a place, and once only', async () => {
    for (const id of ['a', 'b', 'c']) fake.put('site', id, siteBody(id));
    await sync();
    await sync();
    expect(decoded).toEqual(['grid 1']);
    expect(mirror.state('own/a').held?.forecast).toBe(mirror.state('own/c').held?.forecast);
  });
});

describe('readings', () => {
  it('come one after the other, and whoever asks gets one that began after the asking', async () => {
    fake.asked.length = 0;
    const first = mirror.sync();
    fake.put('site', 'late', siteBody('late'));
    await Promise.all([first, mirror.sync(), mirror.sync()]);
    expect(fake.asked.filter((name) => name === 'marks')).toHaveLength(2);
    expect([...mirror.book().sites.keys()]).toContain('own/late');
  });
});
