// A document that the store has lost, or cannot read, leaves its sites without what it said; when it is back they have it again.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Forecast } from '#core/series/forecast.ts';
import { alertsDocument } from '#memory/alerts-document.ts';
import { createMirror } from '#memory/mirror.ts';
import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { cellOf, documentOf, placeOf } from '../builders/store.ts';

const SITE = 'own/north';
const PLACE = '38.97,-92.33';
const CELL = 'LSX 10,20';
const GRID = documentOf('a forecast');
const ALERTS = alertsDocument({ fetchedAtMs: 0, complete: true, alerts: [] });

let folder: string;
let store: Store;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'pitward-lost-'));
  store = await openStore({ sqliteFile: join(folder, 'pitward.db') }, { nowMs: () => 0 });
  const define = (kind: 'site' | 'limit-set', id: string, body: unknown) => ({
    ...{ organisation: 'own', kind, id, body, replaces: 0 },
    ...{ origin: 'api' as const, changedAtMs: 0, changedBy: 'office' },
  });
  const shift = { days: ['mon'], from: '07:00', to: '17:00' };
  await store.definitions.change([
    define('limit-set', 'valley', [{ element: 'windSpeed', atMost: { hold: '12 mph' }, source: 'our rule' }]),
    define('site', 'north', { id: 'north', name: 'North', at: [38.97, -92.33], limits: 'valley', shift }),
  ]);
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const damage = (hash: string): void => {
  const other = new DatabaseSync(join(folder, 'pitward.db'));
  other.exec(`update documents set packed = x'00' where hash = '${hash}'`);
  other.close();
};

const pull = () =>
  store.commit({ documents: [GRID], cells: [cellOf(CELL, { document: GRID.hash, receivedAtMs: 1 })] });

const readAlerts = (fetchedAtMs: number) =>
  store.commit({
    documents: [ALERTS],
    places: [placeOf(PLACE, { cell: CELL, alerts: ALERTS.hash, alertsFetchedAtMs: fetchedAtMs })],
  });

const mirrorOf = () => {
  const source = { read: ({ bytes }: { bytes: Uint8Array }) => Buffer.from(bytes).toString() };
  return createMirror({
    store,
    source: source as unknown as { read(): Forecast },
    steadyMs: () => 0,
  });
};

it('a forecast: the site has none, with the reason, until it is pulled again', async () => {
  await pull();
  await readAlerts(1);
  damage(GRID.hash);
  const mirror = mirrorOf();
  await mirror.sync();
  expect(mirror.state(SITE)).toMatchObject({ held: null, fault: { code: 'store_unavailable' } });
  await mirror.sync();
  expect(mirror.state(SITE).held).toBeNull();
  await pull();
  await mirror.sync();
  expect(mirror.state(SITE)).toMatchObject({ held: { forecast: 'a forecast' }, fault: null });
});

it('a list of alerts: it counts as never read until it is read again, and then as another state', async () => {
  await pull();
  await readAlerts(1);
  damage(ALERTS.hash);
  const mirror = mirrorOf();
  await mirror.sync();
  const without = mirror.state(SITE);
  expect(without).toMatchObject({ alertsHash: null, held: { alerts: { complete: false } } });
  await store.commit({
    documents: [ALERTS],
    alertsRead: [{ places: [PLACE], fetchedAtMs: 2 }],
  });
  await mirror.sync();
  const again = mirror.state(SITE);
  expect(again).toMatchObject({
    alertsHash: ALERTS.hash,
    held: { alerts: { complete: true, fetchedAtMs: 2 } },
  });
  expect(again.version).toBeGreaterThan(without.version);
});
