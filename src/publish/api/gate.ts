// Before any route: is this our host, who asks, how often, and may they? Every route declares its scope or is refused.

import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { ServiceError } from '#errors.ts';
import { type Access, createCallers, refused } from '#publish/access/caller.ts';
import { CHALLENGE_WITHOUT_BOX } from '#publish/access/credentials.ts';
import { isCrossSite, isProvenOwn } from '#publish/access/cross-site.ts';
import { mayDo } from '#publish/viewer.ts';
import { asksForPage, isBrowser, isSecure, originOf } from './browser-heads.ts';
import type { Limiter } from './rate-limit.ts';
import type { RouteScope } from './request-viewer.ts';

declare module 'fastify' {
  interface FastifyInstance {
    /** Whether the key that a request came with would be let in now: for answers that go on for long. */
    isStillKnown(request: FastifyRequest): boolean;
  }
}

export interface GateOptions {
  readonly access: Access;
  readonly organisation: string;
  readonly limiter: Limiter;
  nowMs(): number;
  /** Shows somebody without a key what to do. */
  askToSignIn(request: FastifyRequest, reply: FastifyReply): void;
}

const READS = new Set(['GET', 'HEAD', 'OPTIONS']);

export function addGate(app: FastifyInstance, options: GateOptions): void {
  app.decorateRequest('viewer', null);
  app.decorateRequest('byCookie', false);
  const admit = createAdmission(options);
  const callerOf = createCallers(options.access, options.organisation);
  app.decorate('isStillKnown', (request: FastifyRequest) => {
    const { viewer, refusal } = callerOf(request.headers, options.nowMs(), isSecure(request));
    return viewer !== null && refusal === null;
  });
  app.addHook('onRequest', (request, reply, done) => {
    const refusal = admit(request);
    if (refusal === null) done();
    else if (asksForPage(request)) options.askToSignIn(request, reply.code(401));
    else throw refusal;
  });
  app.addHook('onSend', (request, reply, _payload, done) => {
    if (reply.statusCode === 401 && isBrowser(request))
      reply.header('www-authenticate', CHALLENGE_WITHOUT_BOX);
    done();
  });
}

/** Gives the fault of whoever is not known; throws any other. */
function createAdmission({
  access,
  organisation,
  limiter,
  nowMs,
}: GateOptions): (r: FastifyRequest) => ServiceError | null {
  const callerOf = createCallers(access, organisation);
  return (request) => {
    // An address that is not there asks for a key like one that is.
    const { scope = 'read', uncounted = false } = request.routeOptions.config ?? {};
    const changes = !READS.has(request.method);
    if (changes) refuseCrossSite(request);
    const { viewer, prefix, byCookie, refusal } = callerOf(request.headers, nowMs(), isSecure(request));
    request.viewer = viewer;
    request.byCookie = byCookie;
    if (!uncounted || prefix !== null) limiter.count(prefix, request.ip);
    if (changes && byCookie) refuseUnproven(request);
    if (scope === 'open') return null;
    if (refusal !== null || viewer === null) return strangerFault(refusal ?? 'no-key');
    if (prefix !== null && access.kind === 'keys') access.used(prefix, nowMs());
    if (!mayDo(viewer, scope)) throw outOfScope(scope);
    return null;
  };
}

/** Whoever has asked for another host is not helped by a key. */
function strangerFault(refusal: Parameters<typeof refused>[0]): ServiceError {
  const fault = refused(refusal);
  if (fault.code === 'unauthorized') return fault;
  throw fault;
}

const outOfScope = (scope: RouteScope): ServiceError =>
  new ServiceError('forbidden', `this takes a key with the scope "${scope}"`, { facts: { scope } });

function refuseCrossSite(request: FastifyRequest): void {
  if (!isCrossSite(originOf(request))) return;
  throw new ServiceError('forbidden', 'a page of another site may not change anything here');
}

/** The cookie goes along with whatever a browser sends, whoever set it going. */
function refuseUnproven(request: FastifyRequest): void {
  if (isProvenOwn(originOf(request), isSecure(request))) return;
  throw new ServiceError('forbidden', 'with the cookie only a page of this service may change anything');
}
