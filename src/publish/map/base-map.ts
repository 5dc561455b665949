// The ground of a map: county lines, or state lines where counties would be too many, or the net of degrees where there are
// neither. Drawn once for a district, and remembered; a bounded number of them.

import { type GeoProjection, geoAzimuthalEqualArea, geoGraticule, geoPath } from 'd3-geo';
import type { Position } from '#core/units/position.ts';
import { type Counties, type Lines, readCounties } from './counties.ts';
import { cornerRad, HEIGHT, type MapView, positionOf, scaleOf, unitOf, WIDTH } from './view.ts';

export interface BaseMap {
  readonly ground: 'counties' | 'states' | 'net';
  /** SVG path of all lines. */
  readonly path: string;
  readonly names: readonly { readonly name: string; readonly x: number; readonly y: number }[];
  /** The county in the middle of the map; null outside of all. */
  readonly county: string | null;
  /** Degrees from line to line of a net; null of others. */
  readonly netDeg: number | null;
  /** Null where it does not lie on the map. */
  at(place: Position): readonly [number, number] | null;
}

/** More are not even tried. */
const MOST_COUNTIES = 900;
/** A map is to cost no more than about 15 KB on the way. */
const MOST_CHARS = 26_000;
const MOST_NAMED = 24;
/** Points nearer to each other than this are one [px]; the first at which the lines are short enough. */
const THIN_PX = [1.2, 2.4];
const STATES_THIN_PX = 1.8;
/** Coordinates of lines are whole numbers, so many of them a pixel: short to write. */
export const PER_PX = 2;
const MOST_MAPS = 60;
const NET_STEPS_DEG = [0.1, 0.25, 0.5, 1, 2, 5, 10, 20];

export function createBaseMaps(): (view: MapView) => Promise<BaseMap> {
  let atlas: Promise<Counties> | null = null;
  const drawn = new Map<string, BaseMap>();
  return async (view) => {
    const key = `${view.middle.latDeg.toFixed(4)} ${view.middle.lonDeg.toFixed(4)} ${view.halfKm.toFixed(2)}`;
    const known = drawn.get(key);
    if (known !== undefined) return known;
    atlas ??= readCounties();
    const map = draw(view, await atlas);
    drawn.set(key, map);
    if (drawn.size > MOST_MAPS) drawn.delete(drawn.keys().next().value ?? '');
    return map;
  };
}

function draw(view: MapView, atlas: Counties): BaseMap {
  const projection = projectionOf(view);
  const [centre, radiusRad] = [unitOf(view.middle), cornerRad(view)];
  const counties = atlas.counties(centre, radiusRad, MOST_COUNTIES);
  const at = placeOn(projection);
  const lined = ({ lines }: Lines, thinPx: number): string =>
    linePath(geoPath(projection)(lines) ?? '', thinPx);
  const county = atlas.countyAt(view.middle);
  const plain = { county, names: [], netDeg: null, at };
  if (counties !== null) {
    const path = THIN_PX.map((px) => lined(counties, px)).find((one) => one.length <= MOST_CHARS);
    // Within a county larger than the map there is no line, but it is known where that is.
    if (path !== undefined && (path !== '' || county !== null))
      return { ...plain, ground: 'counties', path, names: namesOf(counties, at) };
  }
  const states = lined(atlas.states(centre, radiusRad), STATES_THIN_PX);
  if (states !== '') return { ...plain, ground: 'states', path: states };
  const netDeg = NET_STEPS_DEG.find((deg) => deg * KM_PER_DEG >= view.halfKm / 3) ?? 30;
  return { ...plain, ground: 'net', path: linePath(netPath(view, netDeg, projection), 1), netDeg };
}

const KM_PER_DEG = 111;

/** The net about the middle alone: of the whole earth it is a hundred thousand points. */
function netPath({ middle, halfKm }: MapView, netDeg: number, projection: GeoProjection): string {
  const latDeg = (halfKm / KM_PER_DEG) * 1.5;
  const farthestLat = Math.min(89, Math.abs(middle.latDeg) + latDeg);
  const lonDeg = Math.min(180, (latDeg * 1.2) / Math.cos((farthestLat * Math.PI) / 180));
  const net = geoGraticule()
    .extent([
      [middle.lonDeg - lonDeg, Math.max(-89.9, middle.latDeg - latDeg)],
      [middle.lonDeg + lonDeg, Math.min(89.9, middle.latDeg + latDeg)],
    ])
    .step([netDeg, netDeg])
    .precision(Math.min(2.5, netDeg));
  return geoPath(projection)(net()) ?? '';
}

/** Equal areas about the middle: distances and directions are right there, and hardly off at the edges of a district. */
function projectionOf(view: MapView): GeoProjection {
  const { latDeg, lonDeg } = view.middle;
  return geoAzimuthalEqualArea()
    .rotate([-lonDeg, -latDeg])
    .translate([WIDTH / 2, HEIGHT / 2])
    .scale(scaleOf(view))
    .clipExtent([
      [0, 0],
      [WIDTH, HEIGHT],
    ])
    .precision(0.3);
}

const placeOn =
  (projection: GeoProjection) =>
  ({ latDeg, lonDeg }: Position): readonly [number, number] | null => {
    const point = projection([lonDeg, latDeg]);
    if (!point) return null;
    const [x, y] = point;
    return x >= 0 && x <= WIDTH && y >= 0 && y <= HEIGHT ? [x, y] : null;
  };

/** Names stand at the middle of their county, where that lies well within the map and under no other name. */
function namesOf({ places }: Lines, at: BaseMap['at']): BaseMap['names'] {
  const taken: { name: string; x: number; y: number }[] = [];
  for (const { name, centre } of places) {
    const point = at(positionOf(centre));
    if (point === null || taken.length === MOST_NAMED) continue;
    const [x, y] = point.map(Math.round) as [number, number];
    const half = name.length * 3.6;
    const fits = x - half > 2 && x + half < WIDTH - 2 && y > 16 && y < HEIGHT - 40;
    const isFree = taken.every(
      (t) => Math.abs(t.y - y) > 14 || Math.abs(t.x - x) > half + t.name.length * 3.6,
    );
    if (fits && isFree) taken.push({ name, x, y });
  }
  return taken;
}

type Point = readonly [number, number];

/** "M1,2L3,4Z" → the same in whole steps from point to point, without points that nobody would see. */
function linePath(path: string, thinPx: number): string {
  return path
    .split('M')
    .slice(1)
    .map((line) => stepsOf(line, thinPx))
    .join('');
}

function stepsOf(line: string, thinPx: number): string {
  const isClosed = line.endsWith('Z');
  const points = (isClosed ? line.slice(0, -1) : line).split('L').map((text): Point => {
    const [x = 0, y = 0] = text.split(',').map(Number);
    return [x * PER_PX, y * PER_PX];
  });
  const [first = [0, 0], ...others] = points;
  let [x, y] = [Math.round(first[0]), Math.round(first[1])];
  let steps = '';
  for (const [i, point] of others.entries()) {
    const [dx, dy] = [Math.round(point[0]) - x, Math.round(point[1]) - y];
    // The ends of a line stay, so that borders meet.
    const isKept = i === others.length - 1 || Math.hypot(dx, dy) >= thinPx * PER_PX;
    if (!isKept || (dx === 0 && dy === 0)) continue;
    steps += `${dx < 0 || steps === '' ? '' : ' '}${dx}${dy < 0 ? '' : ' '}${dy}`;
    [x, y] = [x + dx, y + dy];
  }
  return steps === ''
    ? ''
    : `M${Math.round(first[0])} ${Math.round(first[1])}l${steps}${isClosed ? 'z' : ''}`;
}
