// GET /healthz: alive. GET /readyz: able to answer, with the age of each site's forecast.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { PlanDesk } from '#publish/desk.ts';
import { readySchema } from '#publish/wire.ts';
import { forecastStateOf } from './forecast-state.ts';

export function addHealthRoutes(app: FastifyInstance, desk: PlanDesk): void {
  app.get(
    '/healthz',
    {
      schema: { summary: 'Alive', tags: ['health'], response: { 200: z.object({ alive: z.literal(true) }) } },
    },
    async () => ({ alive: true }),
  );
  app.get(
    '/readyz',
    {
      schema: {
        summary: 'Able to answer, with the age of each forecast',
        tags: ['health'],
        response: { 200: readySchema, 503: readySchema },
      },
    },
    async (_request, reply) => {
      const sites = desk.sites().map((site) => ({ site: site.id, ...forecastStateOf(site, desk.nowMs()) }));
      const ready = sites.every((s) => s.state === 'fresh' || s.state === 'aging');
      return reply
        .code(ready ? 200 : 503)
        .header('cache-control', 'no-store')
        .send({ ready, demo: desk.demo, sites });
    },
  );
}
