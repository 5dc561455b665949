// Before any route: is this our host, who asks, how often, and may they? Every route declares its scope or is refused.

import type { FastifyInstance, FastifyRequest } from 'fastify';
import { ServiceError } from '#errors.ts';
import { presentedKey } from '#publish/access/credentials.ts';
import { isCrossSite } from '#publish/access/cross-site.ts';
import type { KeyRing } from '#publish/access/key-ring.ts';
import { isOwnHost } from '#publish/access/own-host.ts';
import { viewerOfKey } from '#publish/access/viewer-of-key.ts';
import { mayDo, thisMachine } from '#publish/viewer.ts';
import type { Limiter } from './rate-limit.ts';
import type { RouteScope } from './request-viewer.ts';

/** Open: bound to this machine alone, without keys. */
export type Access =
  | { readonly kind: 'open'; readonly hosts: readonly string[] }
  | { readonly kind: 'keys'; readonly ring: KeyRing; used(prefix: string, nowMs: number): void };

export interface GateOptions {
  readonly access: Access;
  readonly organisation: string;
  readonly limiter: Limiter;
  nowMs(): number;
}

const READS = new Set(['GET', 'HEAD', 'OPTIONS']);

export function addGate(app: FastifyInstance, options: GateOptions): void {
  app.decorateRequest('viewer', null);
  const admit =
    options.access.kind === 'open' ? openGate(options, options.access) : keyGate(options, options.access);
  app.addHook('onRequest', async (request) => {
    // An address that is not there asks for a key like one that is.
    const { scope = 'read', uncounted = false } = request.routeOptions.config ?? {};
    if (!READS.has(request.method)) refuseCrossSite(request);
    await admit(request, scope, !uncounted);
  });
}

type Admit = (request: FastifyRequest, scope: RouteScope, counted: boolean) => void | Promise<void>;

function openGate({ organisation, limiter }: GateOptions, { hosts }: Access & { kind: 'open' }): Admit {
  const viewer = thisMachine(organisation);
  return (request, scope, counted) => {
    if (scope !== 'open' && !isOwnHost(request.headers.host, hosts)) {
      throw new ServiceError('misdirected', 'this service answers to the names of this machine only');
    }
    request.viewer = viewer;
    return counted ? limiter.count(request, null) : undefined;
  };
}

function keyGate({ limiter, nowMs }: GateOptions, { ring, used }: Access & { kind: 'keys' }): Admit {
  return async (request, scope, counted) => {
    const token = presentedKey(request.headers.authorization);
    const key = token === null ? null : ring.find(token, nowMs());
    request.viewer = key && viewerOfKey(key);
    if (counted || key !== null) await limiter.count(request, key?.prefix ?? null);
    if (scope === 'open') return;
    if (key === null || request.viewer === null) throw unauthorized(token !== null);
    used(key.prefix, nowMs());
    if (mayDo(request.viewer, scope)) return;
    throw new ServiceError('forbidden', `this takes a key with the scope "${scope}"`, { facts: { scope } });
  };
}

const unauthorized = (presented: boolean): ServiceError =>
  new ServiceError(
    'unauthorized',
    presented
      ? 'the key is not known, has expired or was revoked'
      : 'a key is needed: "Authorization: Bearer pw_…", or HTTP Basic with the key as password',
  );

function refuseCrossSite(request: FastifyRequest): void {
  const { origin, 'sec-fetch-site': site } = request.headers;
  const secFetchSite = typeof site === 'string' ? site : undefined;
  if (!isCrossSite({ host: request.host, origin, secFetchSite })) return;
  throw new ServiceError('forbidden', 'a page of another site may not change anything here');
}
