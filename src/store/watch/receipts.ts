// What a network says later of a text that it had taken, and the delivery that it is of. A receipt may come before it is
// noted that the text was sent, so that both wait for each other.

import type { Transaction } from 'kysely';
import type { DatabaseAccess } from '#store/access.ts';
import type { Tables } from '#store/tables.ts';
import type { KeptReceipt, MatchedReceipt, WatchRecords } from './records.ts';

/** Texts of others come back, too: what finds none of ours by then never will. */
const WAITS_MS = 3_600_000;
const AT_ONCE = 500;

export function createReceipts({
  database,
  writing,
}: DatabaseAccess): Pick<WatchRecords, 'keepReceipt' | 'matchReceipts'> {
  return {
    // A name that comes again long after is that of another text: gateways count anew after a restart.
    keepReceipt: (receipt) =>
      writing('deliveries', async (transaction) => {
        await transaction
          .insertInto('receipts')
          .values({ ...receipt, delivery: null })
          .onConflict((c) =>
            c
              .columns(['channel', 'reference', 'state'])
              .doUpdateSet({ atMs: receipt.atMs, code: receipt.code, delivery: null })
              .where('receipts.atMs', '<', receipt.atMs - WAITS_MS),
          )
          .execute();
      }),
    matchReceipts: (nowMs) =>
      writing(
        'deliveries',
        (transaction) => matchWaiting(transaction, nowMs, database.kind === 'postgres'),
        (matched) => matched.length > 0,
      ),
  };
}

async function matchWaiting(
  transaction: Transaction<Tables>,
  nowMs: number,
  skipsLocked: boolean,
): Promise<MatchedReceipt[]> {
  const waiting = transaction
    .selectFrom('receipts')
    .selectAll()
    .where('delivery', 'is', null)
    .where('atMs', '>=', nowMs - WAITS_MS)
    .orderBy('atMs')
    .limit(AT_ONCE);
  const rows = await (skipsLocked ? waiting.forUpdate().skipLocked() : waiting).execute();
  const matched: MatchedReceipt[] = [];
  for (const { delivery: _, state, ...receipt } of rows) {
    matched.push(...(await match(transaction, { ...receipt, state: state as KeptReceipt['state'] })));
  }
  return matched;
}

async function match(
  transaction: Transaction<Tables>,
  { channel, reference, state, code, atMs }: KeptReceipt,
): Promise<MatchedReceipt[]> {
  const said = code === null ? 'undelivered' : `undelivered: ${code}`;
  const came =
    state === 'delivered' ? { deliveredAtMs: atMs } : { outcome: 'failed', detail: said, settledAtMs: atMs };
  const rows = await transaction
    .updateTable('deliveries')
    .set(came)
    .where('channel', '=', channel)
    .where('detail', '=', reference)
    .where('outcome', '=', 'sent')
    // What has arrived has arrived.
    .where('deliveredAtMs', 'is', null)
    .returning(['id', 'message'])
    .execute();
  for (const { id, message } of rows) {
    await transaction
      .updateTable('receipts')
      .set({ delivery: id })
      .where('channel', '=', channel)
      .where('reference', '=', reference)
      .where('state', '=', state)
      .execute();
    if (state === 'undelivered') await reopen(transaction, message, atMs);
  }
  return rows.map(({ id, message }) => ({ delivery: id, message, channel, state }));
}

/** There may be another way, or another person, while it is of use. */
async function reopen(transaction: Transaction<Tables>, message: string, nowMs: number): Promise<void> {
  await transaction
    .updateTable('messages')
    .set({ closedAtMs: null })
    .where('id', '=', message)
    .where('validUntilMs', '>=', nowMs)
    .execute();
}
