// The published contract, version 1: definitions as they are kept and changed.

import { z } from 'zod';

const optedOutSchema = z
  .object({
    since: z.string().describe('RFC 3339, UTC'),
    address: z
      .enum(['phone', 'email', 'push', 'webhook', 'other'])
      .describe('kind of the address over which they said so; it holds for all of theirs'),
    words: z.string().describe('what they wrote; in brackets where a network said so'),
  })
  .describe('in the list of contacts alone: nothing is sent to this one; null: they may be texted')
  .meta({ id: 'OptedOut' });

export const definitionSchema = z
  .object({
    kind: z.enum(['site', 'limit-set', 'order', 'contact']),
    id: z.string(),
    revision: z.int().describe('from 1, without gaps; its ETag is "r" and this number'),
    body: z.unknown().describe('as written: what the configuration file would hold; null: taken out'),
    origin: z.enum(['file', 'api']),
    changedAt: z.string().describe('RFC 3339, UTC'),
    changedBy: z.string().describe('name of the key, or of the file'),
    optedOut: optedOutSchema.nullable().optional(),
  })
  .meta({ id: 'Definition' });

export const definitionsSchema = z
  .object({ definitions: z.array(definitionSchema) })
  .meta({ id: 'Definitions' });

export type DefinitionAnswer = z.output<typeof definitionSchema>;
