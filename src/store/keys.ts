// Keys by which other programs may ask, and the audit of what was done.

import type { Selectable, Transaction } from 'kysely';
import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from './access.ts';
import type { ApiKey, Scope } from './api-key.ts';
import { addAudit, readAudit } from './audit.ts';
import { raise } from './counters.ts';
import { fromJson, toJson } from './json.ts';
import type { KeyRecords } from './store.ts';
import type { Tables } from './tables.ts';

export function createKeys({ database, reading, writing }: DatabaseAccess): KeyRecords {
  return {
    all: () =>
      reading(async (db) => {
        const rows = await db.selectFrom('apiKeys').selectAll().orderBy('prefix').execute();
        return rows.map(asKey);
      }),
    add: (key, audit) =>
      writing('keys', async (transaction) => {
        await raise(transaction, 'keys');
        await insert(transaction, database, key);
        await addAudit(transaction, [audit]);
      }),
    replace: (key, old, audits) =>
      writing('keys', async (transaction) => {
        await raise(transaction, 'keys');
        await insert(transaction, database, key);
        await end(transaction, old.prefix, old.endsMs);
        await addAudit(transaction, audits);
      }),
    revoke: (prefix, atMs, audit) =>
      writing('keys', async (transaction) => {
        await raise(transaction, 'keys');
        const row = await end(transaction, prefix, atMs);
        if (!row) return null;
        await addAudit(transaction, [audit]);
        return asKey(row);
      }),
    used: (lastUsed) => writing('keys', (transaction) => noteUse(transaction, lastUsed), IN_PLACE),
    audit: (most) => reading((db) => readAudit(db, most)),
  };
}

async function insert(
  transaction: Transaction<Tables>,
  database: DatabaseAccess['database'],
  key: ApiKey,
): Promise<void> {
  try {
    await transaction.insertInto('apiKeys').values(asRow(key)).execute();
  } catch (cause) {
    if (!database.isDuplicate(cause)) throw cause;
    throw new ServiceError('changed_meanwhile', `there is a key ${key.prefix} already`, { cause });
  }
}

async function end(transaction: Transaction<Tables>, prefix: string, atMs: number) {
  // The earlier end stands: a key that is to end next week can still be ended today.
  await transaction
    .updateTable('apiKeys')
    .set({ revokedAtMs: atMs })
    .where('prefix', '=', prefix)
    .where((e) => e.or([e('revokedAtMs', 'is', null), e('revokedAtMs', '>', atMs)]))
    .execute();
  return transaction.selectFrom('apiKeys').selectAll().where('prefix', '=', prefix).executeTakeFirst();
}

/** Shows nothing of the room that a new key needs. */
const IN_PLACE = (): boolean => false;

async function noteUse(
  transaction: Transaction<Tables>,
  lastUsed: ReadonlyMap<string, number>,
): Promise<void> {
  for (const [prefix, lastUsedAtMs] of [...lastUsed].sort(([a], [b]) => (a < b ? -1 : 1))) {
    await transaction
      .updateTable('apiKeys')
      .set({ lastUsedAtMs })
      .where('prefix', '=', prefix)
      .where((e) => e.or([e('lastUsedAtMs', 'is', null), e('lastUsedAtMs', '<', lastUsedAtMs)]))
      .execute();
  }
}

const asRow = (key: ApiKey): Selectable<Tables['apiKeys']> => ({
  ...key,
  sites: key.sites === null ? null : toJson(key.sites),
  scopes: toJson(key.scopes),
});

const asKey = (row: Selectable<Tables['apiKeys']>): ApiKey => ({
  ...row,
  sites: row.sites === null ? null : fromJson<string[]>(row.sites),
  scopes: fromJson<Scope[]>(row.scopes),
});
