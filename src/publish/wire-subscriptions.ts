// The published contract of subscriptions, version 1. Fields and types may be added; none is renamed, removed or given
// another meaning.

import { z } from 'zod';
import { EVENT_KINDS } from '#core/events/event.ts';
import { instant } from './wire-head.ts';

const latitude = z.number().min(-90).max(90);
const longitude = z.number().min(-180).max(180);

const area = z.union([
  z.strictObject({
    circle: z.strictObject({ lat: latitude, lon: longitude, radiusKm: z.number().positive().max(20_000) }),
  }),
  z.strictObject({
    box: z
      .strictObject({ south: latitude, west: longitude, north: latitude, east: longitude })
      .describe('a west that lies east of its east goes over the antimeridian'),
  }),
]);

/** As it is written. */
export const subscriptionBody = z
  .strictObject({
    url: z.string().max(2048).describe('https, at a public address; others where the operator allows them'),
    format: z
      .enum(['plain', 'cloudevents'])
      .default('plain')
      .describe('plain: type, timestamp, data. cloudevents: CloudEvents 1.0, structured mode'),
    description: z.string().trim().max(200).default(''),
    active: z.boolean().default(true).describe('false: it waits, and goes on where it stood'),
    sites: z
      .array(z.string().max(80))
      .min(1)
      .max(1000)
      .nullable()
      .default(null)
      .describe('of these alone; null: all that the key may see'),
    area: area.nullable().default(null).describe('of sites that lie there, as they lie now'),
    types: z.array(z.enum(EVENT_KINDS)).min(1).nullable().default(null).describe('null: all'),
  })
  .meta({
    example: {
      url: 'https://dispatch.hollowreed.example/pits',
      description: 'county dispatch',
      area: { circle: { lat: 36.4, lon: -120.2, radiusKm: 40 } },
      types: ['burn-lit', 'burn-covered', 'notice-raised', 'notice-ended'],
    },
  });

export const subscriptionSchema = z
  .object({
    id: z.string(),
    revision: z.int().describe('from 1; its ETag is "r" and this number'),
    url: z.string(),
    format: z.enum(['plain', 'cloudevents']),
    description: z.string(),
    active: z.boolean(),
    sites: z.array(z.string()).nullable(),
    area: z.unknown(),
    types: z.array(z.string()).nullable(),
    madeAt: instant,
    changedAt: instant,
    changedBy: z.string().describe('by what this key may see it is sent; it ends with the key'),
    olderSecretUntil: instant.nullable().describe('not null: two secrets sign until then'),
    state: z
      .enum(['sending', 'failing', 'paused', 'ended'])
      .describe('failing: the last try was not taken; it is tried again'),
    after: z.string().describe('id of the last event that was looked at for it and kept'),
    failures: z.int().describe('in a row'),
    failingSince: instant.nullable(),
    nextTryAt: instant.nullable(),
    lastTakenAt: instant.nullable(),
    missed: z
      .object({ after: z.string(), upTo: z.string(), count: z.int().nullable() })
      .nullable()
      .describe('events that it did not get and has not been told of; count null: not known'),
    ended: z
      .object({ why: z.enum(['gone', 'failing', 'key']), at: instant })
      .nullable()
      .describe('gone: it answered 410. failing: nothing was taken for three days. key: that key has ended'),
    secret: z.string().optional().describe('where one was made; shown this once'),
  })
  .meta({ id: 'Subscription' });

export const subscriptionsSchema = z
  .object({ subscriptions: z.array(subscriptionSchema) })
  .meta({ id: 'Subscriptions' });

const tried = {
  webhookId: z.string().describe('the id of the event, where it was one'),
  type: z.string(),
  at: instant,
  tookMs: z.int(),
  outcome: z
    .enum(['taken', 'refused', 'failed', 'gone'])
    .describe('refused: it would not have that message (400, 413, 415, 422). gone: 410'),
  status: z.int().nullable().describe('HTTP status; null: no answer'),
  reason: z.string().nullable(),
  detail: z.string().nullable(),
};

export const triedSchema = z.object(tried).meta({ id: 'TriedDelivery' });

export const deliveriesSchema = z
  .object({ deliveries: z.array(z.object({ number: z.int(), ...tried }).meta({ id: 'HookDelivery' })) })
  .meta({ id: 'HookDeliveries' });

export const replayBody = z
  .strictObject({
    after: z
      .string()
      .regex(/^\d{1,15}$/, 'expected the id of an event, or 0')
      .describe('what came after this event is sent anew, under the same ids'),
  })
  .meta({ example: { after: '1041' } });

export const rotateBody = z
  .strictObject({
    overlapHours: z
      .number()
      .min(0)
      .max(168)
      .default(24)
      .describe('for so long both secrets sign; 0: the one before ends now'),
  })
  .meta({ example: { overlapHours: 24 } });

export type SubscriptionAnswer = z.output<typeof subscriptionSchema>;
export type TriedAnswer = z.output<typeof triedSchema>;
