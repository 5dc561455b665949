// The header by which a request that is sent again acts once.

import { z } from 'zod';

export const onceHeaders = z
  .object({
    'idempotency-key': z
      .string()
      .regex(/^[\x21-\x7e]{1,200}$/, 'expected 1 to 200 visible characters')
      .optional()
      .describe('the same key with the same request acts once and gets the same reply'),
  })
  .loose();
