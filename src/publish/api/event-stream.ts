// GET /v1/events/stream: the log of events, told as it grows (WHATWG HTML, 9.2: server-sent events).

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import { problemSchema } from '#publish/wire.ts';
import { STREAM_EXAMPLE } from '#publish/wire-examples.ts';
import type { EventStreams } from './event-streams.ts';
import { type FollowedQuery, followedQuery, positionText } from './events.ts';
import { answerByStream, EVENT_STREAM } from './listeners.ts';
import { badQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';

const streamQuery = followedQuery.extend({
  after: positionText
    .optional()
    .describe(
      'id of the last event that you have; what comes from now on where it is left out. `Last-Event-ID` goes before it',
    ),
});

type StreamQuery = FollowedQuery & { readonly after?: string };

const DESCRIPTION = `Server-sent events. Messages without a name are the events of GET /v1/events, byte for byte, each \
with its id as \`id\`, in their order; an \`EventSource\` that connects again goes on after the last one. Besides: \
\`event: position\`: nothing that you asked for is left out up to \`position\`; comes first, after a fault, and from time to \
time where others were passed over. \`event: gap\`: what came after \`after\` and up to \`missingUpTo\` is kept no longer: \
read the state anew. \`event: fault\`: nothing can be read now; what comes meanwhile is told later. \`event: end\`: the stream \
ends, and why: \`renew\` (after ten minutes) and \`draining\`: connect again at once; \`slow\`: too little was read for 30 s; \
\`key\`: the key has ended. A comment comes every 15 s.`;

export function addEventStream(app: FastifyInstance, streams: EventStreams): void {
  app.addHook('preClose', async () => streams.end());
  app.get<{ Querystring: StreamQuery }>(
    '/v1/events/stream',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'The log of events, told as it grows',
        description: DESCRIPTION,
        tags: ['events'],
        querystring: streamQuery,
        produces: [EVENT_STREAM],
        response: {
          200: z.string().meta({ examples: [STREAM_EXAMPLE] }),
          400: problemSchema,
          404: problemSchema,
          429: problemSchema,
          503: problemSchema,
        },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const { after, site, types, ...reader } = request.query;
      const position = lastEventId(request.headers['last-event-id']) ?? after;
      const following = {
        viewer,
        siteKey: site === undefined ? null : siteKeyOrThrow(viewer, site),
        kinds: types ?? null,
        reader,
        after: position === undefined ? null : Number(position),
      };
      return answerByStream(app, request, reply, (knock, listen) =>
        streams.add({ ...following, ...knock }, listen),
      );
    },
  );
}

/** Empty: none yet. */
function lastEventId(head: string | string[] | undefined): string | undefined {
  if (head === undefined || head === '') return undefined;
  if (!positionText.safeParse(head).success)
    throw badQuery('Last-Event-ID', 'expected the id of an event of this stream');
  return String(head);
}
