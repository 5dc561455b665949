// GET /board: the page of a dispatch centre, written anew at every asking.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { PlanDesk } from '#publish/desk.ts';
import { boardPage } from '#publish/page/board/board-page.ts';
import { pinsOfBoard } from './board-pins.ts';
import { type BoardParts, boardShown } from './board-view.ts';
import { createGoesToday } from './go-today.ts';
import { addGround, type GroundParts } from './ground.ts';
import { readerQuery } from './query.ts';
import { readerChoices } from './reader-choices.ts';
import { viewerOf } from './request-viewer.ts';
import { wantedBy } from './site-answers.ts';
import { smokeQuestion } from './smoke-question.ts';
import type { WatchingParts } from './watch.ts';

const boardQuery = readerQuery.extend({
  look: z.enum(['day', 'night']).optional(),
  /** Seconds: whoever wants it asks for it, and can stop it (WCAG 2.2, 2.2.1 and 2.2.4). */
  every: z.literal('60').optional(),
  page: z.coerce.number().int().min(1).max(10_000).optional(),
  at: z.string().max(120).optional(),
  place: z.string().max(160).optional(),
  time: z.string().max(40).optional(),
});

type BoardQuery = z.output<typeof boardQuery>;

/** `ground`: null where the operator has supplied no tiles. */
export function addBoard(
  pages: FastifyInstance,
  desk: PlanDesk,
  watching: WatchingParts,
  ground: GroundParts | null,
): void {
  const parts: BoardParts = { desk, watching, goes: createGoesToday(desk) };
  if (ground) addGround(pages, parts, ground);
  pages.get<{ Querystring: BoardQuery }>(
    '/board',
    { config: { scope: 'read' }, schema: { hide: true, querystring: boardQuery } },
    async (request, reply) => {
      const { at, place, time, every, page, ...choices } = request.query;
      const viewer = viewerOf(request);
      const { units, language } = wantedBy(desk, choices, 'UTC', null, null).reader;
      const shown = await boardShown(parts, viewer, { ...choices, page });
      const question = await smokeQuestion(
        { desk, watch: watching.desk },
        viewer,
        { at, place, time },
        { units, language },
      );
      const found = question.answer;
      const isNear = found !== null && (found.nearestSiteM ?? Number.POSITIVE_INFINITY) <= found.reachM;
      // Loaded when the first map is drawn: neither a start nor a page without one waits for the atlas.
      const { boardMap } = await import('#publish/map/board-map.ts');
      const map = await boardMap({
        pins: pinsOfBoard(shown, language),
        asked: isNear ? { latDeg: found.at[0], lonDeg: found.at[1] } : null,
        reader: { units, language },
      });
      if (every !== undefined) reply.header('refresh', every);
      const html = boardPage({
        ...shown,
        question,
        writtenMs: desk.nowMs(),
        isRefreshing: every !== undefined,
        map,
        hasGround: ground !== null,
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
