// Tile files against the PMTiles specification, version 3 (github.com/protomaps/PMTiles, spec/v3/spec.md), and what is said of
// one that is none; the map's style against the validator of the MapLibre style specification, version 8.

import { rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { validateStyleMin } from '@maplibre/maplibre-gl-style-spec';
import { afterAll, describe, expect, it } from 'vitest';
import { groundStyle } from '#publish/map/ground-style.ts';
import { openTileFile } from '#tiles/tile-file.ts';
import { pmtilesBytes, pngOf, rasterBytes, tileFile, vectorBytes } from './invented-tiles.ts';

const written: string[] = [];
const kept = (bytes: Uint8Array): string => {
  const file = tileFile(bytes);
  written.push(file);
  return file;
};
afterAll(() => {
  for (const file of written) rmSync(dirname(file), { recursive: true, force: true });
});

describe('a tile file', () => {
  it('of pictures is told with its bounds and whom it is owed to, and gives its tiles', async () => {
    const tiles = await openTileFile(kept(rasterBytes()), null);
    expect(tiles.facts).toEqual({
      ...{ kind: 'raster', minZoom: 0, maxZoom: 8, bounds: [-121, 35.8, -119, 37] },
      ...{ layers: [], attribution: 'Valley & Range maps' },
    });
    const tile = await tiles.tile(0, 0, 0);
    expect(tile?.contentType).toBe('image/png');
    expect(Buffer.from(tile?.bytes ?? [])).toEqual(pngOf(214, 224, 208));
    // Outside of its ground, and of its zooms.
    expect(await tiles.tile(8, 0, 0)).toBeNull();
    expect(await tiles.tile(9, 83, 99)).toBeNull();
    await tiles.close();
  });

  it('of lines is told with its layers, and owed to whom the configuration names', async () => {
    const tiles = await openTileFile(kept(vectorBytes()), 'Own survey');
    expect(tiles.facts).toMatchObject({ kind: 'vector', layers: ['roads'], attribution: 'Own survey' });
    expect((await tiles.tile(8, 42, 99))?.contentType).toBe('application/x-protobuf');
    await tiles.close();
  });

  it('has another version when it is another file', async () => {
    const [a, b] = await Promise.all([
      openTileFile(kept(rasterBytes()), null),
      openTileFile(kept(vectorBytes()), null),
    ]);
    expect(a.version).not.toBe(b.version);
    await Promise.all([a.close(), b.close()]);
  });

  it.each([
    ['is not there', '/nowhere/ground.pmtiles', /board\.tiles: .*cannot be read: ENOENT/],
    ['is empty', kept(new Uint8Array()), /expected a PMTiles file of version 3/],
    ['is something else', kept(Buffer.from('{"not": "tiles"}'.padEnd(200))), /expected a PMTiles file/],
    [
      'has tiles of no known kind',
      kept(pmtilesBytes(9, [{ z: 0, x: 0, y: 0, bytes: pngOf(1, 2, 3) }], {})),
      /of a kind that no browser shows/,
    ],
  ])('that %s is refused with its name', async (_what, file, why) => {
    await expect(openTileFile(file, null)).rejects.toMatchObject({
      code: 'config_invalid',
      message: expect.stringMatching(why),
    });
  });
});

describe('the style of the ground', () => {
  it.each(['day', 'night'] as const)('is valid by the published specification, %s', async (look) => {
    for (const bytes of [rasterBytes(), vectorBytes()]) {
      const tiles = await openTileFile(kept(bytes), null);
      const style = groundStyle(tiles.facts, '/board/tiles/v/{z}/{x}/{y}', look);
      expect(validateStyleMin(style as never)).toEqual([]);
      expect(style.layers.length).toBeGreaterThan(1);
      await tiles.close();
    }
  });
});
