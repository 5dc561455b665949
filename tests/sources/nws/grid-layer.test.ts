// Units, and intervals and layers of shapes that only an adversary would write. Documents are ours.

import { describe, expect, it } from 'vitest';
import { readGridpoint } from '#sources/nws/gridpoint.ts';
import * as f from './grid-fixture.ts';

const { at, faultsOf, hoursOf, readGrid } = f;
const gaps = (n: number, reason: string): string[] => Array.from({ length: n }, () => reason);

describe('a unit of a layer', () => {
  it.each([['wmoUnit:furlong'], ['wmoUnit:m'], [null], [3]])(
    '%s makes the wind unusable, never guessed',
    (uom) => {
      const reading = readGrid({ windSpeed: { uom, values: [at('18/PT6H', 10)] } });
      expect(hoursOf(reading, 'windSpeed')).toEqual(gaps(6, 'unit-unknown'));
      expect(faultsOf(reading)).toEqual(['unit-unknown windSpeed 1']);
    },
  );

  it('may be lacking where the layer by custom carries none', () => {
    const reading = readGrid({
      probabilityOfThunder: { values: [at('18/PT6H', 8.7)] },
      lightningActivityLevel: { values: [at('18/PT6H', 2)] },
      redFlagThreatIndex: { values: [at('18/PT6H', 1)] },
    });
    expect(hoursOf(reading, 'probabilityOfThunder')[0]).toBe(8.7);
    expect(hoursOf(reading, 'lightningActivityLevel')[0]).toBe(2);
    expect(hoursOf(reading, 'redFlagThreat')[0]).toBe(1);
  });

  it('that is given to such a layer must still be known', () => {
    const reading = readGrid({
      lightningActivityLevel: { uom: 'wmoUnit:percent', values: [at('18/PT6H', 2)] },
    });
    expect(hoursOf(reading, 'lightningActivityLevel')[0]).toBe('unit-unknown');
  });
});

describe('the two dispersion layers', () => {
  const one = { values: [at('18/PT6H', 40)] };
  const other = { values: [at('18/PT6H', 55)] };
  const of = (layers: object) => hoursOf(readGrid(layers), 'dispersionIndex')[0];

  it('give the first that has values', () => {
    expect(of({ dispersionIndex: one, atmosphericDispersionIndex: other })).toBe(40);
    expect(of({ dispersionIndex: { values: [] }, atmosphericDispersionIndex: other })).toBe(55);
    expect(
      of({ dispersionIndex: { values: [at('18/PT6H', null)] }, atmosphericDispersionIndex: other }),
    ).toBe(55);
    expect(of({ atmosphericDispersionIndex: other })).toBe(55);
    expect(of({ atmosphericDispersionIndex: { values: [] } })).toBe('layer-empty');
    expect(of({})).toBe('layer-absent');
  });
});

describe('intervals that are not as they should be', () => {
  const wind = (...values: unknown[]) => readGrid({ windSpeed: f.kmh(...values) });

  it('that cannot be read leave their hours out and are counted', () => {
    const reading = wind(at('18/PT1H', 36), at('19/P1M', 36), { value: 36 }, at('22/PT2H', 36));
    expect(hoursOf(reading, 'windSpeed')).toEqual([10, 'gap', 'gap', 'gap', 10, 10]);
    expect(faultsOf(reading)).toEqual(['interval-unreadable windSpeed 2']);
    expect(reading.forecast.faults[0]?.example).toContain('years, months or weeks');
  });

  it('that end before they begin are dropped and counted', () => {
    const reading = wind(at('18/2026-03-02T17:00:00Z', 36), at('19/PT1H', 36));
    expect(hoursOf(reading, 'windSpeed')).toEqual(['gap', 10, ...gaps(4, 'ended')]);
    expect(faultsOf(reading)).toEqual(['interval-reversed windSpeed 1']);
  });

  it('that lie across the hour give a value only to hours that they fill', () => {
    const reading = wind(at('2026-03-02T18:30:00+00:00/PT2H', 36));
    expect(hoursOf(reading, 'windSpeed')).toEqual(['part-covered', 10, 'part-covered', ...gaps(3, 'ended')]);
    expect(faultsOf(reading)).toEqual(['interval-unaligned windSpeed 1']);
  });

  it('that change within the hour leave it without a value', () => {
    const reading = wind(
      at('2026-03-02T18:00:00+00:00/PT30M', 36),
      at('2026-03-02T18:30:00+00:00/PT30M', 18),
    );
    expect(hoursOf(reading, 'windSpeed')[0]).toBe('contradictory');
  });

  it('that come twice count once, also as an amount', () => {
    const twice = [at('18/PT6H', 2.4), at('18/PT6H', 2.4)];
    const reading = readGrid({ quantitativePrecipitation: f.mm(...twice) });
    expect(hoursOf(reading, 'quantitativePrecipitation')[0]).toBeCloseTo(0.4, 9);
    expect(faultsOf(reading)).toEqual(['interval-duplicate quantitativePrecipitation 1']);
  });

  it('that are amounts and overlap contradict each other', () => {
    const reading = readGrid({ quantitativePrecipitation: f.mm(at('18/PT6H', 2.4), at('20/PT2H', 1)) });
    const [first, , third] = hoursOf(reading, 'quantitativePrecipitation');
    expect(first).toBeCloseTo(0.4, 9);
    expect(third).toBe('contradictory');
  });

  it('that are out of order give the same hours', () => {
    const sorted = wind(at('18/PT1H', 36), at('19/PT5H', 18));
    const mixed = wind(at('19/PT5H', 18), at('18/PT1H', 36));
    expect(hoursOf(mixed, 'windSpeed')).toEqual(hoursOf(sorted, 'windSpeed'));
    expect(faultsOf(mixed)).toEqual(['interval-unsorted windSpeed 1']);
  });

  it.each([['36'], [true], [{ value: 36 }], [[36]], [undefined]])(
    'with value %j have none, and are counted',
    (value) => {
      const reading = wind(at('18/PT6H', value));
      expect(hoursOf(reading, 'windSpeed')).toEqual(gaps(6, 'null-value'));
      expect(faultsOf(reading)).toEqual(['value-unreadable windSpeed 1']);
    },
  );

  it('with a number too large for a float are out of range', () => {
    const text = JSON.stringify(f.grid({ windSpeed: f.kmh(at('18/PT6H', 12345)) })).replace('12345', '1e999');
    const reading = readGridpoint(f.bytesOf(text), { fetchedAtMs: f.FETCHED_MS });
    expect(hoursOf(reading, 'windSpeed')).toEqual(gaps(6, 'out-of-range'));
  });

  it.each([[null], [3], ['18Z'], [[]]])('that are %j are counted and fill nothing', (entry) => {
    const reading = wind(entry, at('18/PT1H', 36));
    expect(hoursOf(reading, 'windSpeed')).toEqual([10, ...gaps(5, 'ended')]);
    expect(reading.forecast.faults).toHaveLength(1);
  });
});

describe('a layer that is no list', () => {
  it.each([[null], [3], ['x'], [[]], [{}], [{ values: null }], [{ values: {} }], [{ values: 'x' }]])(
    'as %j is unreadable',
    (layer) => {
      const reading = readGrid({ windSpeed: layer, hazards: layer, weather: layer });
      expect(hoursOf(reading, 'windSpeed')).toEqual(gaps(6, 'layer-unreadable'));
      expect(faultsOf(reading)).toEqual([
        'layer-unreadable windSpeed 1',
        'layer-unreadable hazards 1',
        'layer-unreadable weather 1',
      ]);
      expect(reading.forecast.hazards).toEqual([]);
    },
  );
});
