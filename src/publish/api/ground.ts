// GET /board/map: the pits over the ground of the operator's own tile file.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { groundBounds } from '#publish/map/ground-bounds.ts';
import { groundStyle } from '#publish/map/ground-style.ts';
import { type GroundPit, groundPage } from '#publish/page/board/ground-page.ts';
import type { MapLibrary } from '#publish/served/map-library.ts';
import type { TileDesk } from '#publish/tile-desk.ts';
import { pinsOfBoard } from './board-pins.ts';
import { type BoardParts, boardShown } from './board-view.ts';
import { tileAddress } from './ground-files.ts';
import { readerQuery } from './query.ts';
import { readerChoices } from './reader-choices.ts';
import { viewerOf } from './request-viewer.ts';
import { wantedBy } from './site-answers.ts';

const groundQuery = readerQuery.extend({
  look: z.enum(['day', 'night']).optional(),
  every: z.literal('60').optional(),
  page: z.coerce.number().int().min(1).max(10_000).optional(),
});
type GroundQuery = z.output<typeof groundQuery>;

export interface GroundParts {
  readonly tiles: TileDesk;
  readonly library: MapLibrary;
  /** Address of the script that lays the pits over it. */
  readonly script: () => string;
}

export function addGround(
  pages: FastifyInstance,
  board: BoardParts,
  { tiles, library, script }: GroundParts,
): void {
  const address = tileAddress(tiles.version);
  const { facts } = tiles;
  const styles = {
    day: JSON.stringify(groundStyle(facts, address, 'day')),
    night: JSON.stringify(groundStyle(facts, address, 'night')),
  };
  pages.get<{ Querystring: GroundQuery }>(
    '/board/map',
    { config: { scope: 'read' }, schema: { hide: true, querystring: groundQuery } },
    async (request, reply) => {
      const { every, page, ...choices } = request.query;
      const { desk } = board;
      const { units, language } = wantedBy(desk, choices, 'UTC', null, null).reader;
      const shown = await boardShown(board, viewerOf(request), { ...choices, page });
      const bounds = groundBounds(
        [...shown.burns, ...shown.goes].map(({ site }) => site.at),
        facts.bounds,
      );
      const sites = new Map([...shown.burns, ...shown.goes].map(({ pin, site }) => [pin, site.id]));
      const pits = pinsOfBoard(shown, language).map(({ pin, name, place, mark, smoke }): GroundPit => {
        return { pin, id: sites.get(pin) ?? '', name, at: bounds.at(place), mark, smoke };
      });
      if (every !== undefined) reply.header('refresh', every);
      const html = groundPage({
        ...shown,
        ...{ pits, script: script(), library, styles, bounds: bounds.box, attribution: facts.attribution },
        writtenMs: desk.nowMs(),
        isRefreshing: every !== undefined,
        demo: desk.demo,
        reader: { units, language },
        query: {
          ...readerChoices(choices),
          ...(every === undefined ? {} : { every }),
          ...(page === undefined ? {} : { page: String(page) }),
        },
      });
      return reply.type('text/html; charset=utf-8').send(html);
    },
  );
}
