// GET /healthz: alive. GET /readyz: able to answer, or why not, and the age of each site's forecast for whoever may read.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { PlanDesk } from '#publish/desk.ts';
import type { NotReady } from '#publish/not-ready.ts';
import { mayDo } from '#publish/viewer.ts';
import { readySchema } from '#publish/wire-ready.ts';
import type { Draining } from './draining.ts';
import { forecastStateOf } from './forecast-state.ts';

const ENDING: NotReady = { code: 'ending', sentence: 'the service is being stopped' };

export function addHealthRoutes(app: FastifyInstance, desk: PlanDesk, draining: Draining): void {
  app.get(
    '/healthz',
    {
      config: { scope: 'open', uncounted: true },
      schema: { summary: 'Alive', tags: ['health'], response: { 200: z.object({ alive: z.literal(true) }) } },
    },
    async (_request, reply) => reply.header('cache-control', 'no-store').send({ alive: true }),
  );
  app.get(
    '/readyz',
    {
      config: { scope: 'open', uncounted: true },
      schema: {
        summary: 'Able to answer, or why not, with the age of each forecast',
        tags: ['health'],
        response: { 200: readySchema, 503: readySchema },
      },
    },
    async ({ viewer }, reply) => {
      const reason = draining.begun ? ENDING : desk.whyNotReady();
      const seen = viewer && mayDo(viewer, 'read') ? desk.sites(viewer) : null;
      const sites = seen?.map((site) => ({ site: site.id, ...forecastStateOf(site, desk.nowMs()) }));
      return reply
        .code(reason === null ? 200 : 503)
        .header('cache-control', 'no-store')
        .send({
          ready: reason === null,
          demo: desk.demo,
          ...(reason ? { reason } : {}),
          ...(sites ? { sites } : {}),
        });
    },
  );
}
