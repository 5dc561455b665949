// Who is told, as the operator writes it → the core's contact.

import { z } from 'zod';
import type { Contact } from '#core/notices/contact.ts';
import { clockTime, definitionId, name } from './fields.ts';

const way = z.strictObject({
  /** What `channels` calls it. */
  channel: z.string().min(1, 'expected the name of a channel'),
  to: z.string().trim().min(3).max(2000),
});

const consent = z.strictObject({
  at: z
    .union([z.string(), z.date()])
    .transform((text) => (typeof text === 'string' ? Date.parse(text) : text.getTime()))
    .refine(Number.isFinite, 'expected a date, or a date and time'),
  how: name,
  by: name,
  textVersion: z.string().trim().min(1).max(60).default('1'),
});

const quiet = z
  .strictObject({ from: clockTime, to: clockTime })
  .refine(({ from, to }) => from !== to, 'expected two different clock times');

export const contactFields = z
  .strictObject({
    id: definitionId,
    name,
    role: z.enum(['crew', 'office', 'dispatch'], 'expected crew, office or dispatch'),
    /** Site ids; all sites where it is left out. */
    sites: z.array(definitionId).min(1).optional(),
    language: z.enum(['en', 'es'], 'expected en or es').default('en'),
    units: z.enum(['us', 'si'], 'expected us or si').default('us'),
    /** In this order: the next is used where one fails. */
    ways: z.array(way).min(1),
    quiet: quiet.optional(),
    consent: consent.optional(),
    /** 0 is told first; the next step where no answer has come in time. */
    step: z.int().min(0).max(9).default(0),
  })
  .superRefine((contact, context) => {
    for (const [i, { to }] of contact.ways.entries()) {
      if (!/^\+?[\d ()-]{7,20}$/.test(to) || /^\+[1-9]\d{6,14}$/.test(to)) continue;
      const message = 'expected a telephone number with + and the country code, without spaces';
      context.addIssue({ code: 'custom', path: ['ways', i, 'to'], message });
    }
  });

export type ContactFields = z.output<typeof contactFields>;

/** `optedOutAtMs` is no matter of configuration: the store knows it. */
export function contactOf(fields: ContactFields, optedOutAtMs: number | null): Contact {
  const { id, name: called, role, sites, language, units, ways, step } = fields;
  return {
    id,
    name: called,
    role,
    sites: sites ?? null,
    language,
    units,
    ways,
    quiet: fields.quiet ?? null,
    consent: fields.consent
      ? {
          atMs: fields.consent.at,
          how: fields.consent.how,
          by: fields.consent.by,
          textVersion: fields.consent.textVersion,
        }
      : null,
    optedOutAtMs,
    step,
  };
}
