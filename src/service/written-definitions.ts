// What a configuration file writes, taken apart into definitions as the store keeps them.

import { createHash } from 'node:crypto';
import type { DefinitionKind } from '#store/definition.ts';

export interface WrittenDefinition {
  readonly kind: DefinitionKind;
  readonly id: string;
  readonly body: unknown;
}

/** From a configuration that has no faults. Limit sets first: what is named comes before what names it. */
export function writtenDefinitions(written: Readonly<Record<string, unknown>>): WrittenDefinition[] {
  const limitSets = Object.entries((written['limitSets'] ?? {}) as Record<string, unknown>);
  const sites = (written['sites'] ?? []) as { readonly id: string }[];
  const orders = (written['orders'] ?? []) as Record<string, unknown>[];
  const contacts = (written['contacts'] ?? []) as { readonly id: string }[];
  const taken = new Set<string>();
  return [
    ...limitSets.map(([id, body]) => ({ kind: 'limit-set' as const, id, body })),
    ...orders.map((body) => ({ kind: 'order' as const, id: free(taken, orderId(body)), body })),
    ...sites.map((body) => ({ kind: 'site' as const, id: body.id, body })),
    ...contacts.map((body) => ({ kind: 'contact' as const, id: body.id, body })),
  ];
}

/** An order without an id keeps the same name as long as name, issuer and place are the same, whatever its dates. */
function orderId(body: Record<string, unknown>): string {
  if (typeof body['id'] === 'string') return body['id'];
  const told = [body['name'], body['issuer'], body['place'] ?? ''].map(String);
  const word = String(body['name'])
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 40);
  const digest = createHash('sha256').update(JSON.stringify(told)).digest('hex').slice(0, 8);
  return word === '' ? `order-${digest}` : `${word}-${digest}`;
}

function free(taken: Set<string>, id: string): string {
  let name = id;
  for (let n = 2; taken.has(name); n += 1) name = `${id}-${n}`;
  taken.add(name);
  return name;
}
