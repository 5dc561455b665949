// A cell with many sites is decoded once, and every site reads what it would have read alone.

import { describe, expect, it } from 'vitest';
import type { CellDocument } from '#sources/grid-source.ts';
import type { GridContext } from '#sources/nws/context.ts';
import { makeGridReader } from '#sources/nws/grid-reader.ts';
import { decodeGridpoint, documentIdOf, readGridpoint } from '#sources/nws/gridpoint.ts';
import { makeGridSource } from '#sources/nws/nws-grid-source.ts';
import { describeRecorded, recorded, recordedNames } from '../recorded.ts';
import { at, bytesOf, FETCHED_MS, grid, kmh } from './grid-fixture.ts';

/** A reader that counts how often it decodes. */
function counting(mostKept: number) {
  let decodes = 0;
  const read = makeGridReader(mostKept, (bytes, options) => {
    decodes += 1;
    return decodeGridpoint(bytes, options);
  });
  return { read, decodes: () => decodes };
}

const documentWith = (wind: number, more: object = {}) =>
  bytesOf(grid({ windSpeed: kmh(at('18/PT6H', wind)), ...more }));

/** Inside of the cell, 1 km and 40 km outside of it. */
const PLACES = [
  ...Array.from({ length: 98 }, (_, i) => ({ latDeg: 40.6 + i / 5000, lonDeg: -74.03 })),
  { latDeg: 40.629, lonDeg: -74.03 },
  { latDeg: 41, lonDeg: -74.03 },
];

describe('a document', () => {
  it('is decoded once for a hundred sites, each of which reads what it would have read alone', () => {
    // With faults before and after those that concern the place: their order is part of the answer.
    const bytes = documentWith(18, {
      windGust: kmh({ validTime: 'nonsense', value: 1 }),
      gridId: null,
      '@id': null,
      updateTime: 'soon',
      hazards: { values: 'none' },
    });
    const { read, decodes } = counting(4);
    for (const place of PLACES) {
      const options = { fetchedAtMs: FETCHED_MS, place };
      expect(JSON.stringify(read(bytes, options))).toBe(JSON.stringify(readGridpoint(bytes, options)));
    }
    expect(decodes()).toBe(1);
    const outside = read(bytes, { fetchedAtMs: FETCHED_MS, place: { latDeg: 41, lonDeg: -74.03 } });
    expect(outside.forecast.faults.map(({ kind }) => kind)).toEqual([
      'interval-unreadable',
      'cell-unreadable',
      'place-outside-cell',
      'update-time-unreadable',
      'layer-unreadable',
    ]);
  });

  it('that was received at another moment is another reading', () => {
    const { read, decodes } = counting(4);
    const bytes = documentWith(18);
    expect(read(bytes, { fetchedAtMs: 1000 }).forecast.fetchedAtMs).toBe(1000);
    expect(read(bytes, { fetchedAtMs: 2000 }).forecast.fetchedAtMs).toBe(2000);
    expect(decodes()).toBe(2);
  });

  it('that cannot be read is refused each time', () => {
    const { read } = counting(4);
    for (let i = 0; i < 2; i += 1) {
      expect(() => read(bytesOf('{}'), { fetchedAtMs: 0 })).toThrow('no gridpoint document');
    }
  });

  it('gives way to others where more are asked for than are kept, the longest unused first', () => {
    const { read, decodes } = counting(2);
    const [a, b, c] = [1, 2, 3].map((wind) => documentWith(wind)) as [Uint8Array, Uint8Array, Uint8Array];
    for (const bytes of [a, b, a, c, a]) read(bytes, { fetchedAtMs: 0 });
    expect(decodes()).toBe(3);
    read(b, { fetchedAtMs: 0 });
    expect(decodes()).toBe(4);
  });
});

describe('the source', () => {
  it('decodes a cell with a hundred sites once, and judges each place for itself', () => {
    const { read, decodes } = counting(16);
    const source = makeGridSource({ readGrid: read } as unknown as GridContext, () => {
      throw new Error('nothing is asked');
    });
    const bytes = documentWith(18);
    const document: Pick<CellDocument, 'bytes' | 'receivedAtMs' | 'hash'> = {
      bytes,
      receivedAtMs: FETCHED_MS,
      hash: documentIdOf(bytes),
    };
    for (const place of PLACES.slice(0, 99)) {
      const { faults, documentId } = source.read(document, place, 'XXX 12,34');
      expect(documentId).toBe(document.hash);
      expect(faults.length).toBe(place.latDeg > 40.6225 ? 1 : 0);
    }
    expect(() => source.read(document, { latDeg: 41, lonDeg: -74.03 }, 'XXX 12,34')).toThrow(
      'does not hold 41,-74.03',
    );
    expect(decodes()).toBe(1);
  });
});

describeRecorded('recorded grids', () => {
  it.each(recordedNames('gridpoint-raw'))('%s: a second place reads the same bytes', (name) => {
    const { bytes, nowMs } = recorded(name);
    const read = makeGridReader(1);
    for (const place of [
      { latDeg: 33.5, lonDeg: -86.8 },
      { latDeg: 61.2, lonDeg: -149.9 },
    ]) {
      const options = { fetchedAtMs: nowMs, place };
      expect(read(bytes, options)).toEqual(readGridpoint(bytes, options));
    }
  });
});
