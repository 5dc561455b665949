// The published contract of the log of events, version 1. Fields and types may be added; none is renamed, removed or given
// another meaning.

import { z } from 'zod';
import { EVENT_KINDS } from '#core/events/event.ts';
import { instant } from './wire-head.ts';

export const eventSchema = z
  .object({
    id: z.string().describe('the same on every way out; `after` takes it'),
    type: z.enum(EVENT_KINDS).describe('more may be added: pass over what you do not know'),
    at: instant.describe('when it came about; of a tap: when it was received'),
    site: z.string().nullable().describe('null: of the whole organisation'),
    siteName: z.string().nullable(),
    place: z.object({ lat: z.number(), lon: z.number() }).nullable().describe('WGS 84, degrees'),
    externalRef: z.string().nullable().describe('your own name of the site, as you gave it'),
    incidentRef: z
      .string()
      .nullable()
      .describe(
        'of a burn and what is told while it burns: your own name of the incident, as assigned by then',
      ),
    subject: z.string().describe('what it is about: a plan, a burn, a notice, an order'),
    validUntil: instant
      .nullable()
      .describe('nobody is to go by it after this; null: it is a fact and stays one'),
    verdict: z
      .enum(['go', 'hold', 'stop'])
      .nullable()
      .describe('of a notice: what stands after it, `go` where nothing does, which is never leave to light'),
    text: z.string(),
    data: z.record(z.string(), z.unknown()).describe('figures by type'),
  })
  .meta({ id: 'Event' });

export const eventsSchema = z
  .object({
    events: z.array(eventSchema).describe('in the order in which they became durable'),
    next: z.string().describe('ask on with after={next}; nothing up to it was left out'),
    more: z.boolean(),
    missingUpTo: z
      .string()
      .nullable()
      .describe('not null: events after yours and up to this one are kept no longer; read the state anew'),
    demo: z.boolean(),
  })
  .meta({ id: 'Events' });

export type EventAnswer = z.output<typeof eventSchema>;
export type EventsAnswer = z.output<typeof eventsSchema>;
