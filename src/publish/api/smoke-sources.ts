// GET /v1/smoke-sources: which burns the smoke at a place and time may come from.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { type Position, parsePosition } from '#core/units/position.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { SmokeDesk } from '#publish/smoke-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import { smokeSourcesSchema } from '#publish/wire-smoke.ts';
import { badQuery, readerQuery, typedInstant } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { wantedBy } from './site-answers.ts';
import { searchSmoke } from './smoke-search.ts';

const position = z
  .string()
  .max(80)
  .transform((text, context): Position => {
    const found = parsePosition(text);
    if (found !== null) return found;
    context.addIssue({ code: 'custom', message: 'expected latitude,longitude such as 38.97,-92.33' });
    return z.NEVER;
  })
  .describe('latitude,longitude in decimal degrees, or degrees and minutes with letters');

const smokeQuery = readerQuery.extend({
  at: position,
  time: typedInstant.optional().describe('RFC 3339 with offset; now where it is left out'),
});

type SmokeQuery = z.output<typeof smokeQuery>;

export function addSmokeSources(app: FastifyInstance, desk: PlanDesk, watch: SmokeDesk): void {
  app.get<{ Querystring: SmokeQuery }>(
    '/v1/smoke-sources',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'Which burns the smoke seen at a place and time may come from',
        tags: ['answers'],
        querystring: smokeQuery,
        response: { 200: smokeSourcesSchema, 400: problemSchema, 503: problemSchema },
      },
    },
    async (request, reply) => {
      const { at, time, ...choices } = request.query;
      const atMs = pastOrNow(time, desk.nowMs());
      const { reader } = wantedBy(desk, choices, 'UTC', null, null);
      const answer = await searchSmoke({ desk, watch }, viewerOf(request), { at, atMs }, reader);
      return reply.header('cache-control', 'no-store').send(answer);
    },
  );
}

/** Clocks differ by so much at the most; what lies ahead was seen by nobody. Throws ServiceError `bad_query`. */
const AHEAD_MS = 600_000;

export function pastOrNow(ms: number | undefined, nowMs: number): number {
  if (ms === undefined) return nowMs;
  if (ms > nowMs + AHEAD_MS) throw badQuery('time', 'expected a moment that has been');
  return Math.min(ms, nowMs);
}
