// A site as it is judged: its own definition with its limit set and the orders that name it, and the bytes of all three
// under one hash. An answer that names the hash can be made again from the bytes alone.

import { hash } from 'node:crypto';
import { z } from 'zod';
import type { SiteParts } from '#config/build-site.ts';
import { limitList } from '#config/limits.ts';
import { orderFields } from '#config/orders.ts';
import { siteFields } from '#config/sites.ts';
import { placeKeyAt } from '#core/site/place-key.ts';

/** As written by the operator, before units are read. */
export interface WrittenSite {
  readonly site: unknown;
  readonly limitSet: { readonly name: string; readonly limits: unknown };
  readonly orders: readonly unknown[];
}

export interface SiteDefinition extends SiteParts {
  /** SHA-256 of `bytes`, 64 hexadecimal digits. */
  readonly hash: string;
  readonly bytes: Uint8Array;
  /** The place of the site as a key. */
  readonly placeKey: string;
}

const written = z.strictObject({
  site: siteFields,
  limitSet: z.strictObject({ name: z.string().min(1), limits: limitList }),
  orders: z.array(orderFields),
});

/** Throws ZodError where it cannot be read, as after a change of program that has become stricter. */
export function siteDefinition(as: WrittenSite): SiteDefinition {
  return read(Buffer.from(JSON.stringify(as), 'utf8'), as);
}

/** The definition that bytes of a `definition` document hold. Throws as above. */
export const readSiteDefinition = (bytes: Uint8Array): SiteDefinition =>
  read(bytes, JSON.parse(Buffer.from(bytes).toString('utf8')));

function read(bytes: Uint8Array, as: unknown): SiteDefinition {
  const { site, limitSet, orders } = written.parse(as);
  return {
    fields: site,
    limits: { name: limitSet.name, ...limitSet.limits },
    orders,
    hash: hash('sha256', bytes, 'hex'),
    bytes,
    placeKey: placeKeyAt(site.at),
  };
}
