// Opens the store: SQLite in a file, or PostgreSQL. Resolves once its tables are those of this program.

import type { Database, Timeouts } from '#store/dialect/database.ts';
import type { PostgresAddress } from '#store/dialect/postgres.ts';
import { openSqlite, type SqliteAddress } from '#store/dialect/sqlite.ts';
import { createHooks } from '#store/hooks/create-hooks.ts';
import { createWatch } from '#store/watch/create-watch.ts';
import { asServiceError, createAccess } from './access.ts';
import { createBackup } from './backup.ts';
import { createCalendar } from './calendar.ts';
import { createCapRecords } from './cap.ts';
import { createCare } from './care.ts';
import { createCommit } from './commit.ts';
import { createDefinitions } from './definitions.ts';
import { createDocuments } from './documents.ts';
import { createEvents } from './events.ts';
import { createForecasts } from './forecasts.ts';
import { createKeys } from './keys.ts';
import { createMarks } from './marks.ts';
import { migrate } from './migrate.ts';
import { createPaces } from './paces.ts';
import { createPlans } from './plans.ts';
import { createRestore } from './restore.ts';
import type { Store } from './store.ts';
import { createHealthRecord } from './store-health.ts';
import { tablesAsFound } from './tables-as-found.ts';

export type StoreAddress = SqliteAddress | PostgresAddress;

export interface StoreExtras {
  readonly nowMs: () => number;
  /** True for reading beside others: tables of an older program are refused, not migrated. */
  readonly asFound?: boolean;
  /** A clock that nobody sets; injected by tests. */
  readonly steadyMs?: () => number;
  /** Told of a connection that broke while nobody used it. */
  readonly onBroken?: (fault: Error) => void;
  readonly timeouts?: Partial<Timeouts>;
}

const TIMEOUTS: Timeouts = { connectMs: 5000, statementMs: 10_000, lockMs: 2500 };

/** Throws ServiceError `store_unavailable`, `store_newer`, and with `asFound` `store_older`. */
export async function openStore(address: StoreAddress, extras: StoreExtras): Promise<Store> {
  const database = await openDatabase(address, extras);
  try {
    await (extras.asFound ? tablesAsFound : migrate)(database);
  } catch (fault) {
    await database.close();
    throw asServiceError(fault, database.causeOf);
  }
  const health = createHealthRecord({
    nowMs: extras.nowMs,
    steadyMs: extras.steadyMs ?? (() => performance.now()),
  });
  const access = createAccess(database, health);
  return {
    kind: database.kind,
    definitions: createDefinitions(access),
    documents: createDocuments(access),
    forecasts: createForecasts(access),
    plans: createPlans(access),
    events: createEvents(access),
    hooks: createHooks(access),
    calendar: createCalendar(access),
    cap: createCapRecords(access),
    keys: createKeys(access),
    watch: createWatch(access),
    paces: createPaces(access),
    care: createCare(access, extras.nowMs),
    commit: createCommit(access, extras.nowMs),
    marks: createMarks(access),
    backup: createBackup(access, extras.nowMs),
    restore: createRestore(access),
    health: health.now,
    close: access.database.close,
  };
}

async function openDatabase(
  address: StoreAddress,
  { timeouts, onBroken = () => undefined }: StoreExtras,
): Promise<Database> {
  const limits = { ...TIMEOUTS, ...timeouts };
  if (!('databaseUrl' in address)) return openSqlite(address, limits);
  const { openPostgres } = await import('#store/dialect/postgres.ts');
  return openPostgres(address, limits, onBroken);
}
