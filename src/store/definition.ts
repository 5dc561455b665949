// Sites, limit sets, orders and contacts as their operators wrote them, with their whole history: revisions are only ever added.

export type DefinitionKind = 'site' | 'limit-set' | 'order' | 'contact';

export interface DefinitionId {
  /** Whose it is. */
  readonly organisation: string;
  readonly kind: DefinitionKind;
  readonly id: string;
}

export interface Definition extends DefinitionId {
  /** From 1, without gaps. */
  readonly revision: number;
  /** As written, before units are read: what the configuration file would hold. Null: taken out. */
  readonly body: unknown;
  /** Where this revision came from: the configuration file or the API. */
  readonly origin: 'file' | 'api';
  readonly changedAtMs: number;
  /** Name of the key, or of the file. */
  readonly changedBy: string;
}

export interface DefinitionChange extends DefinitionId {
  /** The revision that this replaces; 0 for a new one. */
  readonly replaces: number;
  readonly body: unknown;
  readonly origin: 'file' | 'api';
  readonly changedAtMs: number;
  readonly changedBy: string;
}
