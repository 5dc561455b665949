// GET /v1/sites/{id}/now and what was told: notices, messages, their answers.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { noticeAnswer, type SayCondition } from '#publish/answers/now.ts';
import { messageAnswer } from '#publish/answers/watch.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import { messageSchema, messagesSchema, noticesSchema, nowSchema } from '#publish/wire-watch.ts';
import { nowOf, readerOf } from './live-of.ts';
import { onceHeaders } from './once-headers.ts';
import { onceKeyOf } from './once-key-of.ts';
import { readerQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { type PeriodQuery, periodOf, periodQuery, zoneOf } from './watch-period.ts';

const siteParams = z.strictObject({ id: z.string().max(80) });
const messageParams = z.strictObject({ message: z.string().max(80) });
const problems = { 400: problemSchema, 404: problemSchema, 503: problemSchema };
type ReaderQuery = z.output<typeof readerQuery>;

export interface LiveParts {
  readonly desk: PlanDesk;
  readonly watch: WatchDesk;
  readonly say: SayCondition;
}

export function addLiveRoutes(app: FastifyInstance, parts: LiveParts): void {
  addNow(app, parts);
  addNotices(app, parts);
  addMessages(app, parts);
  addAnswering(app, parts);
}

function addNow(app: FastifyInstance, { desk, watch, say }: LiveParts): void {
  app.get<{ Params: { id: string }; Querystring: ReaderQuery }>(
    '/v1/sites/:id/now',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'What stands at this moment: the worse of plan and watch, and why',
        tags: ['answers'],
        params: siteParams,
        querystring: readerQuery,
        response: { 200: nowSchema, ...problems },
      },
    },
    async (request, reply) => {
      const key = siteKeyOrThrow(viewerOf(request), request.params.id);
      const answer = await nowOf({ desk: watch, say }, desk, { key }, request.query);
      return reply.header('cache-control', 'no-store').send(answer);
    },
  );
}

function addNotices(app: FastifyInstance, { desk, watch, say }: LiveParts): void {
  app.get<{ Querystring: ReaderQuery & { site?: string | undefined } }>(
    '/v1/notices',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'What somebody must know, as far as it is not over',
        tags: ['notices'],
        querystring: readerQuery.extend({ site: z.string().max(80).optional() }),
        response: { 200: noticesSchema, ...problems },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const { site } = request.query;
      const notices = await watch.notices(viewer, site === undefined ? null : siteKeyOrThrow(viewer, site));
      const zones = new Map(desk.sites(viewer).map((s) => [s.key, zoneOf(s)]));
      return reply.header('cache-control', 'no-store').send({
        notices: notices.map((n) =>
          noticeAnswer(n, readerOf(desk, request.query, zones.get(n.site) ?? 'UTC', null), say),
        ),
      });
    },
  );
}

function addMessages(app: FastifyInstance, { desk, watch }: LiveParts): void {
  app.get<{ Params: { id: string }; Querystring: PeriodQuery }>(
    '/v1/sites/:id/messages',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'What was told about a site, to whom, over what, and what became of it',
        tags: ['notices'],
        params: siteParams,
        querystring: periodQuery,
        response: { 200: messagesSchema, ...problems },
      },
    },
    async (request, reply) => {
      const key = siteKeyOrThrow(viewerOf(request), request.params.id);
      const zone = zoneOf(desk.site(key));
      const { fromMs, toMs } = periodOf(request.query, desk.nowMs());
      const found = await watch.messages(key, fromMs, toMs);
      return reply
        .header('cache-control', 'no-store')
        .send({ messages: found.map((m) => messageAnswer(m, zone)) });
    },
  );
  app.post<{ Params: { id: string } }>(
    '/v1/sites/:id/drill',
    {
      config: { scope: 'notify' },
      schema: {
        summary: 'Sends a text marked as a drill to the contacts of a site',
        tags: ['notices'],
        params: siteParams,
        headers: onceHeaders,
        response: { 202: messageSchema, ...problems, 422: problemSchema, 429: problemSchema },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const key = siteKeyOrThrow(viewer, request.params.id);
      const { message, already } = await watch.drill(key, viewer.name, onceKeyOf(request));
      if (already) reply.header('idempotency-replayed', 'true');
      return reply.code(202).send(messageAnswer(message, zoneOf(desk.site(key))));
    },
  );
}

const answerBody = z.strictObject({
  answer: z.enum(['got-it', 'cannot']).describe('cannot: not able to do it; the next is told at once'),
  by: z.string().trim().min(1).max(120).optional().describe('which contact answers'),
});

function addAnswering(app: FastifyInstance, { desk, watch }: LiveParts): void {
  app.post<{ Params: { message: string }; Body: z.output<typeof answerBody> }>(
    '/v1/messages/:message/answers',
    {
      config: { scope: 'burn' },
      schema: {
        summary: 'An answer ends the asking, not what it is about',
        tags: ['notices'],
        params: messageParams,
        headers: onceHeaders,
        body: answerBody,
        response: { 200: messageSchema, ...problems },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const { answer, by } = request.body;
      const message = await watch.answer(
        viewer,
        request.params.message,
        answer,
        by ?? viewer.name,
        'api',
        onceKeyOf(request),
      );
      return reply
        .header('cache-control', 'no-store')
        .send(messageAnswer(message, zoneOf(desk.site(message.site))));
    },
  );
}
