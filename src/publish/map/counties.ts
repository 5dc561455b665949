// County and state lines of the United States (us-atlas, from the Census Bureau's cartographic boundary files), and which of
// them lie about a place. Read once, when the first map is asked for.

import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { geoContains } from 'd3-geo';
import type { MultiLineString } from 'geojson';
import { feature, mesh } from 'topojson-client';
import type { GeometryCollection, Topology } from 'topojson-specification';
import type { Position } from '#core/units/position.ts';
import { type Unit, unitOf } from './view.ts';

interface Names {
  readonly name: string;
}

type Atlas = Topology<{
  readonly counties: GeometryCollection<Names>;
  readonly states: GeometryCollection<Names>;
}>;

type Area = GeometryCollection<Names>['geometries'][number];

/** One county or state, and the cap of the globe that holds it. */
interface Placed {
  readonly area: Area;
  readonly name: string;
  readonly centre: Unit;
  readonly radiusRad: number;
}

export interface Lines {
  /** Every border once. */
  readonly lines: MultiLineString;
  readonly places: readonly { readonly name: string; readonly centre: Unit }[];
}

export interface Counties {
  /** Null where so many lie there that no one could tell them apart. */
  counties(centre: Unit, radiusRad: number, most: number): Lines | null;
  states(centre: Unit, radiusRad: number): Lines;
  /** Name of the county that a place lies in; null outside of all. */
  countyAt(place: Position): string | null;
}

export async function readCounties(): Promise<Counties> {
  const file = fileURLToPath(import.meta.resolve('us-atlas/counties-10m.json'));
  const atlas = JSON.parse(await readFile(file, 'utf8')) as Atlas;
  const arcs = atlas.arcs.map((arc) => decoded(arc, atlas));
  const placed = ({ geometries }: GeometryCollection<Names>): Placed[] =>
    geometries.map((area) => placedOf(area, arcs));
  const [counties, states] = [placed(atlas.objects.counties), placed(atlas.objects.states)];
  const within = (all: readonly Placed[], centre: Unit, radiusRad: number): Placed[] =>
    all.filter((one) => angleRad(one.centre, centre) <= radiusRad + one.radiusRad);
  const linesOf = (found: readonly Placed[]): Lines => ({
    lines: mesh(atlas, { type: 'GeometryCollection', geometries: found.map(({ area }) => area) } as never),
    places: found.map(({ name, centre }) => ({ name, centre })),
  });
  return {
    counties(centre, radiusRad, most) {
      const found = within(counties, centre, radiusRad);
      return found.length > most ? null : linesOf(found);
    },
    states: (centre, radiusRad) => linesOf(within(states, centre, radiusRad)),
    countyAt(place) {
      const { latDeg, lonDeg } = place;
      const near = within(counties, unitOf(place), 0);
      return (
        near.find(({ area }) => geoContains(feature(atlas, area as never), [lonDeg, latDeg]))?.name ?? null
      );
    },
  };
}

/** Delta-coded whole numbers → points (TopoJSON format specification, 2.1.2 and 2.1.3). */
function decoded(arc: readonly (readonly number[])[], { transform }: Atlas): Unit[] {
  const [kx = 1, ky = 1] = transform?.scale ?? [];
  const [dx = 0, dy = 0] = transform?.translate ?? [];
  let [x, y] = [0, 0];
  return arc.map(([stepX = 0, stepY = 0]) => {
    x += stepX;
    y += stepY;
    return unitOf({ latDeg: y * ky + dy, lonDeg: x * kx + dx });
  });
}

function placedOf(area: Area, arcs: readonly (readonly Unit[])[]): Placed {
  const rings = 'arcs' in area ? ([area.arcs].flat(4) as number[]) : [];
  const points = rings.flatMap((index) => arcs[index < 0 ? ~index : index] ?? []);
  const sum = points.reduce<Unit>(([a, b, c], [x, y, z]) => [a + x, b + y, c + z], [0, 0, 0]);
  const length = Math.hypot(...sum) || 1;
  const centre: Unit = [sum[0] / length, sum[1] / length, sum[2] / length];
  const leastDot = points.reduce((least, point) => Math.min(least, dotOf(centre, point)), 1);
  const radiusRad = Math.acos(Math.max(-1, leastDot));
  return { area, name: (area.properties as Names | undefined)?.name ?? '', centre, radiusRad };
}

const dotOf = (a: Unit, b: Unit): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const angleRad = (a: Unit, b: Unit): number => Math.acos(Math.max(-1, Math.min(1, dotOf(a, b))));
