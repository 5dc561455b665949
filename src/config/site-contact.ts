// Permit, telephone and way to a site, as the operator writes them.

import { z } from 'zod';
import type { SiteContact } from '#core/site/site-contact.ts';
import { name } from './fields.ts';

/** E.164 allows 15 digits; a number within one office may have three. */
const DIGITS = /^\+?[0-9()][0-9 ().-]*( ?[xX] ?[0-9]{1,7})?$/;

const phone = z
  .string('expected a telephone number in quotes')
  .trim()
  .refine((text) => {
    const digits = text.replace(/[xX].*$/, '').replaceAll(/\D/g, '').length;
    return DIGITS.test(text) && digits >= 3 && digits <= 15;
  }, 'expected a telephone number such as "+1 555 010 0142" or "555-0142 x12"');

const permit = z.strictObject({
  number: z.string('expected the number of the permit in quotes').trim().min(1).max(60),
  issuer: name.optional(),
});

export const contactFields = {
  permit: permit.optional(),
  phone: phone.optional(),
  directions: z.string().trim().min(1).max(200).optional(),
};

const written = z.object(contactFields);

export const contactOf = (fields: z.output<typeof written>): SiteContact => ({
  permit: fields.permit ? { number: fields.permit.number, issuer: fields.permit.issuer ?? null } : null,
  phone: fields.phone ?? null,
  directions: fields.directions ?? null,
});
