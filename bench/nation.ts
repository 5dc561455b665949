// An invented nation to measure with: so many cells in which so many sites lie, spread over four time zones. Sites beyond
// the number of cells lie in the first cells again, beside the others.

import type { DemoCell } from '#demo/cells.ts';
import { EIGHT_LIMITS } from './pipeline.ts';

export interface NationSize {
  readonly siteCount: number;
  readonly cellCount: number;
}

/** As the goals name it. */
export const NATION: NationSize = { siteCount: 5000, cellCount: 3000 };

export type NationCell = Omit<DemoCell, 'siteId' | 'story' | 'mixingEndsAfterH'>;

const CELLS_NORTH = 60;

export function cellAt(index: number): NationCell {
  const column = Math.floor(index / CELLS_NORTH);
  const lonDeg = round4(-120 + column * 0.8);
  return {
    place: { latDeg: round4(30 + (index % CELLS_NORTH) * 0.25), lonDeg },
    timeZone: timeZoneAt(lonDeg),
    gridId: `X${letter(column)}${letter(Math.floor(column / 26))}`,
    gridX: column,
    gridY: index % CELLS_NORTH,
    elevationM: 167.0304,
    // Four cells share their zones; a fire zone in fifty is the one of the demonstration that is warned.
    forecastZone: `XYZ${zoneNumber(index)}`,
    county: `XYC${zoneNumber(index)}`,
    fireZone: index % 200 < 4 ? 'XXZ238' : `XWZ${zoneNumber(index)}`,
  };
}

/** The index of a cell by its name, `/gridpoints/XAB/12,34`. */
export const indexOfCell = (gridX: number, gridY: number): number => gridX * CELLS_NORTH + gridY;

/** The index of the cell that holds a place of a site. */
export const indexAtPlace = (latDeg: number, lonDeg: number): number =>
  Math.round((lonDeg + 120) / 0.8) * CELLS_NORTH + Math.round((latDeg - 30) / 0.25);

/** The configuration of all sites; JSON, which is YAML too. */
export function nationConfig({ siteCount, cellCount }: NationSize, baseUrl: string): string {
  const sites = Array.from({ length: siteCount }, (_, i) => {
    const { place } = cellAt(i % cellCount);
    const beside = Math.floor(i / cellCount) * 0.002;
    return {
      id: `site-${i}`,
      name: `Site ${i}`,
      at: [round4(place.latDeg + beside), round4(place.lonDeg + beside)],
      limits: 'eight',
      shift: { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '07:00', to: '17:00' },
      protected: [{ name: 'county road', bearing: [80, 140], within: '0.5 mi' }],
    };
  });
  return JSON.stringify({
    contact: 'bench@example.org',
    sources: { nws: { baseUrl } },
    limitSets: { eight: EIGHT_LIMITS },
    sites,
  });
}

const ZONES = ['America/Los_Angeles', 'America/Denver', 'America/Chicago', 'America/New_York'] as const;

const timeZoneAt = (lonDeg: number): string =>
  ZONES[Math.max(0, Math.min(3, Math.floor((lonDeg + 122) / 11)))] ?? ZONES[0];

const zoneNumber = (index: number): string => String(Math.floor(index / 4) % 1000).padStart(3, '0');
const letter = (index: number): string => String.fromCharCode(65 + (index % 26));
const round4 = (value: number): number => Math.round(value * 1e4) / 1e4;
