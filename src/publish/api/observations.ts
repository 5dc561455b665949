// What is measured at or near a site: posted one by one or in batches, each item judged by itself.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { observationAnswer } from '#publish/answers/watch.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import { observationsSchema, observedSchema } from '#publish/wire-watch.ts';
import { refuseDeepBody } from './deep-body.ts';
import { viewerOf } from './request-viewer.ts';
import { type PeriodQuery, periodOf, periodQuery, zoneOf } from './watch-period.ts';

const siteParams = z.strictObject({ id: z.string().max(80) });
const problems = { 400: problemSchema, 404: problemSchema, 413: problemSchema, 503: problemSchema };

const postedBody = z
  .union([z.record(z.string(), z.unknown()), z.array(z.unknown())])
  .describe('a reading, or a list of readings; see README.md for its fields');

export function addObservationRoutes(app: FastifyInstance, desk: PlanDesk, watch: WatchDesk): void {
  app.post<{ Params: { id: string }; Body: unknown }>(
    '/v1/sites/:id/observations',
    {
      config: { scope: 'observe' },
      preValidation: refuseDeepBody,
      schema: {
        summary: 'Readings of an instrument or a hand-held meter; the same one sent again counts once',
        tags: ['observations'],
        params: siteParams,
        body: postedBody,
        response: { 200: observedSchema, ...problems },
      },
    },
    async (request, reply) => {
      const key = siteKeyOrThrow(viewerOf(request), request.params.id);
      const results = await watch.observe(key, request.body);
      return reply.header('cache-control', 'no-store').send({ results: results.map((r) => ({ ...r })) });
    },
  );
  app.get<{ Params: { id: string }; Querystring: PeriodQuery }>(
    '/v1/sites/:id/observations',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'What was observed in a span of time, as kept',
        tags: ['observations'],
        params: siteParams,
        querystring: periodQuery,
        response: { 200: observationsSchema, ...problems },
      },
    },
    async (request, reply) => {
      const key = siteKeyOrThrow(viewerOf(request), request.params.id);
      const zone = zoneOf(desk.site(key));
      const { fromMs, toMs } = periodOf(request.query, desk.nowMs());
      const found = await watch.observations(key, fromMs, toMs);
      return reply
        .header('cache-control', 'no-store')
        .send({ observations: found.map((o) => observationAnswer(o, zone)) });
    },
  );
}
