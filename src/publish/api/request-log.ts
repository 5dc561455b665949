// One log line for each change, refusal and fault; none for the many plain answers. Only what is listed here is told: never
// an address as it was sent, a header, a query or a body, for these are where secrets travel.

import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { duringRequest } from '#publish/access/request-scope.ts';
import { signatureOf } from '#publish/viewer.ts';

const CHANGES = new Set(['POST', 'PUT', 'PATCH', 'DELETE']);
const REFUSED = new Set([401, 403, 421, 429]);

export function addRequestLog(app: FastifyInstance): void {
  // What such a request sets going far from here is told under its id, too.
  app.addHook('preHandler', (request, _reply, done) => {
    if (CHANGES.has(request.method)) duringRequest(request.id, done);
    else done();
  });
  app.addHook('onResponse', (request, reply, done) => {
    if (CHANGES.has(request.method) || REFUSED.has(reply.statusCode) || reply.statusCode >= 500) {
      request.log.info(toldOf(request, reply), 'request');
    }
    done();
  });
}

export function toldOf(request: FastifyRequest, reply: FastifyReply): Record<string, unknown> {
  return {
    method: request.method,
    route: request.routeOptions.url ?? null,
    status: reply.statusCode,
    ms: Math.round(reply.elapsedTime),
    organisation: request.viewer?.organisation ?? null,
    who: request.viewer && signatureOf(request.viewer),
  };
}
