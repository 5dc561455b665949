// POST, PUT and DELETE of sites, limit sets and orders. A change names the revision that it replaces, and is in force in the
// answer to the next request.

import { createHash } from 'node:crypto';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { ServiceError } from '#errors.ts';
import { replacedBy, revisionTag } from '#publish/access/revisions.ts';
import { definitionAnswer } from '#publish/answers/definition.ts';
import type { Changed, DefinitionDesk } from '#publish/definition-desk.ts';
import { maySee, signatureOf, type Viewer } from '#publish/viewer.ts';
import { problemSchema } from '#publish/wire.ts';
import { definitionSchema } from '#publish/wire-definitions.ts';
import type { Definition, DefinitionKind } from '#store/definition.ts';
import type { OnceOutcome } from '#store/once.ts';
import { refuseDeepBody } from './deep-body.ts';
import { type DefinitionPath, definitionParams, notThere } from './definition-path.ts';
import { onceHeaders } from './once-headers.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { JSON_TYPE } from './site-answers.ts';

const asInFile = z.record(z.string(), z.unknown());
const limitRows = z.array(asInFile);

/** What a POST takes; the file names its limit sets by their keys, so a new one is a map of one entry. */
const POST_BODIES: Readonly<Record<DefinitionKind, z.ZodType>> = {
  site: asInFile.describe('a site as in the configuration file'),
  'limit-set': z
    .record(z.string(), limitRows)
    .describe('a map with one entry: name → list of limits, as in the configuration file'),
  order: asInFile.describe('an order as in the configuration file; its id is made of its name'),
  contact: asInFile.describe('a contact as in the configuration file'),
};

const PUT_BODIES: Readonly<Record<DefinitionKind, z.ZodType>> = {
  site: POST_BODIES.site,
  'limit-set': limitRows.describe('a list of limits as in the configuration file'),
  order: asInFile.describe('an order as in the configuration file'),
  contact: POST_BODIES.contact,
};

const ifMatch = z.string().optional().describe('the revision that this replaces, such as "r7"');
const putHeaders = z
  .object({ 'if-match': ifMatch, 'if-none-match': z.string().optional().describe('* for a new one') })
  .loose();
const deleteHeaders = z.object({ 'if-match': ifMatch }).loose();

const REFUSALS = {
  400: problemSchema,
  403: problemSchema,
  404: problemSchema,
  409: problemSchema,
  413: problemSchema,
  503: problemSchema,
};

type OneRequest = FastifyRequest<{ Params: { id: string }; Body: unknown }>;

export function addDefinitionChanges(
  app: FastifyInstance,
  definitions: DefinitionDesk,
  at: DefinitionPath,
): void {
  addPost(app, definitions, at);
  addPut(app, definitions, at);
  addDelete(app, definitions, at);
}

function addPost(
  app: FastifyInstance,
  definitions: DefinitionDesk,
  { kind, path, one, writes }: DefinitionPath,
): void {
  app.post<{ Body: unknown }>(
    path,
    {
      config: { scope: writes },
      preValidation: refuseDeepBody,
      schema: {
        summary: `A new ${one}`,
        tags: ['definitions'],
        querystring: noQuery,
        headers: onceHeaders,
        body: POST_BODIES[kind],
        response: { 201: definitionSchema, ...REFUSALS, 422: problemSchema },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const { id, body } = newOf(kind, request.body);
      refuseBeyondKey(viewer, kind, id);
      const key = request.headers['idempotency-key'];
      const once = typeof key === 'string' ? { key, requestHash: hashOf('POST', path, request.body) } : null;
      const { organisation, sites } = viewer;
      const asked = {
        organisation,
        sites,
        kind,
        id,
        body,
        replaces: 'new',
        who: signatureOf(viewer),
        once,
      } as const;
      return sendChanged(reply, await definitions.change(asked, (made) => replyOf(path, made, 201)));
    },
  );
}

function addPut(
  app: FastifyInstance,
  definitions: DefinitionDesk,
  { kind, path, one, writes }: DefinitionPath,
): void {
  app.put<{ Params: { id: string }; Body: unknown }>(
    `${path}/:id`,
    {
      config: { scope: writes },
      preValidation: refuseDeepBody,
      schema: {
        summary: `Another revision of a ${one}, or a new one`,
        tags: ['definitions'],
        params: definitionParams,
        querystring: noQuery,
        headers: putHeaders,
        body: PUT_BODIES[kind],
        response: {
          200: definitionSchema,
          201: definitionSchema,
          ...REFUSALS,
          412: problemSchema,
          428: problemSchema,
        },
      },
    },
    async (request, reply) => {
      const { viewer, id } = mayChange(kind, request);
      const replaces = replacedBy(request.headers, true);
      const { organisation, sites } = viewer;
      const who = signatureOf(viewer);
      const asked = { organisation, sites, kind, id, body: request.body, replaces, who, once: null };
      const status = replaces === 'new' ? 201 : 200;
      const changed = await definitions
        .change(asked, (made) => replyOf(path, made, status))
        .catch(asPrecondition);
      return sendChanged(reply, changed);
    },
  );
}

function addDelete(
  app: FastifyInstance,
  definitions: DefinitionDesk,
  { kind, path, one, writes }: DefinitionPath,
): void {
  app.delete<{ Params: { id: string } }>(
    `${path}/:id`,
    {
      config: { scope: writes },
      schema: {
        summary: `Takes a ${one} out; its history stays`,
        tags: ['definitions'],
        params: definitionParams,
        querystring: noQuery,
        headers: deleteHeaders,
        response: {
          204: z.null().describe('taken out'),
          ...REFUSALS,
          412: problemSchema,
          428: problemSchema,
        },
      },
    },
    async (request, reply) => {
      const { viewer, id } = mayChange(kind, request);
      const replaces = replacedBy(request.headers, false);
      const { organisation, sites } = viewer;
      const who = signatureOf(viewer);
      const asked = { organisation, sites, kind, id, body: null, replaces, who, once: null };
      return sendChanged(
        reply,
        await definitions.change(asked, () => ({ status: 204, body: '', headers: {} })),
      );
    },
  );
}

/** `If-None-Match: *` where something is there is a condition that failed (RFC 9110, 13.1.2). */
function asPrecondition(fault: unknown): never {
  if (!(fault instanceof ServiceError) || fault.code !== 'already_there') throw fault;
  throw new ServiceError('changed_meanwhile', fault.message, { cause: fault });
}

/** Throws ServiceError `bad_body`. */
function newOf(kind: DefinitionKind, body: unknown): { id: string | null; body: unknown } {
  const given = body as Record<string, unknown>;
  if (kind === 'order') return { id: null, body };
  if (kind === 'limit-set') {
    const [entry, ...more] = Object.entries(given);
    if (entry && more.length === 0) return { id: entry[0], body: entry[1] };
    throw badBody(
      '(body)',
      'expected a map with one entry: the name of the limit set and its list of limits',
    );
  }
  if (typeof given['id'] === 'string') return { id: given['id'], body };
  throw badBody('id', 'expected small letters, digits and hyphens');
}

const badBody = (path: string, message: string): ServiceError =>
  new ServiceError('bad_body', `${path}: ${message}`, { facts: { faults: [{ path, message }] } });

function mayChange(kind: DefinitionKind, request: OneRequest | FastifyRequest<{ Params: { id: string } }>) {
  const viewer = viewerOf(request);
  const { id } = request.params;
  if (kind === 'site' && !maySee(viewer, id)) throw notThere(kind, id);
  refuseBeyondKey(viewer, kind, id);
  return { viewer, id };
}

/** A key for some sites changes these alone: limit sets and orders hold for others too. */
export function refuseBeyondKey(viewer: Viewer, kind: DefinitionKind, id: string | null): void {
  if (viewer.sites === null || (kind === 'site' && id !== null && maySee(viewer, id))) return;
  throw new ServiceError('forbidden', 'this key is for some sites only and may change nothing else');
}

const hashOf = (method: string, path: string, body: unknown): string =>
  createHash('sha256')
    .update(`${method} ${path}\n${JSON.stringify(body)}`)
    .digest('hex');

const replyOf = (path: string, made: Definition, status: number): OnceOutcome => ({
  status,
  body: JSON.stringify(definitionAnswer(made)),
  headers: {
    'content-type': JSON_TYPE,
    etag: revisionTag(made.revision),
    location: `${path}/${encodeURIComponent(made.id)}`,
  },
});

function sendChanged(reply: FastifyReply, { outcome, replayed }: Changed): FastifyReply {
  reply.code(outcome.status).headers(outcome.headers).header('cache-control', 'no-store');
  if (replayed) reply.header('idempotency-replayed', 'true');
  return outcome.body === '' ? reply.send() : reply.send(outcome.body);
}
