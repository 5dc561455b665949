// The idempotency key that a request came with; null where it has none.

import type { FastifyRequest } from 'fastify';

export function onceKeyOf({ headers }: Pick<FastifyRequest, 'headers'>): string | null {
  const key = headers['idempotency-key'];
  return typeof key === 'string' ? key : null;
}
