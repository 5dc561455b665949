// A file of map tiles in the open PMTiles format (specification version 3), read where it lies: no tile is held in memory.

import { type FileHandle, open } from 'node:fs/promises';
import { type Header, PMTiles, type Source, TileType } from 'pmtiles';
import { messageOf, ServiceError } from '#errors.ts';
import type { TileDesk, TileFacts } from '#publish/tile-desk.ts';

const TYPES: ReadonlyMap<TileType, string> = new Map([
  [TileType.Mvt, 'application/x-protobuf'],
  [TileType.Png, 'image/png'],
  [TileType.Jpeg, 'image/jpeg'],
  [TileType.Webp, 'image/webp'],
  [TileType.Avif, 'image/avif'],
]);
const MOST_LAYERS = 60;

/**
 * `attribution`: what the configuration says of it; null: what the file says of itself.
 * @throws ServiceError config_invalid: no file, no PMTiles, or tiles of a kind that no browser shows
 */
export async function openTileFile(file: string, attribution: string | null): Promise<TileDesk> {
  const told = (why: string) =>
    new ServiceError('config_invalid', `board.tiles: ${file}: ${why}`, {
      facts: { faults: [{ path: 'board.tiles', message: `${file}: ${why}` }] },
    });
  let handle: FileHandle;
  try {
    handle = await open(file);
  } catch (fault) {
    throw told(`cannot be read: ${messageOf(fault)}`);
  }
  try {
    const { size, mtimeMs } = await handle.stat();
    const archive = new PMTiles(sourceOf(handle, file));
    const header = await archive.getHeader();
    const contentType = TYPES.get(header.tileType);
    if (contentType === undefined) throw new Error('its tiles are of a kind that no browser shows');
    const facts = factsOf(header, await archive.getMetadata(), attribution);
    return {
      facts,
      version: `${Math.round(mtimeMs).toString(36)}-${size.toString(36)}`,
      tile: async (z, x, y) => {
        if (z < header.minZoom || z > header.maxZoom) return null;
        const found = await archive.getZxy(z, x, y);
        return found === undefined ? null : { bytes: new Uint8Array(found.data), contentType };
      },
      close: () => handle.close(),
    };
  } catch (fault) {
    await handle.close();
    throw told(`expected a PMTiles file of version 3: ${messageOf(fault)}`);
  }
}

const sourceOf = (handle: FileHandle, file: string): Source => ({
  getKey: () => file,
  getBytes: async (offset, length) => {
    const buffer = new ArrayBuffer(length);
    const { bytesRead } = await handle.read(new Uint8Array(buffer), 0, length, offset);
    return { data: bytesRead < length ? buffer.slice(0, bytesRead) : buffer };
  },
});

function factsOf(header: Header, metadata: unknown, attribution: string | null): TileFacts {
  const said = (typeof metadata === 'object' && metadata !== null ? metadata : {}) as Record<string, unknown>;
  const { attribution: own, vector_layers: layers } = said;
  const names = Array.isArray(layers) ? layers.map((one) => (one as { id?: unknown } | null)?.id) : [];
  return {
    kind: header.tileType === TileType.Mvt ? 'vector' : 'raster',
    minZoom: header.minZoom,
    maxZoom: header.maxZoom,
    bounds: [header.minLon, header.minLat, header.maxLon, header.maxLat],
    layers: names.filter((name) => typeof name === 'string').slice(0, MOST_LAYERS),
    attribution: attribution ?? (typeof own === 'string' ? plain(own) : null),
  };
}

/** Files carry HTML there. */
const plain = (text: string): string | null =>
  text
    .replaceAll(/<[^>]*>/g, '')
    .replaceAll('&copy;', '©')
    .replaceAll('&amp;', '&')
    .trim()
    .slice(0, 300) || null;
