// Messages of the Common Alerting Protocol: who they are from and whom they are for. Never for the public: whoever runs pit
// burns is no alerting authority.

import { z } from 'zod';

const weight = z.enum(['Severe', 'Moderate', 'Minor'], 'expected Severe, Moderate or Minor');

export const capFields = z
  .strictObject({
    /** Known to receivers, the same for ever; best a domain of the operator. Left out: made of the organisation. */
    sender: z
      .string()
      .regex(/^[^\s,<&]{3,100}$/u, 'expected a name without spaces, commas, < and &')
      .optional(),
    scope: z
      .enum(['Restricted', 'Private'], 'expected Restricted or Private: it is never Public')
      .default('Restricted'),
    /** Whom a restricted message is for. */
    restriction: z
      .string()
      .trim()
      .min(1)
      .max(300)
      .default('For the operator of the burn and the dispatch centers that it names; not for the public.'),
    /** Whom a private message is for. */
    addresses: z.array(z.string().trim().min(1).max(120)).max(50).default([]),
    /** What a stop and a hold weigh. */
    severity: z
      .strictObject({ stop: weight.default('Moderate'), hold: weight.default('Minor') })
      .prefault({}),
    /** Whether a burn that is under way is told, with nothing amiss. */
    burns: z.boolean().default(true),
  })
  .refine(({ scope, addresses }) => scope !== 'Private' || addresses.length > 0, {
    message: 'expected at least one address where the scope is Private',
    path: ['addresses'],
  });

export type CapFields = z.output<typeof capFields>;
