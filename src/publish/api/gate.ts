// Before any route: is this our host, who asks, how often, and may they? Every route declares its scope or is refused.

import type { FastifyInstance, FastifyRequest } from 'fastify';
import { ServiceError } from '#errors.ts';
import { type Access, createCallers, refused } from '#publish/access/caller.ts';
import { isCrossSite } from '#publish/access/cross-site.ts';
import { mayDo } from '#publish/viewer.ts';
import type { Limiter } from './rate-limit.ts';
import type { RouteScope } from './request-viewer.ts';

export interface GateOptions {
  readonly access: Access;
  readonly organisation: string;
  readonly limiter: Limiter;
  nowMs(): number;
}

const READS = new Set(['GET', 'HEAD', 'OPTIONS']);

export function addGate(app: FastifyInstance, options: GateOptions): void {
  app.decorateRequest('viewer', null);
  const admit = createAdmission(options);
  app.addHook('onRequest', (request, _reply, done) => {
    admit(request);
    done();
  });
}

function createAdmission({ access, organisation, limiter, nowMs }: GateOptions): (r: FastifyRequest) => void {
  const callerOf = createCallers(access, organisation);
  return (request) => {
    // An address that is not there asks for a key like one that is.
    const { scope = 'read', uncounted = false } = request.routeOptions.config ?? {};
    if (!READS.has(request.method)) refuseCrossSite(request);
    const { viewer, prefix, refusal } = callerOf(request.headers, nowMs());
    request.viewer = viewer;
    if (!uncounted || prefix !== null) limiter.count(prefix, request.ip);
    if (scope === 'open') return;
    if (refusal !== null || viewer === null) throw refused(refusal ?? 'no-key');
    if (prefix !== null && access.kind === 'keys') access.used(prefix, nowMs());
    if (!mayDo(viewer, scope)) throw outOfScope(scope);
  };
}

const outOfScope = (scope: RouteScope): ServiceError =>
  new ServiceError('forbidden', `this takes a key with the scope "${scope}"`, { facts: { scope } });

function refuseCrossSite(request: FastifyRequest): void {
  const { origin, 'sec-fetch-site': site } = request.headers;
  const secFetchSite = typeof site === 'string' ? site : undefined;
  if (!isCrossSite({ host: request.host, origin, secFetchSite })) return;
  throw new ServiceError('forbidden', 'a page of another site may not change anything here');
}
