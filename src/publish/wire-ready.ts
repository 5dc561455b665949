// The published contract, version 1: whether the service can answer.

import { z } from 'zod';
import { NOT_READY_CODES } from './not-ready.ts';
import { forecastStateSchema } from './wire.ts';

export const readySchema = z
  .object({
    ready: z.boolean(),
    demo: z.boolean(),
    reason: z
      .object({ code: z.enum(NOT_READY_CODES), sentence: z.string() })
      .optional()
      .describe('why it is not ready'),
    sites: z
      .array(z.object({ site: z.string(), ...forecastStateSchema.shape }))
      .optional()
      .describe('for whoever may read; without a key only whether it is ready, and why not'),
  })
  .meta({ id: 'Ready' });
