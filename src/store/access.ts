// How the records reach the database: every fault told in one way, every outcome noted, transactions that stood in each
// other's way tried again.

import type { Transaction } from 'kysely';
import { messageOf, ServiceError } from '#errors.ts';
import type { Database } from '#store/dialect/database.ts';
import type { Access, HealthRecord, StoreCause } from './store-health.ts';
import type { Tables } from './tables.ts';

const TRIES = 4;

export interface DatabaseAccess {
  readonly database: Database;
  reading<T>(read: (db: Database['db']) => Promise<T>): Promise<T>;
  /** One transaction, on the disk when it resolves. `write` may run more than once. */
  writing<T>(write: (transaction: Transaction<Tables>) => Promise<T>): Promise<T>;
}

export function createAccess(database: Database, health: HealthRecord): DatabaseAccess {
  let closed = false;
  const attempt = async <T>(access: Access, work: () => Promise<T>): Promise<T> => {
    if (closed) throw unavailable('closed');
    try {
      const result = await work();
      health.succeeded(access);
      return result;
    } catch (fault) {
      const told = asServiceError(fault, closed ? () => 'closed' : database.causeOf);
      if (told instanceof ServiceError && told.code === 'store_unavailable') {
        health.failed(access, told.facts['cause'] as StoreCause, told.message);
      }
      throw told;
    }
  };
  /** True where a connection may have ended while it lay unused: another one may do. */
  const stale = (fault: unknown): boolean => database.causeOf(fault) === 'connection-lost';
  return {
    database: {
      ...database,
      async close() {
        if (closed) return;
        closed = true;
        await database.close();
      },
    },
    reading: (read) =>
      attempt('reading', () =>
        read(database.db).catch((fault) => (stale(fault) ? read(database.db) : Promise.reject(fault))),
      ),
    writing: (write) =>
      attempt('writing', async () => {
        for (let tries = 1; ; tries += 1) {
          let begun = false;
          try {
            return await database.db.transaction().execute((transaction) => {
              begun = true;
              return write(transaction);
            });
          } catch (fault) {
            const again = database.isCollision(fault) || (!begun && stale(fault));
            if (tries >= TRIES || !again) throw fault;
          }
        }
      }),
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
    fault === undefined ? SENTENCES[cause] : `${SENTENCES[cause]} (${messageOf(fault)})`,
    { cause: fault, retryable: true, facts: { cause } },
  );

const SENTENCES: Readonly<Record<StoreCause, string>> = {
  'disk-full': 'the disk of the store is full',
  'read-only': 'the store may not be written',
  locked: 'another program holds the store',
  'connection-lost': 'the database cannot be reached',
  'too-slow': 'the database does not answer in time',
  damaged: 'the store is damaged',
  closed: 'the store is closed',
  other: 'the store failed',
};
