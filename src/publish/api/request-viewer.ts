// What the gate leaves on a request: who asks; and what each route declares: who may.

import type { FastifyRequest } from 'fastify';
import { ServiceError } from '#errors.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { Scope } from '#store/api-key.ts';

/** `open`: everybody, also without a key. */
export type RouteScope = Scope | 'open';

declare module 'fastify' {
  interface FastifyRequest {
    /** Null only where no key is asked for: on open routes, and before the gate. */
    viewer: Viewer | null;
    /** The key came in the cookie. */
    byCookie: boolean;
  }
  interface FastifyContextConfig {
    scope?: RouteScope;
    /** Asked by balancers and watchdogs all the time, and cheap: no limit counts it, but for whoever shows a key. */
    uncounted?: true;
  }
}

export function viewerOf({ viewer }: FastifyRequest): Viewer {
  if (viewer === null) throw new ServiceError('internal', 'a route that asks for no key has a viewer');
  return viewer;
}
