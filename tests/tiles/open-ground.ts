// A service with a map of an invented ground, and what of it can be asked for. No test in here.

import { rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { openMapLibrary } from '#publish/served/map-library.ts';
import { openTileFile } from '#tiles/tile-file.ts';
import { rasterBytes, tileFile } from './invented-tiles.ts';

export async function openGround() {
  const file = tileFile(rasterBytes());
  const tiles = await openTileFile(file, null);
  const library = openMapLibrary().module.slice('/board/s/'.length);
  return {
    server: { tiles },
    targets: { file: library, version: tiles.version, z: '0', x: '0', y: '0' },
    close: async (): Promise<void> => {
      await tiles.close();
      rmSync(dirname(file), { recursive: true, force: true });
    },
  };
}
