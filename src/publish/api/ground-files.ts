// The tiles of the map with tiles, and the library that draws it.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { ServiceError } from '#errors.ts';
import type { MapLibrary } from '#publish/served/map-library.ts';
import type { TileDesk } from '#publish/tile-desk.ts';

const tileAt = z.object({
  version: z.string().max(60),
  z: z.coerce.number().int().min(0).max(26),
  x: z.coerce
    .number()
    .int()
    .min(0)
    .max(2 ** 26),
  y: z.coerce
    .number()
    .int()
    .min(0)
    .max(2 ** 26),
});

/** Both are named by what they hold: other bytes have another address. */
const KEPT = 'private, max-age=604800, immutable';
/** A worker goes by the policy that it came with. */
const OF_LIBRARY = "default-src 'none'; connect-src 'self'";

/** For a style: {z}, {x} and {y} are filled in by whoever draws. */
export const tileAddress = (version: string): string => `/board/tiles/${version}/{z}/{x}/{y}`;

export function addGroundFiles(routes: FastifyInstance, tiles: TileDesk, library: MapLibrary): void {
  routes.get<{ Params: z.output<typeof tileAt> }>(
    '/board/tiles/:version/:z/:x/:y',
    { config: { scope: 'read', uncounted: true }, schema: { hide: true, params: tileAt } },
    async (request, reply) => {
      const { z, x, y } = request.params;
      const isOnGrid = x < 2 ** z && y < 2 ** z;
      const tile = isOnGrid ? await tiles.tile(z, x, y) : null;
      if (tile === null) throw new ServiceError('not_found', 'no such tile');
      return reply.header('cache-control', KEPT).type(tile.contentType).send(Buffer.from(tile.bytes));
    },
  );
  routes.get<{ Params: { file: string } }>(
    '/board/s/:file',
    {
      config: { scope: 'open', uncounted: true },
      schema: { hide: true, params: z.object({ file: z.string().max(80) }) },
    },
    async (request, reply) => {
      const text = library.text(request.params.file);
      if (text === null) throw new ServiceError('not_found', 'no such script');
      return reply
        .headers({ 'cache-control': KEPT, 'content-security-policy': OF_LIBRARY })
        .type('text/javascript; charset=utf-8')
        .send(text);
    },
  );
}
