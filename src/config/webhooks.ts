// Where programs may be that ask to be sent what happens.

import { z } from 'zod';
import { isAllowRange } from '#notify/outgoing-url.ts';

export const webhooks = z.strictObject({
  /** Ranges on the premises that may be called, with plain HTTP too; anything else must be public and https. */
  allow: z
    .array(z.string().refine(isAllowRange, 'expected an address or a range such as 10.20.0.0/16'))
    .default([]),
  ports: z.array(z.int().min(1).max(65_535)).min(1).default([443]),
  /** From the first step to the answer [s]. Standard Webhooks 1.0.0 has 15 to 30. */
  answerWithin: z.int().min(1).max(30).default(15),
});
