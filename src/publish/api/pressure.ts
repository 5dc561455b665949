// Says no early when there is too much to do, so that what is under way still ends in time. Health stays reachable.

import underPressure from '@fastify/under-pressure';
import type { FastifyInstance } from 'fastify';
import { ServiceError } from '#errors.ts';

/**
 * Mean delay of the event loop over a second. Making a plan takes some milliseconds and plans are made one by one, so that
 * thousands in a row keep the loop busy but not late; a mean of a second is reached only when nothing gets its turn.
 */
export const MOST_LOOP_DELAY_MS = 1000;
const SAMPLE_MS = 1000;
const RETRY_AFTER_S = 5;

export async function addPressureValve(app: FastifyInstance, mostDelayMs: number): Promise<void> {
  await app.register(underPressure, {
    maxEventLoopDelay: mostDelayMs,
    sampleInterval: SAMPLE_MS,
    pressureHandler: (request) => {
      if (request.routeOptions.config?.scope === 'open') return;
      throw new ServiceError('overloaded', 'too much to do at this moment; ask again', {
        retryable: true,
        facts: { retryAfterS: RETRY_AFTER_S },
      });
    },
  });
}
