import { expect, it } from 'vitest';
import { stationFields } from '#config/stations.ts';
import { createStationShelf } from '#service/watch/station-shelf.ts';
import { AIRPORT } from '../../builders/watch.ts';

const SITE = 'org/quarry-field';

const definition = (latDeg: number) => ({
  fields: { at: [latDeg, -122], stations: [stationFields.parse({ id: 'airfield', kind: 'nws' })] },
});

const ids = (stations: readonly { readonly id: string }[]) => stations.map(({ id }) => id);

it('none in reach is known only once the source has answered so, for the place that was asked about', () => {
  const sites = new Map([[SITE, definition(39)]]);
  const shelf = createStationShelf({ book: () => ({ sites }) } as never);
  const known = () => [ids(shelf.unfound(SITE)), ids(shelf.noneNear(SITE))];
  expect(known()).toEqual([['airfield'], []]);
  shelf.none([
    { site: SITE, station: 'airfield' },
    { site: 'org/gone', station: 'airfield' },
  ]);
  expect(known()).toEqual([[], ['airfield']]);
  shelf.found([{ site: SITE, station: { ...AIRPORT, id: 'airfield-kxyz' } }]);
  expect(known()).toEqual([[], []]);
  expect(ids(shelf.of(SITE))).toEqual(['airfield-kxyz']);
});

it('a site that is moved is asked about anew', () => {
  let sites = new Map([[SITE, definition(39)]]);
  const shelf = createStationShelf({ book: () => ({ sites }) } as never);
  shelf.none([{ site: SITE, station: 'airfield' }]);
  sites = new Map([[SITE, definition(40)]]);
  expect([ids(shelf.unfound(SITE)), ids(shelf.noneNear(SITE))]).toEqual([['airfield'], []]);
});
