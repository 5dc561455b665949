// What a scripted map draws of a tile file, as a MapLibre style (style specification version 8): pictures as they are; of
// vector tiles every area and every line in the ink of the page, whatever its layers are called. No letters: they need fonts.

export interface GroundStyle {
  readonly version: 8;
  readonly sources: Readonly<Record<string, unknown>>;
  readonly layers: readonly Readonly<Record<string, unknown>>[];
}

interface Ground {
  readonly kind: 'raster' | 'vector';
  readonly minZoom: number;
  readonly maxZoom: number;
  readonly bounds: readonly number[];
  readonly layers: readonly string[];
}

/** The paper, ink and water of the day look and of the night look (see the style sheet). */
const COLOURS = {
  day: { paper: '#ffffff', ink: '#57514a', water: '#124e78' },
  night: { paper: '#0d0c0a', ink: '#b9b0a2', water: '#8cc8ff' },
} as const;

export type GroundLook = keyof typeof COLOURS;

/** `tiles`: the address of a tile, with {z}, {x} and {y}. */
export function groundStyle(ground: Ground, tiles: string, look: GroundLook): GroundStyle {
  const { paper } = COLOURS[look];
  const { kind, minZoom, maxZoom, bounds } = ground;
  const size = kind === 'raster' ? { tileSize: 256 } : {};
  const source = { type: kind, tiles: [tiles], minzoom: minZoom, maxzoom: maxZoom, bounds, ...size };
  const paint = { 'raster-opacity': look === 'night' ? 0.55 : 0.85 };
  const layers =
    kind === 'raster'
      ? [{ id: 'ground', type: 'raster', source: 'ground', paint }]
      : ground.layers.flatMap((name) => drawn(name, look));
  return {
    version: 8,
    sources: { ground: source },
    layers: [{ id: 'paper', type: 'background', paint: { 'background-color': paper } }, ...layers],
  };
}

function drawn(name: string, look: GroundLook): Readonly<Record<string, unknown>>[] {
  const { ink, water } = COLOURS[look];
  const colour = /water|ocean|river|lake/i.test(name) ? water : ink;
  const of = { source: 'ground', 'source-layer': name };
  return [
    {
      ...{ id: `${name}-area`, type: 'fill', ...of, filter: ['==', ['geometry-type'], 'Polygon'] },
      paint: { 'fill-color': colour, 'fill-opacity': 0.12 },
    },
    {
      ...{ id: `${name}-line`, type: 'line', ...of, filter: ['==', ['geometry-type'], 'LineString'] },
      paint: { 'line-color': colour, 'line-width': 1.2 },
    },
  ];
}
