// GET /v1/sites.geojson, /v1/smoke.geojson, /v1/notices.geojson: what maps of dispatch are drawn from.

import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { PlanDesk } from '#publish/desk.ts';
import { GEO_TYPE } from '#publish/geo/geojson.ts';
import { problemSchema } from '#publish/wire.ts';
import { noticeMapSchema, siteMapSchema, smokeMapSchema } from '#publish/wire-geo.ts';
import { createMaps, type MapQuery } from './map-answers.ts';
import { readerQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import type { WatchingParts } from './watch.ts';

const problems = { 400: problemSchema, 503: problemSchema };

const smokeQuery = readerQuery.extend({
  reachM: z.coerce
    .number()
    .min(100)
    .max(100_000)
    .default(10_000)
    .describe('how far sectors are drawn, in metres; smoke may go farther'),
});

export function addMapRoutes(app: FastifyInstance, desk: PlanDesk, watching: WatchingParts): void {
  const maps = createMaps(desk, watching);
  const routes = [
    ['sites', 'Sites as points, with the verdict of today', readerQuery, siteMapSchema, maps.sites],
    ['smoke', 'Where the smoke of open burns goes, as sectors', smokeQuery, smokeMapSchema, maps.smoke],
    ['notices', 'What somebody must know, where its pit lies', readerQuery, noticeMapSchema, maps.notices],
  ] as const;
  for (const [name, summary, querystring, schema, answer] of routes) {
    app.get<{ Querystring: MapQuery }>(
      `/v1/${name}.geojson`,
      {
        config: { scope: 'read' },
        schema: { summary, tags: ['maps'], querystring, response: { 200: schema, ...problems } },
      },
      async (request: FastifyRequest<{ Querystring: MapQuery }>, reply: FastifyReply) => {
        const collection = await answer(viewerOf(request), request.query);
        return reply
          .serializer((body: unknown) => JSON.stringify(body))
          .type(GEO_TYPE)
          .header('cache-control', 'no-store')
          .send(collection);
      },
    );
  }
}
