// The ground of the scripted map: tiles of a file that the operator supplies. What publish asks of whoever reads it.

export interface TileFacts {
  /** Pictures, or lines and areas (Mapbox Vector Tile). */
  readonly kind: 'raster' | 'vector';
  readonly minZoom: number;
  readonly maxZoom: number;
  /** West, south, east, north [degrees]. */
  readonly bounds: readonly [number, number, number, number];
  /** Names of the layers of vector tiles. */
  readonly layers: readonly string[];
  /** Whom the ground is owed to, as plain text; null where nobody says. */
  readonly attribution: string | null;
}

export interface Tile {
  readonly bytes: Uint8Array;
  readonly contentType: string;
}

export interface TileDesk {
  readonly facts: TileFacts;
  /** Changes with the file: part of every address of a tile, so that browsers may keep them. */
  readonly version: string;
  /** Null where the file has none. */
  tile(z: number, x: number, y: number): Promise<Tile | null>;
  close(): Promise<void>;
}
