// What the writing side of the API asks of the rest: what is defined, its history, and changing it. An interface, so that
// publishing knows no configuration and no store.

import type { Definition, DefinitionId, DefinitionKind } from '#store/definition.ts';
import type { OnceOutcome } from '#store/once.ts';

export interface BodyFault {
  readonly path: string;
  readonly message: string;
}

/** Who wants nothing of us any more; null: they do again. */
export interface OptedOut {
  readonly contact: string;
  readonly address: string;
  readonly optedOutAtMs: number | null;
  readonly word: string;
}

export interface Asked {
  readonly organisation: string;
  /** Of the key: what it may not see, it may not name either; null: all. */
  readonly sites: readonly string[] | null;
  readonly kind: DefinitionKind;
  /** Null for an order that has none yet: one is made of its name. */
  readonly id: string | null;
  /** As the configuration file would hold it; null: take it out. */
  readonly body: unknown;
  /** The revisions that the caller has seen, one of which must be in force; `new`: nothing may be there. */
  readonly replaces: readonly number[] | 'new';
  readonly who: string;
  /** The same request sent again acts once. */
  readonly once: { readonly key: string; readonly requestHash: string } | null;
}

export interface Changed {
  readonly outcome: OnceOutcome;
  /** True where the request came before, and this is the reply that it got then. */
  readonly replayed: boolean;
}

export interface DefinitionDesk {
  /** What is wrong with a body in itself and beside what is defined; nothing is changed. */
  check(kind: DefinitionKind, id: string, body: unknown, organisation: string): Promise<readonly BodyFault[]>;
  /** What is in force, in the order of the ids; taken-out definitions are not there. */
  current(organisation: string, kind: DefinitionKind): Promise<readonly Definition[]>;
  /** Who wants nothing of us any more. */
  optOuts(organisation: string): Promise<readonly OptedOut[]>;
  /** The newest revision; null where there was never one. `body` null: taken out. */
  newest(id: DefinitionId): Promise<Definition | null>;
  /** Newest first; none where there was never one. */
  history(id: DefinitionId): Promise<readonly Definition[]>;
  /**
   * Checks, writes, and resolves once the change is in force in this process. `reply` is what the request gets, and gets
   * again. Throws ServiceError `bad_body` (facts.faults), `unknown_site` or `not_found` (nothing to replace),
   * `already_there`, `in_use` (facts.usedBy), `changed_meanwhile`, `key_reused`, `store_unavailable`.
   */
  change(asked: Asked, reply: (made: Definition) => OnceOutcome): Promise<Changed>;
}
