// What was written is not what is read.

import { ServiceError } from '#errors.ts';

export const damaged = (message: string, cause?: unknown): ServiceError =>
  new ServiceError('store_unavailable', `the store is damaged: ${message}`, {
    cause,
    retryable: true,
    facts: { cause: 'damaged' },
  });
