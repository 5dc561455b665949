// The whole configuration as the operator writes it, strict: an unknown key is a fault, so that no limit can vanish.

import { z } from 'zod';
import type { LimitSet } from '#core/score/limit.ts';
import { isUsableContact } from '#core/units/contact.ts';
import { limitList } from './limits.ts';
import { orderFields } from './orders.ts';
import { siteFields } from './sites.ts';

const nws = z.strictObject({
  baseUrl: z.url({ protocol: /^https?$/ }).default('https://api.weather.gov'),
  /** Between pulls of the same cell. */
  everyMin: z
    .int()
    .refine((min) => min >= 5 && 60 % min === 0, 'expected 5, 6, 10, 12, 15, 20, 30 or 60 minutes')
    .default(20),
});

const preferences = z.strictObject({
  units: z.enum(['us', 'si']).default('us'),
  language: z.enum(['en', 'es']).default('en'),
});

export const configSchema = z.strictObject({
  /** The NWS asks every program for a way to reach its operator. */
  contact: z
    .string()
    .trim()
    .refine(isUsableContact, 'expected an e-mail address or a web address of the operator, in plain letters'),
  sources: z.strictObject({ nws: nws.prefault({}) }).prefault({}),
  preferences: preferences.prefault({}),
  limitSets: z.record(z.string().min(1), limitList),
  sites: z.array(siteFields).default([]),
  orders: z.array(orderFields).default([]),
});

export type Config = z.output<typeof configSchema>;

export const limitSetNamed = (config: Config, name: string): LimitSet | null => {
  const set = Object.hasOwn(config.limitSets, name) ? config.limitSets[name] : undefined;
  return set ? { name, ...set } : null;
};
