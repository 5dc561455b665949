// Sites, limit sets, orders and contacts as written: reading them with their history, and changing them.

import type { FastifyInstance, FastifyRequest } from 'fastify';
import { revisionTag } from '#publish/access/revisions.ts';
import { definitionAnswer } from '#publish/answers/definition.ts';
import { optedOutAnswer } from '#publish/answers/opted-out.ts';
import type { DefinitionDesk } from '#publish/definition-desk.ts';
import { definitionsSeen } from '#publish/definitions-seen.ts';
import { maySee, type Viewer } from '#publish/viewer.ts';
import { problemSchema } from '#publish/wire.ts';
import { definitionSchema, definitionsSchema } from '#publish/wire-definitions.ts';
import type { Definition, DefinitionKind } from '#store/definition.ts';
import { makeAnswer } from './answer-cache.ts';
import { addDefinitionChanges } from './definition-changes.ts';
import { type DefinitionPath, definitionParams, notThere } from './definition-path.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { JSON_TYPE } from './site-answers.ts';
import { send } from './sites.ts';

const PATHS: readonly DefinitionPath[] = [
  { kind: 'site', path: '/v1/sites', one: 'site', all: 'sites', reads: 'read', writes: 'admin' },
  {
    kind: 'limit-set',
    path: '/v1/limit-sets',
    one: 'limit set',
    all: 'limit sets',
    reads: 'read',
    writes: 'admin',
  },
  { kind: 'order', path: '/v1/orders', one: 'order', all: 'orders', reads: 'read', writes: 'order' },
  {
    kind: 'contact',
    path: '/v1/contacts',
    one: 'contact',
    all: 'contacts',
    reads: 'notify',
    writes: 'admin',
  },
];

type OneRequest = FastifyRequest<{ Params: { id: string } }>;

export function addDefinitionRoutes(app: FastifyInstance, definitions: DefinitionDesk): void {
  for (const at of PATHS) {
    addList(app, definitions, at);
    addOne(app, definitions, at);
    addHistory(app, definitions, at);
    addDefinitionChanges(app, definitions, at);
  }
}

/** The list of sites is another one, with their forecasts. */
function addList(
  app: FastifyInstance,
  definitions: DefinitionDesk,
  { kind, path, all, reads }: DefinitionPath,
): void {
  if (kind === 'site') return;
  app.get(
    path,
    {
      config: { scope: reads },
      schema: {
        summary:
          kind === 'contact' ? 'All contacts as written, and who has opted out' : `All ${all} as written`,
        tags: ['definitions'],
        querystring: noQuery,
        response: { 200: definitionsSchema, 503: problemSchema },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const found = await seen(definitions, viewer, await definitions.current(viewer.organisation, kind));
      const answers = found.map(definitionAnswer);
      const optOuts = kind === 'contact' ? await definitions.optOuts(viewer.organisation) : null;
      const all = optOuts
        ? found.map((one, i) => ({ ...answers[i], optedOut: optedOutAnswer(one, optOuts) }))
        : answers;
      const body = JSON.stringify({ definitions: all });
      return send(reply, makeAnswer(body, JSON_TYPE), request.headers['if-none-match']);
    },
  );
}

function addOne(
  app: FastifyInstance,
  definitions: DefinitionDesk,
  { kind, path, one, reads }: DefinitionPath,
): void {
  app.get<{ Params: { id: string } }>(
    kind === 'site' ? `${path}/:id/definition` : `${path}/:id`,
    {
      config: { scope: reads },
      schema: {
        summary: `A ${one} as written; its ETag is the revision that a change names`,
        tags: ['definitions'],
        params: definitionParams,
        querystring: noQuery,
        response: { 200: definitionSchema, 404: problemSchema, 503: problemSchema },
      },
    },
    async (request, reply) => {
      const revisions = await seenRevisions(definitions, kind, request);
      const newest = revisions[0];
      if (!newest || newest.body === null) throw notThere(kind, request.params.id);
      const answer = makeAnswer(JSON.stringify(definitionAnswer(newest)), JSON_TYPE);
      const etag = revisionTag(newest.revision);
      return send(reply, { ...answer, etag }, request.headers['if-none-match']);
    },
  );
}

function addHistory(
  app: FastifyInstance,
  definitions: DefinitionDesk,
  { kind, path, one, reads }: DefinitionPath,
): void {
  app.get<{ Params: { id: string } }>(
    `${path}/:id/history`,
    {
      config: { scope: reads },
      schema: {
        summary: `All revisions of a ${one}, newest first: who, when, what`,
        tags: ['definitions'],
        params: definitionParams,
        querystring: noQuery,
        response: { 200: definitionsSchema, 404: problemSchema, 503: problemSchema },
      },
    },
    async (request, reply) => {
      const revisions = await seenRevisions(definitions, kind, request);
      if (revisions.length === 0) throw notThere(kind, request.params.id);
      const body = JSON.stringify({ definitions: revisions.map(definitionAnswer) });
      return send(reply, makeAnswer(body, JSON_TYPE), request.headers['if-none-match']);
    },
  );
}

/** The revisions that the viewer may see, newest first. */
async function seenRevisions(
  definitions: DefinitionDesk,
  kind: DefinitionKind,
  request: OneRequest,
): Promise<readonly Definition[]> {
  const viewer = viewerOf(request);
  const { organisation } = viewer;
  const { id } = request.params;
  if (kind === 'site' && !maySee(viewer, id)) return [];
  return seen(definitions, viewer, await definitions.history({ organisation, kind, id }));
}

export async function seen(
  definitions: DefinitionDesk,
  viewer: Viewer,
  found: readonly Definition[],
): Promise<readonly Definition[]> {
  if (viewer.sites === null) return found;
  return definitionsSeen(viewer, found, await definitions.current(viewer.organisation, 'site'));
}
