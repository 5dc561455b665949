// Answers a fault as a problem. Faults of ours are logged; the caller is told that there was one, and nothing more.

import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '#publish/wire.ts';
import { problemHeaders, problemOf } from './problem.ts';
import { toldFault } from './told-fault.ts';

const PROBLEM_JSON = 'application/problem+json; charset=utf-8';

export function sendProblem(fault: unknown, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  const problem = logged(fault, request);
  return reply
    .code(problem.status)
    .headers(problemHeaders(fault))
    .header('content-type', PROBLEM_JSON)
    .header('cache-control', 'no-store')
    .send(JSON.stringify(problem));
}

/** The problem; a fault of the program is logged with its cause. */
export function logged(fault: unknown, request: FastifyRequest): Problem {
  const problem = problemOf(fault);
  if (problem.status >= 500 && problem.code !== 'overloaded') {
    const route = request.routeOptions?.url ?? null;
    request.log.error({ fault: toldFault(fault), method: request.method, route }, 'request failed');
  }
  return problem;
}
