// Whether a contact has opted out, in its published form: the kind of the address, never the address.

import { rfc3339 } from '#core/units/local-time.ts';
import type { DefinitionAnswer } from '#publish/wire-definitions.ts';
import type { Definition } from '#store/definition.ts';

type OptedOutAnswer = NonNullable<DefinitionAnswer['optedOut']>;

interface Row {
  readonly contact: string;
  readonly address: string;
  /** Null: they opted in again. */
  readonly optedOutAtMs: number | null;
  /** What they wrote. */
  readonly word: string;
}

/** By the contact's id, or by an address of theirs whatever they were called then: as what is sent is held back. */
export function optedOutAnswer(
  { id, body }: Pick<Definition, 'id' | 'body'>,
  optOuts: readonly Row[],
): OptedOutAnswer | null {
  const own = new Set(addressesOf(body));
  const row =
    optOuts.find(({ contact }) => contact === id) ?? optOuts.find(({ address }) => own.has(address));
  if (!row || row.optedOutAtMs === null) return null;
  return { since: rfc3339(row.optedOutAtMs, 'UTC'), address: kindOf(row.address), words: row.word };
}

function addressesOf(body: unknown): string[] {
  const ways: unknown = (body as { readonly ways?: unknown } | null)?.ways;
  return Array.isArray(ways) ? ways.map((way: { readonly to?: unknown }) => String(way.to)) : [];
}

function kindOf(address: string): OptedOutAnswer['address'] {
  if (/^\+?\d+$/.test(address)) return 'phone';
  if (address.startsWith('{')) return 'push';
  if (/^https?:/.test(address)) return 'webhook';
  return address.includes('@') ? 'email' : 'other';
}
