// Burns: what the crew taps, and what was tapped. A burn lit against the plan is recorded, never refused.

import type { FastifyInstance, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { burnAnswer } from '#publish/answers/watch.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import type { TapAsked, WatchDesk } from '#publish/watch-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import { burnSchema, burnsSchema, tapKind } from '#publish/wire-watch.ts';
import { refuseDeepBody } from './deep-body.ts';
import { onceKeyOf } from './once-key-of.ts';
import { typedInstant } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { type PeriodQuery, periodOf, periodQuery, zoneOf } from './watch-period.ts';

const siteParams = z.strictObject({ id: z.string().max(80) });
const burnParams = z.strictObject({ id: z.string().max(80), burn: z.string().max(80) });
const problems = { 400: problemSchema, 404: problemSchema, 413: problemSchema, 503: problemSchema };
/** 409: the id is that of another tap. */
const tapProblems = { ...problems, 409: problemSchema };

const words = (most: number) => z.string().trim().max(most);

const tapBody = z.strictObject({
  id: z
    .string()
    .regex(/^[\w-]{8,64}$/, 'expected 8 to 64 letters, digits, _ or -')
    .optional()
    .describe(
      'made where it is tapped: the same tap sent again counts once; another tap under it is refused with 409',
    ),
  tap: tapKind,
  at: typedInstant.optional().describe('when it was tapped; now where it is left out'),
  by: words(120).min(1).optional().describe('who tapped; the name of the key where it is left out'),
  from: z.enum(['phone', 'page', 'text', 'api']).default('api'),
  corrects: z.string().max(64).optional().describe('the tap that this one replaces'),
  withdraws: z.boolean().default(false).describe('true: what it corrects did not happen'),
  note: words(500).default(''),
});

/** The same thing by its common name. */
const tapHeaders = z
  .object({ 'idempotency-key': tapBody.shape.id.describe('the same as `id`, where the body has none') })
  .loose();

type OfSite = FastifyRequest<{ Params: { id: string } }>;

export function addBurnRoutes(app: FastifyInstance, desk: PlanDesk, watch: WatchDesk): void {
  addOpening(app, desk, watch);
  addTapping(app, desk, watch);
  addReading(app, desk, watch);
}

function addOpening(app: FastifyInstance, desk: PlanDesk, watch: WatchDesk): void {
  app.post<{ Params: { id: string }; Body: z.output<typeof tapBody> }>(
    '/v1/sites/:id/burns',
    {
      config: { scope: 'burn' },
      preValidation: refuseDeepBody,
      schema: {
        summary: 'A burn begins with its first tap; from then on it is watched until covered',
        tags: ['burns'],
        params: siteParams,
        headers: tapHeaders,
        body: tapBody,
        response: { 200: burnSchema, 201: burnSchema, ...tapProblems },
      },
    },
    async (request, reply) => {
      const key = siteKeyOrThrow(viewerOf(request), request.params.id);
      const { record, already } = await watch.open(key, askedBy(request, request.body));
      return reply
        .code(already ? 200 : 201)
        .header('cache-control', 'no-store')
        .send(burnAnswer(record, zoneOf(desk.site(key))));
    },
  );
}

function addTapping(app: FastifyInstance, desk: PlanDesk, watch: WatchDesk): void {
  app.post<{ Params: { id: string; burn: string }; Body: z.output<typeof tapBody> }>(
    '/v1/sites/:id/burns/:burn/taps',
    {
      config: { scope: 'burn' },
      preValidation: refuseDeepBody,
      schema: {
        summary: 'A further tap, or the correction of one: rows are only ever added',
        tags: ['burns'],
        params: burnParams,
        headers: tapHeaders,
        body: tapBody,
        response: { 200: burnSchema, 201: burnSchema, ...tapProblems },
      },
    },
    async (request, reply) => {
      const key = siteKeyOrThrow(viewerOf(request), request.params.id);
      const { record, already } = await watch.tap(key, request.params.burn, askedBy(request, request.body));
      return reply
        .code(already ? 200 : 201)
        .header('cache-control', 'no-store')
        .send(burnAnswer(record, zoneOf(desk.site(key))));
    },
  );
}

function addReading(app: FastifyInstance, desk: PlanDesk, watch: WatchDesk): void {
  app.get<{ Params: { id: string }; Querystring: PeriodQuery }>(
    '/v1/sites/:id/burns',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'Burns that were open in a span of time, with their taps',
        tags: ['burns'],
        params: siteParams,
        querystring: periodQuery,
        response: { 200: burnsSchema, ...problems },
      },
    },
    async (request, reply) => {
      const key = siteKeyOrThrow(viewerOf(request), request.params.id);
      const zone = zoneOf(desk.site(key));
      const { fromMs, toMs } = periodOf(request.query, desk.nowMs());
      const found = await watch.burns(key, fromMs, toMs);
      return reply
        .header('cache-control', 'no-store')
        .send({ burns: found.map((record) => burnAnswer(record, zone)) });
    },
  );
  app.get<{ Params: { id: string; burn: string } }>(
    '/v1/sites/:id/burns/:burn',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'A burn with its taps',
        tags: ['burns'],
        params: burnParams,
        response: { 200: burnSchema, ...problems },
      },
    },
    async (request, reply) => {
      const key = siteKeyOrThrow(viewerOf(request), request.params.id);
      const record = await watch.burn(key, request.params.burn);
      return reply.header('cache-control', 'no-store').send(burnAnswer(record, zoneOf(desk.site(key))));
    },
  );
}

const askedBy = (request: OfSite, body: z.output<typeof tapBody>): TapAsked => ({
  id: body.id ?? onceKeyOf(request),
  tap: body.tap,
  tappedAtMs: body.at ?? null,
  by: body.by ?? viewerOf(request).name,
  from: body.from,
  corrects: body.corrects ?? null,
  withdraws: body.withdraws,
  note: body.note,
});
