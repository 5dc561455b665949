// How many requests a minute: by key where one is presented, by address where none is.

import fastifyRateLimit, { normalizeIP } from '@fastify/rate-limit';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { MINUTE_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';

/** Requests per minute. */
export interface RateLimits {
  readonly keyPerMin: number;
  readonly addressPerMin: number;
  /** Where no keys are asked for: high, a brake for a program run wild on this machine. */
  readonly loopbackPerMin: number;
}

export const DEFAULT_RATE_LIMITS: RateLimits = {
  keyPerMin: 1200,
  addressPerMin: 120,
  loopbackPerMin: 600_000,
};

export interface Limiter {
  /** Throws ServiceError `too_many_requests` (facts.retryAfterS). `prefix` names the key; null: by address. */
  count(request: FastifyRequest, prefix: string | null): Promise<void>;
}

/** `cache`: so many keys and so many addresses are counted; the longest unseen are forgotten. */
export async function addRateLimits(
  app: FastifyInstance,
  limits: RateLimits,
  open: boolean,
): Promise<Limiter> {
  await app.register(fastifyRateLimit, { global: false, cache: 10_000 });
  const prefixes = new WeakMap<FastifyRequest, string>();
  const byKey = app.createRateLimit({
    max: limits.keyPerMin,
    timeWindow: MINUTE_MS,
    keyGenerator: (request) => prefixes.get(request) ?? '',
  });
  const byAddress = app.createRateLimit({
    max: open ? limits.loopbackPerMin : limits.addressPerMin,
    timeWindow: MINUTE_MS,
    keyGenerator: (request) => normalizeIP(request.ip),
  });
  return {
    async count(request, prefix) {
      if (prefix !== null) prefixes.set(request, prefix);
      const seen = await (prefix === null ? byAddress : byKey)(request);
      if (seen.isAllowed || !seen.isExceeded) return;
      const whose = prefix === null ? 'from this address' : `with key ${prefix}`;
      throw new ServiceError('too_many_requests', `more than ${seen.max} requests a minute ${whose}`, {
        retryable: true,
        facts: { retryAfterS: Math.max(1, seen.ttlInSeconds) },
      });
    },
  };
}
