// How many requests a minute: by key where one is presented, by address where none is.

import { MINUTE_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import { networkOf } from '#publish/access/network-of.ts';
import { createRequestCounter } from '#publish/access/request-counter.ts';

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
  /** Counts a request by the prefix of its key; null: by address. Gives the ms to wait, 0 where it fits. */
  take(prefix: string | null, address: string): number;
  /** Throws ServiceError `too_many_requests` (facts.retryAfterS). */
  count(prefix: string | null, address: string): void;
}

/** `open`: no keys are asked for. */
export function createLimiter(limits: RateLimits, open: boolean): Limiter {
  const clock = (): number => performance.now();
  const byKey = createRequestCounter(clock);
  const byAddress = createRequestCounter(clock);
  const mostByAddress = open ? limits.loopbackPerMin : limits.addressPerMin;
  const take: Limiter['take'] = (prefix, address) =>
    prefix === null
      ? byAddress.take(networkOf(address), mostByAddress)
      : byKey.take(prefix, limits.keyPerMin);
  return {
    take,
    count(prefix, address) {
      const waitMs = take(prefix, address);
      if (waitMs === 0) return;
      const whose = prefix === null ? 'from this address' : `with key ${prefix}`;
      const most = prefix === null ? mostByAddress : limits.keyPerMin;
      throw new ServiceError('too_many_requests', `more than ${most} requests a minute ${whose}`, {
        retryable: true,
        facts: { retryAfterS: Math.max(1, Math.ceil(Math.min(waitMs, MINUTE_MS) / 1000)) },
      });
    },
  };
}
