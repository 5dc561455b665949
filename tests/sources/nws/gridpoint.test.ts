// A whole gridpoint document: its span, weather, hazards and cell, and what is none. Documents are ours.

import { describe, expect, it } from 'vitest';
import { ELEMENT_NAMES } from '#core/series/elements.ts';
import { ServiceError } from '#errors.ts';
import { readGridpoint } from '#sources/nws/gridpoint.ts';
import { LAYERS } from '#sources/nws/layers.ts';
import * as f from './grid-fixture.ts';

const { at, faultsOf, hoursOf, readGrid } = f;
const gaps = (n: number, reason: string): string[] => Array.from({ length: n }, () => reason);

describe('the span of a document', () => {
  const wind = f.kmh(at('18/PT2H', 36), at('20/PT3H', 18));

  it.each([[undefined], [null], ['NOW/P7D'], ['2026-03-02T18:00:00+00:00/PT0S'], [7]])(
    'is that of its layers where it says %j',
    (validTimes) => {
      const reading = readGrid({ validTimes, windSpeed: wind });
      expect(reading.forecast.series.startMs).toBe(f.START_MS);
      expect(hoursOf(reading, 'windSpeed')).toEqual([10, 10, 5, 5, 5]);
      expect(faultsOf(reading)).toEqual(['valid-times-unreadable validTimes 1']);
    },
  );

  it('is empty where neither it nor a layer says', () => {
    const reading = readGrid({ validTimes: null });
    expect(reading.forecast.series.hours).toBe(0);
  });

  it('begins at the floor of the hour', () => {
    const reading = readGrid({ validTimes: '2026-03-02T18:20:00+00:00/PT2H', windSpeed: wind });
    expect(reading.forecast.series.startMs).toBe(f.START_MS);
    expect(reading.forecast.series.hours).toBe(3);
  });

  it('is cut at 16 days', () => {
    const reading = readGrid({
      validTimes: '2026-03-02T18:00:00+00:00/P400D',
      windSpeed: f.kmh(at('18/P400D', 36)),
    });
    expect(reading.forecast.series.hours).toBe(384);
    expect(faultsOf(reading)).toEqual(['span-cut validTimes 1']);
  });

  it('that lies elsewhere than the layers leaves every hour without a value', () => {
    const reading = readGrid({ validTimes: '2030-01-01T00:00:00+00:00/PT3H', windSpeed: wind });
    expect(hoursOf(reading, 'windSpeed')).toEqual(gaps(3, 'ended'));
  });
});

describe('weather and hazards', () => {
  it('are read in the source words; a member without a name is a dry hour', () => {
    const smoke = {
      coverage: 'areas',
      weather: 'smoke',
      intensity: null,
      visibility: { unitCode: 'wmoUnit:km', value: null },
    };
    const none = { coverage: null, weather: null, intensity: null, attributes: [] };
    const reading = readGrid({ weather: { values: [at('18/PT1H', [none]), at('19/PT2H', [smoke, none])] } });
    expect(reading.forecast.weather).toEqual([
      { fromMs: f.START_MS + 3_600_000, toMs: f.START_MS + 10_800_000, weather: 'smoke', coverage: 'areas' },
    ]);
    expect(faultsOf(reading)).toEqual([]);
  });

  it('that are no lists are counted, and a hazard of unknown kind stays', () => {
    const reading = readGrid({
      hazards: { values: [at('18/PT1H', 'FW'), at('19/PT1H', [7])] },
      weather: { values: [at('18/PT1H', 'smoke'), at('19/PT1H', [7]), at('20/PT1H', [{ weather: 3 }])] },
    });
    expect(reading.forecast.hazards.map(({ phenomenon }) => phenomenon)).toEqual([null, null]);
    expect(faultsOf(reading)).toEqual(['value-unreadable hazards 1', 'value-unreadable weather 3']);
  });
});

describe('what is no gridpoint document', () => {
  it.each([
    ['', 'is no JSON'],
    ['<HTML><HEAD><TITLE>Access Denied</TITLE></HEAD>', 'is no JSON'],
    ['{"properties":{"windSpeed":{"values":[NaN]}}}', 'is no JSON'],
    ['null', 'no gridpoint'],
    ['[]', 'no gridpoint'],
    ['{"type":"Feature"}', 'no gridpoint'],
    ['{"properties":null}', 'no gridpoint'],
    ['{"properties":{"windSpeed":null}}', 'no gridpoint'],
    ['{"properties":{"forecast":"x","gridId":"XXX"}}', 'no gridpoint'],
    ['{"title":"Forecast Grid Expired","status":503}', 'Forecast Grid Expired'],
  ])('%s is refused', (text, part) => {
    const read = () => readGridpoint(f.bytesOf(text), { fetchedAtMs: f.FETCHED_MS });
    expect(read).toThrow(ServiceError);
    expect(read).toThrow(part);
  });

  it('is refused when cut off at any byte', () => {
    const bytes = f.bytesOf(f.grid({ windSpeed: f.kmh(at('18/PT6H', 36)) }));
    for (let length = 0; length < bytes.length; length += 1) {
      expect(() => readGridpoint(bytes.subarray(0, length), { fetchedAtMs: 0 })).toThrow(ServiceError);
    }
  });
});

describe('any JSON in any place', () => {
  const odd: unknown[] = [null, 3, 'x', true, [], {}, [null], { toString: 1 }, { values: [{ toString: 1 }] }];
  const members = [
    'updateTime',
    'validTimes',
    'elevation',
    'gridId',
    'gridX',
    '@id',
    'hazards',
    'weather',
    'windSpeed',
    'dewpoint',
  ];

  it.each(members)('in %s never throws and never makes a wind', (member) => {
    for (const value of odd) {
      const reading = readGrid({ windGust: f.kmh(at('18/PT1H', 36)), [member]: value });
      expect(hoursOf(reading, 'windSpeed').every((hour) => typeof hour === 'string')).toBe(true);
    }
  });

  it('in the geometry never throws and holds no place', () => {
    const place = { latDeg: 40.61, lonDeg: -74.03 };
    for (const geometry of [...odd, { type: 'Polygon' }, { type: 'Polygon', coordinates: [[1, 2, 3, 4]] }]) {
      const reading = readGridpoint(f.bytesOf(f.grid({}, geometry)), { fetchedAtMs: 0, place });
      expect(reading.holdsPlace).toBeNull();
      expect(faultsOf(reading)).toEqual(['geometry-unreadable geometry 1']);
    }
  });
});

describe('the cell of a document', () => {
  const holds = (latDeg: number, lonDeg: number) =>
    readGridpoint(f.bytesOf(f.grid({})), { fetchedAtMs: 0, place: { latDeg, lonDeg } });

  it('is named from text or numbers alike', () => {
    expect(readGrid({}).forecast.cell).toBe('XXX 12,34');
    expect(readGrid({ gridId: null }).forecast.cell).toBe('XXX 12,34');
    expect(readGrid({ gridId: null, '@id': null }).forecast.cell).toBe('');
  });

  it('holds a place inside of it, or within 250 m of its edge', () => {
    expect(holds(40.61, -74.03).holdsPlace).toBe(true);
    expect(holds(40.622, -74.03).holdsPlace).toBe(true); // 0.002° of latitude is 222 m
    expect(holds(40.623, -74.03).holdsPlace).toBe(false); // 333 m
    expect(faultsOf(holds(40.623, -74.03))).toEqual(['place-outside-cell geometry 1']);
  });

  it('that was redrawn no longer holds the place (wg#756)', () => {
    expect(holds(40.71, -74.01).holdsPlace).toBe(false);
  });

  it('that lies on the date line holds a place on it', () => {
    const ring = [
      [179.99, 51],
      [-179.98, 51],
      [-179.98, 51.02],
      [179.99, 51.02],
      [179.99, 51],
    ];
    const document = f.bytesOf(f.grid({}, { type: 'Polygon', coordinates: [ring] }));
    const of = (lonDeg: number) =>
      readGridpoint(document, { fetchedAtMs: 0, place: { latDeg: 51.01, lonDeg } }).holdsPlace;
    expect([of(180), of(-180), of(-179.99), of(179.95)]).toEqual([true, true, true, false]);
  });

  it('has its height in metres, whatever the unit', () => {
    expect(readGrid({}).elevationM).toBe(120);
    expect(readGrid({ elevation: { unitCode: 'wmoUnit:ft', value: 1000 } }).elevationM).toBe(304.8);
    expect(readGrid({ elevation: { unitCode: 'wmoUnit:mm', value: 1000 } }).elevationM).toBeNull();
  });
});

describe('the table of layers', () => {
  it('fills every element that the grid can give, each once', () => {
    const filled = LAYERS.map((row) => row.element);
    expect(new Set(filled).size).toBe(filled.length);
    const derivedOnly = ELEMENT_NAMES.filter((name) => !filled.includes(name));
    expect(derivedOnly).toEqual(['ventilationRate', 'vapourPressureDeficit']);
  });

  it('names a document by its content', () => {
    const ids = [readGrid({}), readGrid({}), readGrid({ gridX: 13 })].map(
      (reading) => reading.forecast.documentId,
    );
    expect(ids[0]).toMatch(/^[0-9a-f]{64}$/);
    expect(ids[0]).toBe(ids[1]);
    expect(ids[2]).not.toBe(ids[0]);
  });
});
