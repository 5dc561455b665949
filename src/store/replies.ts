// Replies to requests that carried an idempotency key, kept in the transaction that did what was asked.

import type { Transaction } from 'kysely';
import { ServiceError } from '#errors.ts';
import { fromJson, toJson } from './json.ts';
import type { Once, OnceOutcome } from './once.ts';
import type { Tables } from './tables.ts';

/** The reply that the same request got before; null where it is new. Throws ServiceError `key_reused`. */
export async function replyTo(transaction: Transaction<Tables>, request: Once): Promise<OnceOutcome | null> {
  const row = await transaction
    .selectFrom('replies')
    .selectAll()
    .where('organisation', '=', request.organisation)
    .where('key', '=', request.key)
    .executeTakeFirst();
  if (!row) return null;
  if (row.requestHash !== request.requestHash) {
    throw new ServiceError('key_reused', 'this idempotency key came before with another request');
  }
  return { status: row.status, body: row.body, headers: fromJson(row.headers) };
}

export async function keepReply(
  transaction: Transaction<Tables>,
  request: Once,
  { headers, ...outcome }: OnceOutcome,
): Promise<void> {
  await transaction
    .insertInto('replies')
    .values({ ...request, ...outcome, headers: toJson(headers) })
    .execute();
}
