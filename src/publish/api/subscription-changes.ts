// POST, PUT and DELETE of subscriptions; another secret, sending anew, a test. A change names the revision that it replaces.

import { createHash } from 'node:crypto';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { replacedBy, revisionTag } from '#publish/access/revisions.ts';
import { subscriptionAnswer, triedAnswer } from '#publish/answers/subscriptions.ts';
import type {
  OnceAsked,
  SayChanged,
  SubscriptionChanged,
  SubscriptionDesk,
} from '#publish/subscription-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import {
  replayBody,
  rotateBody,
  subscriptionBody,
  subscriptionSchema,
  triedSchema,
} from '#publish/wire-subscriptions.ts';
import { refuseDeepBody } from './deep-body.ts';
import { onceHeaders } from './once-headers.ts';
import { onceKeyOf } from './once-key-of.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { JSON_TYPE } from './site-answers.ts';

export const subscriptionParams = z.strictObject({ id: z.string().min(1).max(80) });

const ifMatch = z.string().optional().describe('the revision that this replaces, such as "r7"');
const matchHeaders = z.object({ 'if-match': ifMatch }).loose();

const REFUSALS = {
  400: problemSchema,
  403: problemSchema,
  404: problemSchema,
  413: problemSchema,
  503: problemSchema,
};
const CONDITIONS = { 412: problemSchema, 428: problemSchema };
const shared = { tags: ['subscriptions'], querystring: noQuery };

type Body = z.output<typeof subscriptionBody>;
type One = { Params: { id: string } };

export function addSubscriptionChanges(app: FastifyInstance, desk: SubscriptionDesk, path: string): void {
  addPost(app, desk, path);
  addPut(app, desk, path);
  addRotate(app, desk, path);
  addActs(app, desk, path);
  app.delete<One>(
    `${path}/:id`,
    {
      config: { scope: 'admin' },
      schema: {
        ...shared,
        summary: 'Takes a subscription out, with what is kept of it',
        params: subscriptionParams,
        headers: matchHeaders,
        response: { 204: z.null().describe('taken out'), ...REFUSALS, ...CONDITIONS },
      },
    },
    async (request, reply) => {
      await desk.remove(viewerOf(request), request.params.id, replaced(request));
      return reply.code(204).header('cache-control', 'no-store').send();
    },
  );
}

function addPost(app: FastifyInstance, desk: SubscriptionDesk, path: string): void {
  app.post<{ Body: Body }>(
    path,
    {
      config: { scope: 'admin' },
      preValidation: refuseDeepBody,
      schema: {
        ...shared,
        summary: 'A new subscription, from the next event on; its secret is shown this once',
        headers: onceHeaders,
        body: subscriptionBody,
        response: { 201: subscriptionSchema, ...REFUSALS, 422: problemSchema },
      },
    },
    async (request, reply) => {
      const once = onceOf(request, path);
      return send(reply, await desk.add(viewerOf(request), request.body, once, saying(path, 201)));
    },
  );
}

function addPut(app: FastifyInstance, desk: SubscriptionDesk, path: string): void {
  app.put<One & { Body: Body }>(
    `${path}/:id`,
    {
      config: { scope: 'admin' },
      preValidation: refuseDeepBody,
      schema: {
        ...shared,
        summary: 'Another revision of a subscription; one that had ended goes on where it stood',
        params: subscriptionParams,
        headers: matchHeaders,
        body: subscriptionBody,
        response: { 200: subscriptionSchema, ...REFUSALS, ...CONDITIONS },
      },
    },
    async (request, reply) => {
      const asked = { id: request.params.id, replaces: replaced(request), body: request.body };
      return send(reply, await desk.change(viewerOf(request), asked, saying(path, 200)));
    },
  );
}

function addRotate(app: FastifyInstance, desk: SubscriptionDesk, path: string): void {
  app.post<One & { Body: z.output<typeof rotateBody> }>(
    `${path}/:id/rotate`,
    {
      config: { scope: 'admin' },
      schema: {
        ...shared,
        summary: 'Another secret, shown this once; the one before signs beside it for a while',
        params: subscriptionParams,
        headers: onceHeaders.extend({ 'if-match': ifMatch }),
        body: rotateBody,
        response: { 200: subscriptionSchema, ...REFUSALS, ...CONDITIONS, 422: problemSchema },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const overlapMs = Math.round(request.body.overlapHours * 3_600_000);
      const asked = { id, replaces: replaced(request), overlapMs };
      const once = onceOf(request, `${path}/${id}/rotate`);
      return send(reply, await desk.rotate(viewerOf(request), asked, once, saying(path, 200)));
    },
  );
}

function addActs(app: FastifyInstance, desk: SubscriptionDesk, path: string): void {
  app.post<One & { Body: z.output<typeof replayBody> }>(
    `${path}/:id/replay`,
    {
      config: { scope: 'admin' },
      schema: {
        ...shared,
        summary: 'Sends anew what came after an event, under the same ids',
        params: subscriptionParams,
        body: replayBody,
        response: { 200: subscriptionSchema, ...REFUSALS },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const seen = await desk.replay(viewerOf(request), id, Number(request.body.after));
      return reply.header('cache-control', 'no-store').send(subscriptionAnswer(seen, null));
    },
  );
  app.post<One>(
    `${path}/:id/test`,
    {
      config: { scope: 'admin' },
      schema: {
        ...shared,
        summary: 'Sends a test now, and tells what became of it; where it stands is left as it is',
        params: subscriptionParams,
        response: { 200: triedSchema, ...REFUSALS },
      },
    },
    async (request, reply) => {
      const tried = await desk.test(viewerOf(request), request.params.id);
      return reply.header('cache-control', 'no-store').send(triedAnswer(tried));
    },
  );
}

/** Throws ServiceError `precondition_required`. */
const replaced = (request: FastifyRequest): readonly number[] => {
  const { headers } = request;
  const revisions = replacedBy({ 'if-match': headers['if-match'] }, false);
  return revisions === 'new' ? [] : revisions;
};

function onceOf(request: FastifyRequest, url: string): OnceAsked | null {
  const key = onceKeyOf(request);
  if (key === null) return null;
  const asked = `POST ${url}\n${String(request.headers['if-match'] ?? '')}\n${JSON.stringify(request.body)}`;
  return { key, requestHash: createHash('sha256').update(asked).digest('hex') };
}

const saying =
  (path: string, status: number): SayChanged =>
  (seen, secret) => ({
    status,
    body: JSON.stringify(subscriptionAnswer(seen, secret)),
    headers: {
      'content-type': JSON_TYPE,
      etag: revisionTag(seen.revision),
      location: `${path}/${encodeURIComponent(seen.id)}`,
    },
  });

function send(reply: FastifyReply, { outcome, replayed }: SubscriptionChanged): FastifyReply {
  reply.code(outcome.status).headers(outcome.headers).header('cache-control', 'no-store');
  if (replayed) reply.header('idempotency-replayed', 'true');
  return reply.send(outcome.body);
}
