// PUT /v1/sites/{id}/burns/{burn}/incident: what a dispatch center calls a burn.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { burnAnswer } from '#publish/answers/watch.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import { signatureOf } from '#publish/viewer.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import { burnSchema } from '#publish/wire-watch.ts';
import { refuseDeepBody } from './deep-body.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { zoneOf } from './watch-period.ts';

const params = z.strictObject({ id: z.string().max(80), burn: z.string().max(80) });
const body = z
  .strictObject({
    reference: z
      .string()
      .trim()
      .min(1)
      .max(120)
      .nullable()
      .describe('your own name of the incident; null takes it back'),
  })
  .meta({ examples: [{ reference: 'CAD-2026-004711' }] });

interface Asked {
  Params: z.output<typeof params>;
  Body: z.output<typeof body>;
}

export function addBurnIncident(app: FastifyInstance, desk: PlanDesk, watch: WatchDesk): void {
  app.put<Asked>(
    '/v1/sites/:id/burns/:burn/incident',
    {
      config: { scope: 'order' },
      preValidation: refuseDeepBody,
      schema: {
        summary: 'Your incident reference of a burn, carried by everything that is told of it',
        tags: ['burns'],
        params,
        querystring: noQuery,
        body,
        response: {
          200: burnSchema,
          400: problemSchema,
          404: problemSchema,
          413: problemSchema,
          503: problemSchema,
        },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const key = siteKeyOrThrow(viewer, request.params.id);
      const { reference } = request.body;
      const record = await watch.assign(key, request.params.burn, reference, signatureOf(viewer));
      return reply.header('cache-control', 'no-store').send(burnAnswer(record, zoneOf(desk.site(key))));
    },
  );
}
