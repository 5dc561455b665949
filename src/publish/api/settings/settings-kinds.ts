// The kinds of definition as the settings name them.

import type { SettingsKind } from '#publish/wording/settings-words.ts';
import type { DefinitionKind } from '#store/definition.ts';

export interface KindAt {
  readonly kind: SettingsKind;
  readonly of: DefinitionKind;
  /** Who may look: telephone numbers are not for everybody who may read answers. */
  readonly reads: 'read' | 'notify';
  /** A plan goes by it. */
  readonly decides: boolean;
}

export const KINDS: readonly KindAt[] = [
  { kind: 'limits', of: 'limit-set', reads: 'read', decides: true },
  { kind: 'orders', of: 'order', reads: 'read', decides: true },
  { kind: 'sites', of: 'site', reads: 'read', decides: true },
  { kind: 'contacts', of: 'contact', reads: 'notify', decides: false },
];

/** A limit set is called as it is named; what has no name yet by its id. */
export function nameOf(body: unknown, id: string | null): string {
  const { name } = (typeof body === 'object' && body !== null ? body : {}) as { name?: unknown };
  return typeof name === 'string' && name !== '' ? name : (id ?? '–');
}
