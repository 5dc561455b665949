import { describe, expect, it } from 'vitest';
import { ServiceError } from '#errors.ts';
import { placePath, readPoint } from '#sources/nws/point.ts';
import { describeRecorded, recorded } from '../recorded.ts';
import { bytesOf } from './grid-fixture.ts';

const PLACE = { latDeg: 40.61, lonDeg: -74.03 };
const ZONES = 'https://api.weather.gov/zones';

const answer = (properties: object) => ({
  type: 'Feature',
  properties: {
    cwa: 'XXX',
    gridId: 'XXX',
    gridX: 12,
    gridY: 34,
    forecastGridData: 'https://api.weather.gov/gridpoints/XXX/12,34',
    forecastZone: `${ZONES}/forecast/XXZ110`,
    county: `${ZONES}/county/XXC005`,
    fireWeatherZone: `${ZONES}/fire/XXZ238`,
    timeZone: 'America/Chicago',
    ...properties,
  },
});

const read = (properties: object) => readPoint(bytesOf(answer(properties)), PLACE);

function codeOf(run: () => unknown): string {
  try {
    run();
  } catch (fault) {
    return fault instanceof ServiceError ? fault.code : 'another error';
  }
  return 'no error';
}

describe('a place in a URL', () => {
  it.each([
    [47.65531, -122.53541, '47.6553,-122.5354'],
    [39.7, -97.1, '39.7,-97.1'],
    [39.5, -97, '39.5,-97'],
    [39.74560000000001, -97.08919999999999, '39.7456,-97.0892'],
    [-0.00001, -0, '0,0'],
    [0.00004, 179.99996, '0,180'],
  ])('%d, %d is %s', (latDeg, lonDeg, path) => {
    expect(placePath({ latDeg, lonDeg })).toBe(path);
  });

  it.each([
    [Number.NaN, 0],
    [91, 0],
    [0, -181],
    [Number.POSITIVE_INFINITY, 0],
  ])('%d, %d is no place', (latDeg, lonDeg) => {
    expect(codeOf(() => placePath({ latDeg, lonDeg }))).toBe('outside_coverage');
  });
});

describe('a points answer', () => {
  it('gives cell, zones with their kinds, and time zone', () => {
    expect(read({})).toEqual({
      point: {
        place: PLACE,
        cell: 'XXX 12,34',
        timeZone: 'America/Chicago',
        zones: [
          { kind: 'forecast', code: 'XXZ110' },
          { kind: 'county', code: 'XXC005' },
          { kind: 'fire', code: 'XXZ238' },
        ],
      },
      gridpointPath: '/gridpoints/XXX/12,34',
      lackingZones: [],
    });
  });

  it('names the grid by gridId, not by office (wg#1681: office AFC, grid AER)', () => {
    const { gridpointPath } = read({
      cwa: 'AFC',
      gridId: 'AER',
      gridX: 143,
      gridY: '236',
      forecastGridData: null,
    });
    expect(gridpointPath).toBe('/gridpoints/AER/143,236');
  });

  it('falls back to the grid URL where it has no gridId, as in 2020', () => {
    expect(read({ gridId: undefined }).gridpointPath).toBe('/gridpoints/XXX/12,34');
  });

  it('with null grid members says that there is no grid for the place (api#51)', () => {
    const nulls = { cwa: 'AFC', gridId: null, gridX: null, gridY: null, forecastGridData: null };
    expect(codeOf(() => read(nulls))).toBe('outside_coverage');
    expect(() => read(nulls)).toThrow('no grid for this place: 40.61,-74.03');
  });

  it.each([
    [{ gridId: '../alerts', forecastGridData: null }],
    [{ gridX: -1, forecastGridData: null }],
    [{ gridX: 1.5, forecastGridData: 'https://api.weather.gov/gridpoints/XXX/1.5,2' }],
    [{ gridId: 'XXX?', forecastGridData: 'x' }],
  ])('never builds a path from what is no grid: %j', (properties) => {
    expect(codeOf(() => read(properties))).toBe('outside_coverage');
  });

  it.each([[undefined], [null], ['Mars/Olympus'], [5]])('with time zone %j cannot be read', (timeZone) => {
    expect(codeOf(() => read({ timeZone }))).toBe('source_unreadable');
  });

  it('names the kinds of zone that it lacks', () => {
    const { point, lackingZones } = read({ fireWeatherZone: null, county: `${ZONES}/county/nowhere` });
    expect(point.zones).toEqual([{ kind: 'forecast', code: 'XXZ110' }]);
    expect(lackingZones).toEqual(['county', 'fire']);
  });

  it.each([[''], ['[]'], ['{"properties":{}}'], ['<html>'], ['null']])(
    'that is %s cannot be read',
    (text) => {
      expect(codeOf(() => readPoint(bytesOf(text), PLACE))).toBe('source_unreadable');
    },
  );
});

describeRecorded('a recorded points answer', () => {
  // Cells and zones as the README of the recordings states them.
  it.each([
    ['points_BMX_20240220.json', '/gridpoints/BMX/59,84', 'ALZ024', 'ALC073', 'ALZ024', 'America/Chicago'],
    ['points_HFO_20240409.json', '/gridpoints/HFO/154,145', 'HIZ033', 'HIC003', 'HIZ308', 'Pacific/Honolulu'],
    [
      'points_AFG-Fairbanks_202606.json',
      '/gridpoints/AFG/492,119',
      'AKZ844',
      'AKC090',
      'AKZ944',
      'America/Anchorage',
    ],
    [
      'points_AFG-NorthSlope_202606.json',
      '/gridpoints/AFG/368,294',
      'AKZ806',
      'AKC185',
      'AKZ906',
      'America/Anchorage',
    ],
    ['points_TOP_2020.json', '/gridpoints/TOP/47,84', 'KSZ010', 'KSC117', 'KSZ010', 'America/Chicago'],
    ['points_mmuszynski_2021.json', '/gridpoints/TOP/31,80', 'KSZ009', 'KSC201', 'KSZ009', 'America/Chicago'],
    ['points_pynws.json', '/gridpoints/TAE/58,65', 'FLZ015', 'FLC037', 'FLZ015', 'America/New_York'],
  ])('%s leads to %s', (name, path, forecast, county, fire, timeZone) => {
    const { point, gridpointPath, lackingZones } = readPoint(recorded(name).bytes, PLACE);
    expect(gridpointPath).toBe(path);
    expect(point.timeZone).toBe(timeZone);
    expect(lackingZones).toEqual([]);
    expect(point.zones).toEqual([
      { kind: 'forecast', code: forecast },
      { kind: 'county', code: county },
      { kind: 'fire', code: fire },
    ]);
  });
});
