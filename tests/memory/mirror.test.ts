// What a process knows of the store: some sites followed alone know the same as all followed together.

import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Forecast } from '#core/series/forecast.ts';
import { createMirror, type Mirror } from '#memory/mirror.ts';
import type { DefinitionChange } from '#store/definition.ts';
import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { cellOf, documentOf, placeOf } from '../builders/store.ts';

const LIMITS = [{ element: 'windSpeed', atMost: { hold: '12 mph' }, source: 'our rule' }];
const NORTH = ['own/north', '38.97,-92.33'] as const;
const SOUTH = ['own/south', '38.5,-92'] as const;

let store: Store;
beforeEach(async () => {
  store = await openStore({ sqliteFile: ':memory:' }, { nowMs: () => 0 });
  await store.definitions.change([
    changeOf('limit-set', 'valley', LIMITS),
    ...[NORTH, SOUTH].map(([key, place]) => siteOf(key, place)),
  ]);
  await store.commit({
    places: [NORTH, SOUTH].map(([key, place]) => placeOf(place, { cell: `cell of ${key}` })),
  });
  await pulled(NORTH[0], 'first');
  await pulled(SOUTH[0], 'first');
});
afterEach(() => store.close());

const changeOf = (
  kind: DefinitionChange['kind'],
  id: string,
  body: unknown,
  replaces = 0,
): DefinitionChange => ({
  organisation: 'own',
  kind,
  id,
  body,
  replaces,
  origin: 'api',
  changedAtMs: 0,
  changedBy: 'office',
});

const siteOf = (key: string, place: string, name = key): DefinitionChange =>
  changeOf('site', key.slice(4), {
    id: key.slice(4),
    name,
    at: place.split(',').map(Number),
    limits: 'valley',
    shift: { days: ['mon'], from: '07:00', to: '17:00' },
  });

/** A document comes to the cell of a site. */
async function pulled(key: string, text: string): Promise<void> {
  const document = documentOf(`${text} of ${key}`);
  const cell = cellOf(`cell of ${key}`, { document: document.hash, receivedAtMs: 1 });
  await store.commit({ documents: [document], cells: [cell] });
}

/** A forecast is its own text. */
const mirrorOf = (of: Store = store): Mirror =>
  createMirror({
    store: of,
    source: { read: ({ bytes }) => Buffer.from(bytes).toString() as unknown as Forecast },
    steadyMs: () => 0,
  });

const heldBy = (mirror: Mirror): unknown[] =>
  [NORTH, SOUTH].map(([key]) => mirror.state(key).held?.forecast ?? null);

describe('some sites followed alone', () => {
  it('know what is new of them, and the others stay as they were', async () => {
    const mirror = mirrorOf();
    await mirror.sync();
    const before = [NORTH, SOUTH].map(([key]) => mirror.state(key));
    await pulled(NORTH[0], 'second');
    await pulled(SOUTH[0], 'second');
    await mirror.syncSites([NORTH[0]]);
    expect(heldBy(mirror)).toEqual(['second of own/north', 'first of own/south']);
    expect(mirror.state(NORTH[0]).version).toBeGreaterThan(Math.max(...before.map((s) => s.version)));
    expect(mirror.state(SOUTH[0])).toBe(before[1]);
    await mirror.sync();
    expect(heldBy(mirror)).toEqual(['second of own/north', 'second of own/south']);
  });

  it('have the fault of the last pull with the forecast before it', async () => {
    const mirror = mirrorOf();
    await mirror.sync();
    const [kept] = await store.forecasts.cells(['cell of own/north']);
    const { version: _, ...cell } = kept ?? { version: 0, ...cellOf('') };
    const fault = { code: 'source_unreachable', message: 'no answer', atMs: 2 };
    await store.commit({ cells: [{ ...cell, fault, failures: 1 }] });
    await mirror.syncSites([NORTH[0]]);
    expect(mirror.state(NORTH[0])).toMatchObject({ fault, held: { forecast: 'first of own/north' } });
  });

  it('are followed with all others where a definition or a place has changed', async () => {
    const mirror = mirrorOf();
    await mirror.sync();
    await store.definitions.change([{ ...siteOf(...SOUTH, 'South block'), replaces: 1 }]);
    await pulled(SOUTH[0], 'second');
    await mirror.syncSites([NORTH[0]]);
    expect(mirror.book().sites.get(SOUTH[0])?.fields.name).toBe('South block');
    await store.commit({ places: [{ place: NORTH[1], cell: 'cell of own/south' }] });
    await mirror.syncSites([NORTH[0]]);
    expect(heldBy(mirror)).toEqual(['second of own/south', 'second of own/south']);
    expect(mirror.sitesIn('cell of own/south').toSorted()).toEqual([NORTH[0], SOUTH[0]]);
  });

  it('do not fall back to what a slower reading of all had seen before', async () => {
    const gate = Promise.withResolvers<void>();
    let isHeld = false;
    const slow: Store = {
      ...store,
      marks: async (only) => {
        const marks = await store.marks(only);
        if (isHeld && only === undefined) await gate.promise;
        return marks;
      },
    };
    const mirror = mirrorOf(slow);
    await mirror.sync();
    isHeld = true;
    const all = mirror.sync();
    await pulled(NORTH[0], 'second');
    const some = mirror.syncSites([NORTH[0]]);
    gate.resolve();
    await Promise.all([all, some]);
    expect(heldBy(mirror)[0]).toBe('second of own/north');
  });
});

describe('a mirror', () => {
  it('reads a document once, lets go of it when no site needs it, and then reads it again', async () => {
    const read: string[] = [];
    const mirror = mirrorOf({
      ...store,
      documents: {
        ...store.documents,
        async read(hash) {
          const found = await store.documents.read(hash);
          read.push(Buffer.from(found?.bytes ?? []).toString());
          return found;
        },
      },
    });
    await mirror.sync();
    await mirror.sync();
    expect(read.toSorted()).toEqual(['first of own/north', 'first of own/south']);
    await pulled(NORTH[0], 'second');
    await mirror.sync();
    await pulled(NORTH[0], 'first');
    await mirror.sync();
    expect(read.slice(2)).toEqual(['second of own/north', 'first of own/north']);
  });

  it('forgets a site that is gone, and gives no version twice when it comes back', async () => {
    const mirror = mirrorOf();
    await mirror.sync();
    const { version } = mirror.state(NORTH[0]);
    await store.definitions.change([{ ...siteOf(...NORTH), body: null, replaces: 1 }]);
    await mirror.sync();
    expect(mirror.state(NORTH[0]).held).toBeNull();
    await store.definitions.change([{ ...siteOf(...NORTH), replaces: 2 }]);
    await mirror.sync();
    expect(mirror.state(NORTH[0]).version).toBeGreaterThan(version);
  });
});
