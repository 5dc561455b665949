// The map with tiles of a board with more pits than one page has room for.

import { rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { openTileFile } from '#tiles/tile-file.ts';
import { startBoardScene } from '../../browser/board-scene.ts';
import { rasterBytes, tileFile } from '../../tiles/invented-tiles.ts';

it('is asked for page by page, as the board is', async () => {
  const file = tileFile(rasterBytes());
  const tiles = await openTileFile(file, null);
  const { service, close } = await startBoardScene({ server: { tiles } });
  onTestFinished(async () => {
    await close();
    await tiles.close();
    rmSync(dirname(file), { recursive: true, force: true });
  });
  // Beyond the last is the last, and the choice is kept by what the page leads to.
  const { statusCode, body } = await service.app.inject({ url: '/board/map?page=2' });
  expect([statusCode, body.includes('?page=2&amp;every=60')]).toEqual([200, true]);
});
