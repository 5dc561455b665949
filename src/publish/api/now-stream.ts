// GET /v1/sites/{id}/now/stream: what stands at a site, told at every change (WHATWG HTML, 9.2: server-sent events).

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { PlanDesk } from '#publish/desk.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import { problemSchema } from '#publish/wire.ts';
import { answerByStream, EVENT_STREAM } from './listeners.ts';
import type { NowStreams } from './now-streams.ts';
import { type ReaderQuery, readerQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';

const DESCRIPTION = `Server-sent events. \`event: now\`: the answer of …/now, at once, at every change, and once a minute \
while nothing changes; each carries its own times (\`asOf\`, \`goodUntil\`), so that a listener can tell how old it is. \
\`event: fault\`: no answer can be given now; what was told before holds no longer than its \`goodUntil\`. \`id\`: the same \
for the same answer. This is a state and no log: what was told while nobody listened is not repeated, \`Last-Event-ID\` is \
passed over, and a new connection begins with what stands. A comment comes every 15 s; after ten minutes the stream ends, \
to be asked for again. Who does not read is dropped.`;

export function addNowStream(app: FastifyInstance, desk: PlanDesk, streams: NowStreams): void {
  app.addHook('preClose', async () => streams.end());
  app.get<{ Params: { id: string }; Querystring: ReaderQuery }>(
    '/v1/sites/:id/now/stream',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'What stands at this moment, told at every change',
        description: DESCRIPTION,
        tags: ['answers'],
        params: z.strictObject({ id: z.string().max(80) }),
        querystring: readerQuery,
        produces: [EVENT_STREAM],
        response: {
          200: z.string(),
          400: problemSchema,
          404: problemSchema,
          429: problemSchema,
          503: problemSchema,
        },
      },
    },
    async (request, reply) => {
      const siteKey = siteKeyOrThrow(viewerOf(request), request.params.id);
      desk.site(siteKey);
      return answerByStream(app, request, reply, (knock, listen) =>
        streams.add({ siteKey, query: request.query, ...knock }, listen),
      );
    },
  );
}
