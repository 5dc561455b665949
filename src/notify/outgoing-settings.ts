// Settings that all channels over HTTP share: where they may call, and for how long.

import { z } from 'zod';
import type { HttpLimits } from './http-call.ts';
import { isAllowRange, type OutgoingPolicy } from './outgoing-url.ts';

/** Name of an environment variable that holds a secret. */
export const secretName = z
  .string()
  .regex(/^[A-Z][A-Z0-9_]{0,99}$/, 'expected the name of an environment variable, such as GATEWAY_TOKEN');

export const outgoingFields = {
  /** Ranges on the premises that may be called; anything else must be public and https. */
  allow: z
    .array(z.string().refine(isAllowRange, 'expected an address or a range such as 10.20.0.0/16'))
    .default([]),
  ports: z.array(z.int().min(1).max(65_535)).min(1).default([443]),
  /** Until there is a connection. */
  connectMs: z.int().min(100).max(60_000).default(5000),
  /** From the first step to the end of the answer. */
  wholeMs: z.int().min(200).max(120_000).default(15_000),
};

export const policyOf = (settings: OutgoingPolicy): OutgoingPolicy => ({
  allow: settings.allow,
  ports: settings.ports,
});

export const limitsOf = (
  settings: Pick<HttpLimits, 'connectMs' | 'wholeMs'>,
  more: Pick<HttpLimits, 'mostBytes' | 'keptConnections'>,
): HttpLimits => ({ connectMs: settings.connectMs, wholeMs: settings.wholeMs, ...more });

/** No pause that somebody asks for is longer: what is sent is for now. */
export const MOST_RETRY_AFTER_MS = 10 * 60_000;
