import { describe, expect, it } from 'vitest';
import type { Element } from '#core/series/elements.ts';
import { hours, type Row } from '../../builders/layer.ts';

describe('intervals become hours', () => {
  it('a value stands over its whole interval, and the layer ends where it ends (weather-gov/api issue 111 and recorded grids)', () => {
    expect(hours('mixingHeight', [[0, 3, 600]]).told).toEqual([600, 600, 600, 'ended', 'ended', 'ended']);
  });

  it('a hole inside a layer is missing, never "same as before" (item 29)', () => {
    expect(
      hours('lowVisibilityIndex', [
        [0, 2, 3],
        [4, 6, 5],
      ]).told,
    ).toEqual([3, 3, 'gap', 'gap', 5, 5]);
  });

  it('a layer that begins late has a gap before it', () => {
    expect(hours('windSpeed', [[2, 6, 4]]).told.slice(0, 3)).toEqual(['gap', 'gap', 4]);
  });

  it('an empty layer has no value in any hour (item 19)', () => {
    expect(hours('mixingHeight', []).told).toEqual(Array(6).fill('ended'));
  });

  it('an interval that began before the series counts from its first hour on (item 21)', () => {
    expect(
      hours('windSpeed', [
        [-5, 2, 3.7],
        [2, 20, 8],
      ]).told,
    ).toEqual([3.7, 3.7, 8, 8, 8, 8]);
  });

  it('zero is a value (item 28)', () => {
    expect(
      hours('mixingHeight', [
        [0, 1, 128.9],
        [1, 2, 0],
        [2, 6, 19.8],
      ]).told.slice(0, 3),
    ).toEqual([128.9, 0, 19.8]);
  });

  it('null is missing in every hour that it touches (item 33)', () => {
    expect(
      hours('windSpeed', [
        [0, 2.5, null],
        [2.5, 6, 5],
      ]).told.slice(0, 4),
    ).toEqual(['null-value', 'null-value', 'null-value', 5]);
  });

  it('the order in which intervals are written does not matter', () => {
    const rows: Row[] = [
      [0, 2, 3],
      [2, 3, 4],
      [3, 6, 5],
    ];
    expect(hours('windSpeed', [...rows].reverse()).told).toEqual(hours('windSpeed', rows).told);
  });
});

describe('values that cannot be are missing (item 32: the ranges of its gate)', () => {
  it.each<[Element, number]>([
    ['windSpeed', -0.1],
    ['windSpeed', 112.1],
    ['windGust', -1],
    ['relativeHumidity', 1137],
    ['relativeHumidity', -1],
    ['mixingHeight', 10_001],
    ['temperature', 61],
    ['temperature', -71],
    ['windSpeed', Number.POSITIVE_INFINITY],
    ['relativeHumidity', Number.POSITIVE_INFINITY],
    ['temperature', Number.NEGATIVE_INFINITY],
    ['windDirection', 361],
    ['probabilityOfThunder', 101],
  ])('%s of %d', (element, value) => {
    const { told, faults } = hours(element, [[0, 6, value]]);
    expect(told).toEqual(Array(6).fill('out-of-range'));
    expect(faults.outOfRange).toBe(1);
  });

  it('the ends of the range are values', () => {
    expect(
      hours('relativeHumidity', [
        [0, 3, 0],
        [3, 6, 100],
      ]).told,
    ).toEqual([0, 0, 0, 100, 100, 100]);
  });
});
describe('differing values within one hour', () => {
  it('contradict each other for wind, since which is graver depends on the limit (item 31)', () => {
    const { told, faults } = hours(
      'windSpeed',
      [
        [0, 2, 4],
        [1, 3, 6],
      ],
      3,
    );
    expect(told).toEqual([4, 'contradictory', 6]);
    expect(faults.contradictory).toBe(1);
  });

  it('give the largest for gust and probability of thunder, whichever is written first (item 31)', () => {
    expect(
      hours(
        'windGust',
        [
          [1, 3, 20.4],
          [0, 3, 46.3],
        ],
        3,
      ).told,
    ).toEqual([46.3, 46.3, 46.3]);
    expect(
      hours(
        'probabilityOfThunder',
        [
          [0, 0.5, 30],
          [0.5, 1, 10],
        ],
        1,
      ).told,
    ).toEqual([30]);
  });

  it('are told twice without harm where they agree', () => {
    expect(
      hours(
        'windSpeed',
        [
          [0, 3, 4],
          [1, 2, 4],
        ],
        3,
      ).told,
    ).toEqual([4, 4, 4]);
  });
});

describe('amounts', () => {
  it('are shared out over their interval: 2.54 mm in six hours are not 2.54 mm in each (item 23)', () => {
    const { column } = hours('quantitativePrecipitation', [[0, 6, 2.54]]);
    for (const value of column.values) expect(value).toBeCloseTo(2.54 / 6, 12);
  });

  it('of two intervals that meet within an hour add up', () => {
    expect(
      hours(
        'quantitativePrecipitation',
        [
          [0, 0.5, 1],
          [0.5, 1, 3],
        ],
        1,
      ).told,
    ).toEqual([4]);
  });

  it('that overlap contradict each other', () => {
    expect(
      hours(
        'quantitativePrecipitation',
        [
          [0, 2, 1],
          [1, 3, 1],
        ],
        3,
      ).told,
    ).toEqual([0.5, 'contradictory', 0.5]);
  });
});
