// The three grid cells of the demonstration, one for each site of config/demo.yaml. The coordinates are open farm country;
// the office, its zones and everything else are invented.

import type { Place } from '#core/site/site.ts';
import type { StoryName } from './day-stories.ts';

export interface DemoCell {
  /** Of the site that lies in it. */
  readonly siteId: string;
  readonly place: Place;
  /** Stories follow the local clock. */
  readonly timeZone: string;
  readonly gridId: string;
  readonly gridX: number;
  readonly gridY: number;
  readonly elevationM: number;
  readonly story: StoryName;
  /** Mixing height and transport wind end so long after the grid's beginning [h]; null: as far as the rest. */
  readonly mixingEndsAfterH: number | null;
  readonly forecastZone: string;
  readonly county: string;
  readonly fireZone: string;
}

const OFFICE = { timeZone: 'America/Los_Angeles', gridId: 'XXV', county: 'XXC041' } as const;

export const DEMO_CELLS: readonly DemoCell[] = [
  {
    ...OFFICE,
    siteId: 'north-block',
    place: { latDeg: 36.438, lonDeg: -120.231 },
    gridX: 41,
    gridY: 77,
    elevationM: 76.2,
    story: 'turningWind',
    mixingEndsAfterH: null,
    forecastZone: 'XXZ021',
    fireZone: 'XXZ221',
  },
  {
    ...OFFICE,
    siteId: 'creek-block',
    place: { latDeg: 36.372, lonDeg: -120.164 },
    gridX: 44,
    gridY: 74,
    elevationM: 68.8848,
    story: 'lowMorning',
    mixingEndsAfterH: 74,
    forecastZone: 'XXZ021',
    fireZone: 'XXZ221',
  },
  {
    ...OFFICE,
    siteId: 'ridge-block',
    place: { latDeg: 36.296, lonDeg: -120.342 },
    gridX: 37,
    gridY: 71,
    elevationM: 214.884,
    story: 'dryNorthWind',
    mixingEndsAfterH: null,
    forecastZone: 'XXZ022',
    fireZone: 'XXZ238',
  },
];

/** Farther than this from every cell, in degrees, the stand-in knows no forecast. */
const REACH_DEG = 0.5;

/** The nearest cell; null where none is near. */
export function cellNear(place: Place): DemoCell | null {
  const eastScale = Math.cos((place.latDeg * Math.PI) / 180);
  let nearest: { cell: DemoCell; deg: number } | null = null;
  for (const cell of DEMO_CELLS) {
    const east = (cell.place.lonDeg - place.lonDeg) * eastScale;
    const deg = Math.hypot(east, cell.place.latDeg - place.latDeg);
    if (deg <= REACH_DEG && (nearest === null || deg < nearest.deg)) nearest = { cell, deg };
  }
  return nearest?.cell ?? null;
}
