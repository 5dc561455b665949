// Subscriptions: what programs ask to be sent. Reading them; changes are in subscription-changes.ts.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { revisionTag } from '#publish/access/revisions.ts';
import { subscriptionAnswer, triedAnswer } from '#publish/answers/subscriptions.ts';
import type { SubscriptionDesk } from '#publish/subscription-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import { deliveriesSchema, subscriptionSchema, subscriptionsSchema } from '#publish/wire-subscriptions.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { addSubscriptionChanges, subscriptionParams } from './subscription-changes.ts';

const PATH = '/v1/subscriptions';

const deliveriesQuery = z.strictObject({
  before: z.coerce.number().int().min(1).optional().describe('number of the last one that you have'),
  most: z.coerce.number().int().min(1).max(200).default(50),
});

interface One {
  readonly id: string;
}

export function addSubscriptionRoutes(app: FastifyInstance, desk: SubscriptionDesk): void {
  app.get(
    PATH,
    {
      config: { scope: 'notify' },
      schema: {
        summary: 'Subscriptions, and how far each has come',
        tags: ['subscriptions'],
        querystring: noQuery,
        response: { 200: subscriptionsSchema, 503: problemSchema },
      },
    },
    async (request, reply) => {
      const found = await desk.list(viewerOf(request));
      const subscriptions = found.map((one) => subscriptionAnswer(one, null));
      return reply.header('cache-control', 'no-store').send({ subscriptions });
    },
  );
  app.get<{ Params: One }>(
    `${PATH}/:id`,
    {
      config: { scope: 'notify' },
      schema: {
        summary: 'A subscription; its ETag is the revision that a change names',
        tags: ['subscriptions'],
        params: subscriptionParams,
        querystring: noQuery,
        response: { 200: subscriptionSchema, 404: problemSchema, 503: problemSchema },
      },
    },
    async (request, reply) => {
      const seen = await desk.one(viewerOf(request), request.params.id);
      reply.header('etag', revisionTag(seen.revision)).header('cache-control', 'no-store');
      return reply.send(subscriptionAnswer(seen, null));
    },
  );
  addDeliveries(app, desk);
  addSubscriptionChanges(app, desk, PATH);
}

function addDeliveries(app: FastifyInstance, desk: SubscriptionDesk): void {
  app.get<{ Params: One; Querystring: z.output<typeof deliveriesQuery> }>(
    `${PATH}/:id/deliveries`,
    {
      config: { scope: 'notify' },
      schema: {
        summary: 'What became of each try, newest first; the last thousand are kept',
        tags: ['subscriptions'],
        params: subscriptionParams,
        querystring: deliveriesQuery,
        response: { 200: deliveriesSchema, 400: problemSchema, 404: problemSchema, 503: problemSchema },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const { before, most } = request.query;
      const found = await desk.deliveries(viewerOf(request), id, { before: before ?? null, most });
      const last = found.at(-1);
      const url = `${PATH}/${encodeURIComponent(id)}/deliveries`;
      if (last && found.length === most && last.number > 1)
        reply.header('link', `<${url}?before=${last.number}&most=${most}>; rel="next"`);
      const deliveries = found.map((one) => ({ number: one.number, ...triedAnswer(one) }));
      return reply.header('cache-control', 'no-store').send({ deliveries });
    },
  );
}
