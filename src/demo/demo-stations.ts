// The stations of the demonstration: one airfield near each pit. All are invented, and no real station has such a name.

import type { Place } from '#core/site/site.ts';
import { DEMO_CELLS, type DemoCell } from './cells.ts';

export interface DemoStation {
  readonly id: string;
  readonly name: string;
  readonly place: Place;
  readonly elevationM: number;
  /** Whose weather it observes. */
  readonly cell: DemoCell;
}

const FIELDS: Readonly<Record<string, Pick<DemoStation, 'id' | 'name'>>> = {
  'north-block': { id: 'XXVN', name: 'Tamber North Field' },
  'creek-block': { id: 'XXVC', name: 'Tamber Creek Field' },
  'ridge-block': { id: 'XXVR', name: 'Tamber Ridge Field' },
};

/** North-east of the pit, some 4 km. */
const EAST_DEG = 0.03;
const NORTH_DEG = 0.025;

export const DEMO_STATIONS: readonly DemoStation[] = DEMO_CELLS.map((cell) => ({
  ...(FIELDS[cell.siteId] ?? { id: `XX${cell.gridX}`, name: cell.siteId }),
  place: {
    latDeg: Number((cell.place.latDeg + NORTH_DEG).toFixed(4)),
    lonDeg: Number((cell.place.lonDeg + EAST_DEG).toFixed(4)),
  },
  elevationM: Math.round(cell.elevationM + 6),
  cell,
}));
