// The newest definitions of all organisations, read: what the store keeps as written → sites that can be judged.

import type { z } from 'zod';
import { type ContactFields, contactFields } from '#config/contacts.ts';
import { position } from '#config/fields.ts';
import { faultsOf } from '#config/load.ts';
import { isOrderFor, orderFields } from '#config/orders.ts';
import type { Definition } from '#store/definition.ts';
import { type SiteDefinition, siteDefinition } from './site-definition.ts';

/** Names a site over all organisations. */
export const siteKey = (organisation: string, id: string): string => `${organisation}/${id}`;

/** The organisation of a site key. */
export const organisationOf = (key: string): string => key.slice(0, key.indexOf('/'));

export interface DefinitionBook {
  /** By site key, in the order of their keys. */
  readonly sites: ReadonlyMap<string, SiteDefinition>;
  /** As written, by organisation and name. */
  readonly limitSets: ReadonlyMap<string, ReadonlyMap<string, unknown>>;
  /** As written, all orders of an organisation. */
  readonly orders: ReadonlyMap<string, readonly unknown[]>;
  /** Who is told, of each organisation. */
  readonly contacts: ReadonlyMap<string, readonly ContactFields[]>;
  /** Contacts that cannot be read, and why: `organisation/id` → sentence. */
  readonly brokenContacts: ReadonlyMap<string, string>;
  /** Sites that cannot be judged, and why: site key → sentence. No site is passed over in silence. */
  readonly broken: ReadonlyMap<string, string>;
}

export const EMPTY_BOOK: DefinitionBook = {
  sites: new Map(),
  limitSets: new Map(),
  orders: new Map(),
  contacts: new Map(),
  brokenContacts: new Map(),
  broken: new Map(),
};

/** Reads newest revisions. Sites whose definition is that of `before` are not read anew. */
export function readBook(rows: readonly Definition[], before: DefinitionBook): DefinitionBook {
  const live = rows.filter((row) => row.body !== null);
  const sites = new Map<string, SiteDefinition>();
  const broken = new Map<string, string>();
  const limitSets = new Map<string, ReadonlyMap<string, unknown>>();
  const allOrders = new Map<string, readonly unknown[]>();
  const byOrganisation = Map.groupBy(live, (row) => row.organisation);
  for (const [organisation, own] of byOrganisation) {
    const sets = new Map(own.filter((row) => row.kind === 'limit-set').map((row) => [row.id, row.body]));
    const orders = own.filter((row) => row.kind === 'order').map(readOrder);
    limitSets.set(organisation, sets);
    allOrders.set(
      organisation,
      orders.map(({ body }) => body),
    );
    for (const row of own.filter((r) => r.kind === 'site')) {
      const key = siteKey(organisation, row.id);
      const name = String((row.body as { limits?: unknown }).limits);
      const limits = sets.get(name);
      if (limits === undefined) {
        broken.set(key, `no limit set "${name}"`);
        continue;
      }
      const as = { site: row.body, limitSet: { name, limits }, orders: ordersOf(orders, siteNamed(row)) };
      try {
        sites.set(key, siteAsBefore(before.sites.get(key), as) ?? siteDefinition(as));
      } catch (fault) {
        broken.set(key, sentenceOf(fault));
      }
    }
  }
  return {
    sites: sorted(sites),
    limitSets,
    orders: allOrders,
    ...readContacts(live.filter((row) => row.kind === 'contact')),
    broken: sorted(broken),
  };
}

function readContacts(rows: readonly Definition[]): Pick<DefinitionBook, 'contacts' | 'brokenContacts'> {
  const contacts = new Map<string, ContactFields[]>();
  const brokenContacts = new Map<string, string>();
  for (const { organisation, id, body } of rows) {
    const parsed = contactFields.safeParse(body);
    if (parsed.success) contacts.set(organisation, [...(contacts.get(organisation) ?? []), parsed.data]);
    else brokenContacts.set(siteKey(organisation, id), sentenceOf(parsed.error));
  }
  return { contacts, brokenContacts };
}

function siteAsBefore(
  before: SiteDefinition | undefined,
  as: Parameters<typeof siteDefinition>[0],
): SiteDefinition | null {
  if (before === undefined) return null;
  return Buffer.from(before.bytes).equals(Buffer.from(JSON.stringify(as), 'utf8')) ? before : null;
}

/** `at`: null where it cannot be read: such a site is broken, and no order passes it over. */
interface SiteNamed {
  readonly id: string;
  readonly at: readonly [number, number] | null;
}

function siteNamed({ id, body }: Definition): SiteNamed {
  const parsed = position.safeParse((body as { at?: unknown }).at);
  return { id, at: parsed.success ? parsed.data : null };
}

interface ReadOrder {
  readonly body: unknown;
  isFor(site: SiteNamed): boolean;
}

/** An order that cannot be read is taken for one of every site: it breaks them, and is not passed over. */
function readOrder({ body }: Definition): ReadOrder {
  const parsed = orderFields.safeParse(body);
  return { body, isFor: ({ id, at }) => !parsed.success || at === null || isOrderFor(parsed.data, id, at) };
}

const ordersOf = (orders: readonly ReadOrder[], site: SiteNamed): unknown[] =>
  orders.filter((order) => order.isFor(site)).map((order) => order.body);

const sentenceOf = (fault: unknown): string =>
  faultsOf(fault as z.ZodError)
    .map((f) => `${f.path}: ${f.message}`)
    .join('; ');

const sorted = <T>(map: ReadonlyMap<string, T>): Map<string, T> =>
  new Map([...map].sort(([a], [b]) => (a < b ? -1 : 1)));
