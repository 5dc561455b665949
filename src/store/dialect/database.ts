// Where the two databases differ: everything else in this folder's parent is written once.

import type { Kysely, RawBuilder, Transaction } from 'kysely';
import type { StoreCause } from '#store/store-health.ts';
import type { Tables } from '#store/tables.ts';

export interface Database {
  readonly kind: 'sqlite' | 'postgres';
  readonly db: Kysely<Tables>;
  readonly columnTypes: ColumnTypes;
  /** The database's own clock, read where it stands: after a wait for a lock, not before it [epoch ms]. */
  readonly clockMs: RawBuilder<number>;
  /** A second way in for a migration, which may take minutes; closed again by `done`. */
  forMigration(): Promise<{ readonly db: Kysely<Tables>; done(): Promise<void> }>;
  /** Runs on one unchanging view of everything, while others write. */
  snapshot<T>(read: (db: Kysely<Tables>) => Promise<T>): Promise<T>;
  bytesOnDisk(): Promise<number>;
  /** Takes room on the disk as new rows do, and gives it back. Throws where there is none. */
  takeRoom(): Promise<void>;
  /** Lets counted keys go on after those that were restored. */
  resumeCounting(transaction: Transaction<Tables>): Promise<void>;
  /** Why the database could not; null where the fault is none of the database's. */
  causeOf(fault: unknown): StoreCause | null;
  /** True where a row of that key is there already. */
  isDuplicate(fault: unknown): boolean;
  /** True where the same transaction may succeed at once: two of them stood in each other's way. */
  isCollision(fault: unknown): boolean;
  close(): Promise<void>;
}

/** Column types that have no name in common. Text compares byte by byte on both. */
export interface ColumnTypes {
  readonly text: RawBuilder<unknown>;
  readonly bytes: RawBuilder<unknown>;
  /** A key that counts up by itself. */
  readonly counted: RawBuilder<unknown>;
}

export interface Timeouts {
  /** Reaching the database [ms]. */
  readonly connectMs: number;
  /** One statement [ms]. */
  readonly statementMs: number;
  /** Waiting for another process that is writing [ms]. */
  readonly lockMs: number;
}
