// POST /v1/plan: a site that is not configured, planned and forgotten.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { planSchema, problemSchema, windowSchema } from '#publish/wire.ts';
import { refuseDeepBody } from './deep-body.ts';
import { type dayQuery, dayQuery as whatIfQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { theDay, wantedBy } from './site-answers.ts';

const bodySchema = z
  .object({
    site: z
      .record(z.string(), z.unknown())
      .describe('a site as in the configuration file; id, name and limits may be left out'),
    limits: z
      .array(z.record(z.string(), z.unknown()))
      .optional()
      .describe('a list of limits as in the configuration file'),
  })
  .loose();

const answerSchema = planSchema.extend({ windows: z.array(windowSchema) }).meta({ id: 'WhatIf' });

export function addWhatIfRoute(app: FastifyInstance, desk: PlanDesk): void {
  app.post<{ Querystring: z.output<typeof dayQuery>; Body: unknown }>(
    '/v1/plan',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'What if: plan a day for a site given in the body; nothing is stored',
        tags: ['answers'],
        querystring: whatIfQuery,
        body: bodySchema,
        response: {
          200: answerSchema,
          400: problemSchema,
          413: problemSchema,
          422: problemSchema,
          502: problemSchema,
          503: problemSchema,
        },
      },
      preValidation: refuseDeepBody,
    },
    async (request, reply) => {
      // Nobody waits for the answer any more: the pull ends too.
      const gone = new AbortController();
      reply.raw.once('close', () => gone.abort());
      const plan = await desk.whatIf(
        viewerOf(request),
        request.body,
        request.query.day ?? 'today',
        gone.signal,
      );
      const day = theDay(plan);
      const wanted = wantedBy(desk, request.query, plan.site.timeZone, day.day.date, null);
      const { windows } = windowsAnswer(plan, day.day, wanted);
      const body = { ...dayPlanAnswer(plan, day, wanted), windows };
      return reply
        .header('cache-control', 'no-store')
        .header('content-type', 'application/json; charset=utf-8')
        .send(JSON.stringify(body));
    },
  );
}
