// Node's own SQLite under the query layer: prepared statements kept, transactions that write from their first statement
// on, and a wait for another process that does not stop this one.

import type { DatabaseSync, StatementSync } from 'node:sqlite';
import { setImmediate, setTimeout } from 'node:timers/promises';
import {
  CompiledQuery,
  type DatabaseConnection,
  type SqliteDatabase,
  SqliteDriver,
  type SqliteStatement,
  type TransactionSettings,
} from 'kysely';

const STATEMENTS_KEPT = 200;
const TRY_AGAIN_MS = 15;

export class NodeSqliteDriver extends SqliteDriver {
  readonly #whenFree: Patience;

  constructor(open: () => DatabaseSync, lockMs: number) {
    const whenFree = createPatience(lockMs);
    super({ database: async () => asSqliteDatabase(await whenFree(async () => open())) });
    this.#whenFree = whenFree;
  }

  override async acquireConnection(): Promise<DatabaseConnection> {
    // All that follows is done without a pause: somebody who asks in a loop would keep the network waiting for ever.
    await setImmediate();
    const connection = await super.acquireConnection();
    return {
      executeQuery: (query) => this.#whenFree(() => connection.executeQuery(query)),
      streamQuery: (query, rows) => connection.streamQuery(query, rows),
    };
  }

  override async beginTransaction(
    connection: DatabaseConnection,
    settings?: TransactionSettings,
  ): Promise<void> {
    const begin = settings?.accessMode === 'read only' ? 'begin' : 'begin immediate';
    await connection.executeQuery(CompiledQuery.raw(begin));
  }

  /** Where a statement failed hard, SQLite has rolled back by itself and there is nothing left to undo. */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    try {
      await super.rollbackTransaction(connection);
    } catch (fault) {
      if (!/no transaction is active/.test(String(fault))) throw fault;
    }
  }
}

type Patience = <T>(run: () => Promise<T>) => Promise<T>;

/**
 * Waits for another process that is writing. After one wait in vain the next tries do not wait: many calls in a row must
 * not add up.
 */
function createPatience(lockMs: number): Patience {
  let patienceMs = lockMs;
  return async (run) => {
    const startMs = performance.now();
    for (;;) {
      try {
        const result = await run();
        patienceMs = lockMs;
        return result;
      } catch (fault) {
        if (!isBusy(fault)) throw fault;
        if (performance.now() - startMs >= patienceMs) {
          patienceMs = 0;
          throw fault;
        }
      }
      await setTimeout(TRY_AGAIN_MS);
    }
  };
}

/** SQLite's code of a fault without its details, for example 5 for busy; null where it is none of SQLite's. */
export function sqliteCode(fault: unknown): number | null {
  const { code, errcode } = fault as { code?: unknown; errcode?: unknown };
  return code === 'ERR_SQLITE_ERROR' && typeof errcode === 'number' ? errcode & 0xff : null;
}

const isBusy = (fault: unknown): boolean => {
  const code = sqliteCode(fault);
  return code === 5 || code === 6;
};

function asSqliteDatabase(database: DatabaseSync): SqliteDatabase {
  const kept = new Map<string, SqliteStatement>();
  return {
    close: () => database.close(),
    prepare(sql) {
      const found = kept.get(sql);
      if (found) {
        // The one used last is dropped last.
        kept.delete(sql);
        kept.set(sql, found);
        return found;
      }
      const made = asSqliteStatement(database.prepare(sql));
      kept.set(sql, made);
      const oldest = kept.keys().next();
      if (kept.size > STATEMENTS_KEPT && !oldest.done) kept.delete(oldest.value);
      return made;
    },
  };
}

function asSqliteStatement(statement: StatementSync): SqliteStatement {
  type Values = Parameters<StatementSync['all']>;
  return {
    reader: statement.columns().length > 0,
    all: (values) => statement.all(...(values as Values)),
    run: (values) => statement.run(...(values as Values)),
    iterate: (values) => statement.iterate(...(values as Values)),
  };
}
