// What is wrong with one definition: in itself, by the schemas of the configuration file, and beside the others.

import { brokerFaults } from '#config/broker-faults.ts';
import { contactFields } from '#config/contacts.ts';
import { hostFaults } from '#config/host-faults.ts';
import { limitList } from '#config/limits.ts';
import { faultsOf } from '#config/load.ts';
import { orderFields } from '#config/orders.ts';
import { siteFields } from '#config/sites.ts';
import { wayFaults } from '#config/way-faults.ts';
import type { BodyFault } from '#publish/definition-desk.ts';
import type { Definition, DefinitionKind } from '#store/definition.ts';
import { fieldOf } from './field-of.ts';

const SCHEMAS = {
  site: siteFields,
  'limit-set': limitList,
  order: orderFields,
  contact: contactFields,
} as const;

/** Ids that no address could name would never be found again. */
const LIMIT_SET_ID = /^[^\s/\p{Cc}](?:[^/\p{Cc}]{0,61}[^\s/\p{Cc}])?$/u;

/** What only the configuration file says, and definitions name. */
export interface Premises {
  readonly channels: Readonly<Record<string, unknown>>;
  readonly brokers: readonly string[];
  /** Ranges of addresses at which sites that are written through the API may have instruments. */
  readonly stationHosts: readonly string[];
}

export interface Checked {
  readonly kind: DefinitionKind;
  readonly id: string;
  readonly body: unknown;
  /** The same one as it was; null for a new one. */
  readonly before: unknown;
}

/** Of a definition that comes through the API. `others`: what is in force in the organisation. All faults at once. */
export function definitionFaults(
  { kind, id, body, before }: Checked,
  others: readonly Definition[],
  { channels, brokers, stationHosts }: Premises,
): BodyFault[] {
  const parsed = SCHEMAS[kind].safeParse(body);
  const own = parsed.success ? [] : faultsOf(parsed.error);
  return [
    ...own,
    ...idFaults(kind, id, body),
    ...namedFaults(kind, body, others),
    ...(kind === 'contact' ? wayFaults(body, channels) : []),
    ...(kind === 'site' ? [...brokerFaults(body, brokers), ...hostFaults(body, before, stationHosts)] : []),
  ];
}

function idFaults(kind: DefinitionKind, id: string, body: unknown): BodyFault[] {
  if (kind === 'limit-set' && !LIMIT_SET_ID.test(id)) {
    return [
      { path: '(name)', message: 'expected 1 to 63 characters, without a slash and no space at either end' },
    ];
  }
  if (kind !== 'site' && kind !== 'contact') return [];
  const given = fieldOf(body, 'id');
  const message = `expected "${id}", as in the address`;
  return typeof given === 'string' && given !== id ? [{ path: 'id', message }] : [];
}

function namedFaults(kind: DefinitionKind, body: unknown, others: readonly Definition[]): BodyFault[] {
  const idsOf = (wanted: DefinitionKind) => others.filter((d) => d.kind === wanted).map((d) => d.id);
  if (kind === 'site') {
    const limits = fieldOf(body, 'limits');
    const sets = idsOf('limit-set');
    if (typeof limits !== 'string' || sets.includes(limits)) return [];
    return [{ path: 'limits', message: `no limit set "${limits}"; there are: ${sets.join(', ') || 'none'}` }];
  }
  const sites = kind === 'order' || kind === 'contact' ? fieldOf(body, 'sites') : undefined;
  if (!Array.isArray(sites)) return [];
  const known = new Set(idsOf('site'));
  return sites.flatMap((site, i) =>
    typeof site !== 'string' || known.has(site)
      ? []
      : [{ path: `sites[${i}]`, message: `no site "${site}"` }],
  );
}

/** What in force names a limit set or a site: `site north-block`, `order county-burn-ban`. */
export function usersOf(kind: DefinitionKind, id: string, others: readonly Definition[]): string[] {
  return others.filter((other) => names(other, kind, id)).map((other) => `${other.kind} ${other.id}`);
}

function names(other: Definition, kind: DefinitionKind, id: string): boolean {
  if (kind === 'limit-set') return other.kind === 'site' && fieldOf(other.body, 'limits') === id;
  const sites = fieldOf(other.body, 'sites');
  return kind === 'site' && other.kind !== 'site' && Array.isArray(sites) && sites.includes(id);
}
