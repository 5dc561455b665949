// Refuses a body nested deeper than anything that could be meant.

import type { FastifyRequest } from 'fastify';
import { ServiceError } from '#errors.ts';

/** A body nested deeper than this is no site. */
const MOST_DEPTH = 8;

/** A hook for `preValidation`. */
export async function refuseDeepBody(request: FastifyRequest): Promise<void> {
  refuseDeep(request.body);
}

/** Throws ServiceError `body_too_large`. */
export function refuseDeep(body: unknown): void {
  if (depthOf(body) > MOST_DEPTH)
    throw new ServiceError('body_too_large', `the body may be nested ${MOST_DEPTH} deep at most`);
}

/** Nesting of a parsed body, counted without recursion. */
function depthOf(body: unknown): number {
  let deepest = 0;
  const open: { value: unknown; depth: number }[] = [{ value: body, depth: 1 }];
  for (let next = open.pop(); next; next = open.pop()) {
    if (typeof next.value !== 'object' || next.value === null) continue;
    deepest = Math.max(deepest, next.depth);
    if (deepest > MOST_DEPTH) break;
    for (const value of Object.values(next.value)) open.push({ value, depth: next.depth + 1 });
  }
  return deepest;
}
