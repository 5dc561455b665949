// Claims go by the database's clock, which no test can set: they are made older instead.

import { DatabaseSync } from 'node:sqlite';
import type { StoreAddress } from '#store/open-store.ts';
import { onDatabase } from '../postgres/fresh-database.ts';

/** As if so much time had gone by since each claim was made or renewed. */
export const ageClaims = (address: StoreAddress, ms: number): Promise<void> =>
  changeClaims(address, `update claims set claimed_at_ms = claimed_at_ms - ${ms}`);

/** Dates a turn that is done, and its claim, as the test needs it. */
export async function changeClaims(address: StoreAddress, statement: string): Promise<void> {
  if ('databaseUrl' in address) return await onDatabase(address.databaseUrl, statement);
  const database = new DatabaseSync(address.sqliteFile, { timeout: 5000 });
  database.exec(statement);
  database.close();
}
