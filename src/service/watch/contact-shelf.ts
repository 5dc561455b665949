// The contacts of all organisations, made anew only where a definition has changed: each site is asked for its own many
// times a minute.

import { type ContactFields, contactOf } from '#config/contacts.ts';
import type { Contact } from '#core/notices/contact.ts';
import { organisationOf } from '#memory/definition-book.ts';
import type { Mirror } from '#memory/mirror.ts';

export interface ContactShelf {
  /** All of the site's organisation, as configured. */
  all(siteKey: string): readonly Contact[];
  /** Those of the site alone, in the same order. */
  of(siteKey: string): readonly Contact[];
}

interface Made {
  readonly all: readonly Contact[];
  /** By site id; what is not in it has those of every site only. */
  readonly bySite: ReadonlyMap<string, readonly Contact[]>;
  readonly everywhere: readonly Contact[];
}

export function createContactShelf(mirror: Pick<Mirror, 'book'>): ContactShelf {
  const made = new WeakMap<readonly ContactFields[], Made>();
  const own = (siteKey: string): Made => {
    const fields = mirror.book().contacts.get(organisationOf(siteKey));
    if (fields === undefined) return NOBODY;
    const known = made.get(fields) ?? make(fields);
    made.set(fields, known);
    return known;
  };
  return {
    all: (siteKey) => own(siteKey).all,
    of(siteKey) {
      const { bySite, everywhere } = own(siteKey);
      return bySite.get(siteKey.slice(siteKey.indexOf('/') + 1)) ?? everywhere;
    },
  };
}

const NOBODY: Made = { all: [], bySite: new Map(), everywhere: [] };

function make(fields: readonly ContactFields[]): Made {
  const all = fields.map((one) => contactOf(one, null));
  const order = new Map(all.map((contact, i) => [contact, i]));
  const place = (contact: Contact): number => order.get(contact) ?? 0;
  const everywhere = all.filter(({ sites }) => sites === null);
  const bySite = new Map<string, Contact[]>();
  for (const contact of all) {
    for (const site of new Set(contact.sites ?? [])) {
      const those = bySite.get(site) ?? [...everywhere];
      bySite.set(site, those);
      those.push(contact);
    }
  }
  for (const those of bySite.values()) those.sort((a, b) => place(a) - place(b));
  return { all, bySite, everywhere };
}
