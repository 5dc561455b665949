// How the records reach the database: every fault told in one way, every outcome noted, transactions that stood in each
// other's way tried again.

import type { Transaction } from 'kysely';
import { messageOf, ServiceError } from '#errors.ts';
import type { Database } from '#store/dialect/database.ts';
import { CAUSE_SENTENCES } from './cause-sentences.ts';
import { createEventSignal, type EventSignal } from './event-signal.ts';
import type { AccessKind, HealthRecord, StoreCause, WriteKind } from './store-health.ts';
import type { Tables } from './tables.ts';

const TRIES = 4;

export interface DatabaseAccess {
  readonly database: Database;
  readonly eventsAdded: EventSignal;
  reading<T>(read: (db: Database['db']) => Promise<T>): Promise<T>;
  /**
   * One transaction, on the disk when it resolves. `write` may run more than once. `hasWritten` is false of an outcome that
   * left nothing behind: it says nothing about the store.
   */
  writing<T>(
    kind: WriteKind,
    write: (transaction: Transaction<Tables>) => Promise<T>,
    hasWritten?: (outcome: T) => boolean,
  ): Promise<T>;
  /** The same, and takes room on the disk for a moment: shows that whatever failed may succeed now. */
  proving(write: (transaction: Transaction<Tables>) => Promise<void>): Promise<void>;
}

export function createAccess(database: Database, health: HealthRecord): DatabaseAccess {
  let closed = false;
  const eventsAdded = createEventSignal();
  const attempt = async <T>(
    kind: AccessKind,
    work: () => Promise<T>,
    note: (outcome: T) => void,
  ): Promise<T> => {
    if (closed) throw unavailable('closed');
    try {
      const outcome = await work();
      note(outcome);
      return outcome;
    } catch (fault) {
      const told = asServiceError(fault, closed ? () => 'closed' : database.causeOf);
      if (told instanceof ServiceError && told.code === 'store_unavailable') {
        health.failed(kind, told.facts['cause'] as StoreCause, told.message);
      }
      throw told;
    }
  };
  /** True where a connection may have ended while it lay unused: another one may do. */
  const stale = (fault: unknown): boolean => database.causeOf(fault) === 'connection-lost';
  const transact = async <T>(write: (transaction: Transaction<Tables>) => Promise<T>): Promise<T> => {
    for (let tries = 1; ; tries += 1) {
      let begun = false;
      try {
        return await eventsAdded.around((seen) =>
          database.db.transaction().execute((transaction) => {
            begun = true;
            seen(transaction);
            return write(transaction);
          }),
        );
      } catch (fault) {
        const again = database.isCollision(fault) || (!begun && stale(fault));
        if (tries >= TRIES || !again) throw fault;
      }
    }
  };
  const close = async (): Promise<void> => {
    if (closed) return;
    closed = true;
    await database.close();
  };
  return {
    database: { ...database, close },
    eventsAdded,
    reading: (read) =>
      attempt(
        'reading',
        () => read(database.db).catch((fault) => (stale(fault) ? read(database.db) : Promise.reject(fault))),
        () => health.succeeded('reading'),
      ),
    writing: (kind, write, hasWritten = () => true) =>
      attempt(
        kind,
        () => transact(write),
        (outcome) => {
          health.succeeded('reading');
          if (hasWritten(outcome)) health.succeeded(kind);
        },
      ),
    proving: (write) =>
      attempt(
        'probe',
        async () => {
          await transact(write);
          await database.takeRoom();
        },
        health.proved,
      ),
  };
}

/** A fault of the database as the rest of the program knows it; any other as it is. */
export function asServiceError(fault: unknown, causeOf: Database['causeOf']): unknown {
  if (fault instanceof ServiceError) return fault;
  const cause = causeOf(fault);
  if (cause === null) return fault;
  return unavailable(cause, fault);
}

const unavailable = (cause: StoreCause, fault?: unknown): ServiceError =>
  new ServiceError(
    'store_unavailable',
    fault === undefined ? CAUSE_SENTENCES[cause] : `${CAUSE_SENTENCES[cause]} (${messageOf(fault)})`,
    { cause: fault, retryable: true, facts: { cause } },
  );
