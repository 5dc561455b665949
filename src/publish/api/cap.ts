// GET /v1/cap.atom and /v1/cap/{id}: what stands and what is over, for programs that read the Common Alerting Protocol.

import type { FastifyInstance, FastifyReply } from 'fastify';
import { z } from 'zod';
import { ATOM_TYPE, capAtom } from '#publish/cap/atom.ts';
import { CAP_TYPE } from '#publish/cap/cap-xml.ts';
import type { CapDesk } from '#publish/cap-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import { makeAnswer, matches } from './answer-cache.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';

const params = z.strictObject({
  id: z.string().max(120).describe('the identifier of a message, as the index and its references have it'),
});

const xml = (description: string, example: string) => z.string().meta({ description, examples: [example] });

const ATOM_EXAMPLE =
  '<feed xmlns="http://www.w3.org/2005/Atom"><id>urn:uuid:3f0c2b6e-5d1a-8c77-9b42-0e6f1d2a7c55</id>…</feed>';
const CAP_EXAMPLE =
  '<alert xmlns="urn:oasis:names:tc:emergency:cap:1.2"><identifier>pitward.own.4be1…</identifier>…</alert>';

/** A message never changes: whoever has it need not ask again. Shared caches know nothing of keys. */
const MESSAGE_CACHE = 'private, max-age=86400, immutable';

export function addCapRoutes(app: FastifyInstance, cap: CapDesk): void {
  app.get(
    '/v1/cap.atom',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'Index of CAP 1.2 messages as an Atom feed: in force, or until two days ago',
        tags: ['events'],
        querystring: noQuery,
        produces: ['application/atom+xml'],
        response: {
          200: xml('an Atom feed (RFC 4287), newest first', ATOM_EXAMPLE),
          400: problemSchema,
          503: problemSchema,
        },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const { organisation, sites } = viewer;
      const entries = await cap.entries(viewer);
      const text = capAtom({ organisation, sites, base: cap.publicUrl ?? '' }, entries);
      return sendXml(reply, text, ATOM_TYPE, request.headers['if-none-match'], 'private, no-cache');
    },
  );
  app.get<{ Params: z.output<typeof params> }>(
    '/v1/cap/:id',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'One CAP 1.2 message, the same bytes for ever',
        tags: ['events'],
        params,
        querystring: noQuery,
        produces: [CAP_TYPE],
        response: {
          200: xml('a message of the Common Alerting Protocol 1.2', CAP_EXAMPLE),
          400: problemSchema,
          404: problemSchema,
          503: problemSchema,
        },
      },
    },
    async (request, reply) => {
      const text = await cap.message(viewerOf(request), request.params.id);
      return sendXml(reply, text, CAP_TYPE, request.headers['if-none-match'], MESSAGE_CACHE);
    },
  );
}

function sendXml(
  reply: FastifyReply,
  text: string,
  type: string,
  ifNoneMatch: string | undefined,
  cacheControl: string,
): FastifyReply {
  const { bytes, etag } = makeAnswer(text, type);
  reply.header('etag', etag).header('cache-control', cacheControl);
  if (matches(ifNoneMatch, etag)) return reply.code(304).send();
  return reply.type(type).send(bytes);
}
