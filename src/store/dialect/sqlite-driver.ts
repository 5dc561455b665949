// Node's own SQLite under the query layer: prepared statements kept, transactions that write from their first statement
// on, and a wait for another process that does not stop this one.

import type { DatabaseSync, StatementSync } from 'node:sqlite';
import { setTimeout } from 'node:timers/promises';
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
  readonly #lockMs: number;
  /** After one wait in vain the next tries do not wait: many calls in a row must not add up. */
  #patient = true;

  constructor(open: () => DatabaseSync, lockMs: number) {
    super({ database: async () => asSqliteDatabase(open()) });
    this.#lockMs = lockMs;
  }

  override async beginTransaction(
    connection: DatabaseConnection,
    settings?: TransactionSettings,
  ): Promise<void> {
    if (settings?.accessMode === 'read only') return super.beginTransaction(connection);
    const patienceMs = this.#patient ? this.#lockMs : 0;
    for (let waitedMs = 0; ; waitedMs += TRY_AGAIN_MS) {
      try {
        await connection.executeQuery(CompiledQuery.raw('begin immediate'));
        this.#patient = true;
        return;
      } catch (fault) {
        if (!isBusy(fault)) throw fault;
        if (waitedMs >= patienceMs) {
          this.#patient = false;
          throw fault;
        }
      }
      await setTimeout(TRY_AGAIN_MS);
    }
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
