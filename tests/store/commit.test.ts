// Documents, cells and places, and that a batch is written whole or not at all.

import { describe, expect, it } from 'vitest';
import type { Store } from '#store/store.ts';
import { BASIS, cellOf, documentOf, eventOf, placeOf, planOf } from '../builders/store.ts';
import { NOON_MS, onEachStore } from './on-each-store.ts';

const SITE = 'fern-hollow/north-block';

/** Everything there is, but for the probe. */
async function contentsOf(store: Store) {
  return {
    sizes: (await store.care.sizes()).rows,
    cells: await store.forecasts.cells(),
    places: await store.forecasts.places(),
    plans: await store.plans.newest(),
    events: await store.events.after({ after: 0, most: 100 }),
  };
}

onEachStore('documents', ({ open }) => {
  it('come back byte for byte, of any content and length', async () => {
    const store = await open();
    const every = Buffer.from(Array.from({ length: 256 }, (_, i) => i));
    const texts = ['', 'a', 'ä\u0000€', 'x'.repeat(2_000_000), every.toString('latin1').repeat(700)];
    const documents = texts.map((text) => documentOf(text));
    await store.commit({ documents });
    for (const { hash, bytes } of documents) {
      const read = await store.documents.read(hash);
      expect(read?.kind).toBe('gridpoint');
      expect(Buffer.compare(read?.bytes ?? Buffer.from('none'), bytes)).toBe(0);
    }
    expect(await store.documents.read('0'.repeat(64))).toBeNull();
  });

  it('are kept once by content', async () => {
    const store = await open();
    const one = documentOf('one');
    await store.commit({ documents: [one, one] });
    await store.commit({ documents: [one, documentOf('two', 'alerts')] });
    expect((await store.care.sizes()).rows['documents']).toBe(2);
    const asked = [one.hash, documentOf('three').hash, one.hash];
    expect(await store.documents.known(asked)).toEqual(new Set([one.hash]));
    expect(await store.documents.known([])).toEqual(new Set());
  });

  it('are refused under a hash that is not theirs', async () => {
    const store = await open();
    const wrong = { ...documentOf('one'), hash: documentOf('two').hash };
    await expect(store.commit({ documents: [wrong] })).rejects.toMatchObject({ code: 'internal' });
    expect((await store.care.sizes()).rows['documents']).toBe(0);
  });

  it('must be there before anything refers to them', async () => {
    const store = await open();
    const { hash } = documentOf('never kept');
    for (const batch of [
      { cells: [cellOf('BMX 59,84', { document: hash })] },
      { places: [placeOf('38.97,-92.33', { alerts: hash })] },
      { documents: BASIS.slice(1), plans: [planOf(SITE, NOON_MS)] },
    ]) {
      await expect(store.commit(batch)).rejects.toMatchObject({ code: 'document_missing' });
    }
    const { sizes, cells, places } = await contentsOf(store);
    expect({ documents: sizes['documents'], cells, places }).toEqual({ documents: 0, cells: [], places: [] });
  });
});

onEachStore('cells and places', ({ open }) => {
  it('come back as written, with the version counted from write to write', async () => {
    const store = await open();
    const document = documentOf('{"a":1}');
    const full = cellOf('BMX 59,84', {
      document: document.hash,
      receivedAtMs: NOON_MS - 5,
      confirmedAtMs: NOON_MS - 4,
      issuedAtMs: NOON_MS - 3_600_000,
      etag: 'W/"1-2"',
      lastModified: 'Mon, 02 Mar 2026 11:00:00 GMT',
      cycle: 1_476_000,
    });
    const fault = { code: 'source_unreachable', message: 'no answer\u0000“ö”', atMs: NOON_MS };
    await store.commit({ documents: [document], cells: [full, cellOf('AFG 1,2')] });
    await store.commit({ cells: [{ ...full, fault, failures: 3 }] });
    expect(await store.forecasts.cells()).toEqual([
      { ...cellOf('AFG 1,2'), version: 1 },
      { ...full, fault, failures: 3, version: 2 },
    ]);
    const place = placeOf('38.97,-92.33', { remembered: { seen: ['x'], at: 1.25 }, fault });
    await store.commit({ places: [place] });
    await store.commit({
      places: [placeOf('38.97,-92.33', { cell: null, timeZone: null, located: null, locatedAtMs: null })],
    });
    expect(await store.forecasts.places()).toEqual([
      {
        ...placeOf('38.97,-92.33', { cell: null, timeZone: null, located: null, locatedAtMs: null }),
        version: 2,
      },
    ]);
  });

  it('can be asked for by name, however many', async () => {
    const store = await open();
    const names = Array.from({ length: 1500 }, (_, i) => `BMX ${i},${i}`);
    await store.commit({
      cells: names.map((name) => cellOf(name)),
      places: names.map((name) => placeOf(name)),
    });
    expect(await store.forecasts.cells()).toHaveLength(1500);
    expect((await store.forecasts.cells([...names, 'nowhere'])).map((c) => c.cell)).toEqual(
      [...names].sort(),
    );
    expect(await store.forecasts.cells([])).toEqual([]);
    expect((await store.forecasts.places(['BMX 7,7'])).map((p) => p.place)).toEqual(['BMX 7,7']);
    expect(await store.forecasts.places(names)).toHaveLength(1500);
  });

  it('are written in part: what is not named stays as it was', async () => {
    const store = await open();
    await store.commit({ places: [placeOf('a', { cell: 'A 1,1', timeZone: 'America/Chicago' })] });
    await store.commit({
      places: [
        { place: 'a', remembered: [1] },
        { place: 'n', remembered: [2] },
      ],
    });
    await store.commit({ places: [{ place: 'a', fault: { code: 'x', message: 'y', atMs: 1 } }] });
    const [a, n] = await store.forecasts.places();
    expect(a).toMatchObject({
      cell: 'A 1,1',
      timeZone: 'America/Chicago',
      remembered: [1],
      fault: { code: 'x' },
      version: 3,
    });
    expect(n).toMatchObject({ cell: null, located: null, remembered: [2], version: 1 });
  });

  it('note that alerts were read again without a new version, and never an older reading over a newer', async () => {
    const store = await open();
    await store.commit({ places: [placeOf('a'), placeOf('b', { alertsFetchedAtMs: 500 }), placeOf('c')] });
    const alertsRead = (fetchedAtMs: number) =>
      store.commit({ alertsRead: [{ places: ['a', 'b', 'x'], fetchedAtMs }] });
    await alertsRead(400);
    await alertsRead(600);
    await alertsRead(550);
    const read = await store.forecasts.places();
    expect(read.map((p) => [p.place, p.alertsFetchedAtMs, p.version])).toEqual([
      ['a', 600, 1],
      ['b', 600, 1],
      ['c', null, 1],
    ]);
  });
});

onEachStore('marks', ({ open }) => {
  it('differ exactly where something is newer', async () => {
    const store = await open();
    const first = await store.marks();
    expect([...first.cells, ...first.places]).toEqual([]);
    await store.commit({ cells: [cellOf('A 1,1'), cellOf('A 2,2')], places: [placeOf('p')] });
    await store.commit({ cells: [cellOf('A 2,2')], alertsRead: [{ places: ['p'], fetchedAtMs: 9 }] });
    const second = await store.marks();
    expect([...second.cells].sort()).toEqual([
      ['A 1,1', 1],
      ['A 2,2', 2],
    ]);
    expect([...second.places]).toEqual([['p', { version: 1, alertsFetchedAtMs: 9 }]]);
    expect(second).toMatchObject({ definitions: first.definitions, keys: first.keys });
    expect(await store.marks()).toEqual(second);
    const { cells, places } = await store.marks({ cells: ['A 2,2', 'A 3,3'], places: [] });
    expect([...cells, ...places]).toEqual([['A 2,2', 2]]);
  });
});

onEachStore('a batch', ({ open, address }) => {
  const batch = () => ({
    documents: [...BASIS],
    cells: [cellOf('BMX 59,84', { document: BASIS[1]?.hash ?? null })],
    places: [placeOf('p', { alerts: BASIS[2]?.hash ?? null })],
    plans: [planOf(SITE, NOON_MS)],
    events: [eventOf(SITE)],
  });

  it('is there after the store is opened again', async () => {
    const where = await address();
    const store = await open(where);
    await store.commit(batch());
    const before = await contentsOf(store);
    await store.close();
    expect(await contentsOf(await open(where))).toEqual(before);
    expect(before.plans).toEqual([planOf(SITE, NOON_MS)]);
  });

  describe('leaves nothing behind where', () => {
    it('its claim is lost', async () => {
      const store = await open();
      const before = await contentsOf(store);
      const done = [{ work: 'pull BMX 59,84', cycle: 7, worker: 'w1' }];
      await expect(store.commit({ ...batch(), done })).rejects.toMatchObject({ code: 'claim_lost' });
      expect(await contentsOf(store)).toEqual(before);
    });

    it('its last row cannot be written', async () => {
      const store = await open();
      const before = await contentsOf(store);
      // No text: every step before it goes well.
      const events = [eventOf(SITE), eventOf(SITE, { subject: null as unknown as string })];
      await expect(store.commit({ ...batch(), events })).rejects.toThrow(/null/i);
      expect(await contentsOf(store)).toEqual(before);
      await store.commit(batch());
      expect((await store.events.after({ after: 0, most: 9 })).map((e) => e.position)).toEqual([1]);
    });
  });

  it('may be empty', async () => {
    const store = await open();
    await store.commit({});
    await store.commit({ documents: [], cells: [], places: [], plans: [], events: [], done: [] });
    expect(store.health()).toEqual({ ok: true });
  });
});
