// The tile file that a configuration names.

import { dirname, resolve } from 'node:path';
import type { Config } from '#config/schema.ts';
import type { TileDesk } from '#publish/tile-desk.ts';

/** Null where it names none. Throws ServiceError `config_invalid` where that cannot be read. */
export async function tilesOf({ board }: Config, configFile: string): Promise<TileDesk | null> {
  if (board.tiles === undefined) return null;
  const { openTileFile } = await import('#tiles/tile-file.ts');
  return openTileFile(resolve(dirname(configFile), board.tiles), board.attribution ?? null);
}
