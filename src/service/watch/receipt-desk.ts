// What networks say later of texts that they had taken. What did not arrive goes by the next way, as what was not taken.

import { ServiceError } from '#errors.ts';
import { escalateMessages } from '#jobs/watch/escalate-open.ts';
import type { SendDeps } from '#jobs/watch/send-deps.ts';
import type { Receipt } from '#notify/channel.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';
import type { KeptReceipt } from '#store/watch/records.ts';
import type { ChannelShelf } from './channel-shelf.ts';

export interface ReceiptDesk {
  /** Resolves when it is kept. */
  take(channel: string, receipt: Receipt): Promise<void>;
  /** Looks for the texts of those that came too early. */
  match(): Promise<void>;
}

/** Neither an end nor a beginning. */
const STATES: Readonly<Record<Receipt['state'], KeptReceipt['state'] | null>> = {
  delivered: 'delivered',
  failed: 'undelivered',
  expired: 'undelivered',
  pending: null,
};

export function createReceiptDesk(deps: SendDeps): ReceiptDesk {
  const { store, nowMs, counted, log } = deps;
  const match = async (): Promise<void> => {
    const matched = await store.watch.matchReceipts(nowMs());
    for (const { channel, state, delivery } of matched) {
      counted.delivered(channel, state, null, 0);
      if (state === 'undelivered') log.info({ delivery, channel }, 'a text that was taken did not arrive');
    }
    const lost = matched.filter(({ state }) => state === 'undelivered').map(({ message }) => message);
    if (lost.length > 0) await escalateMessages(deps, [...new Set(lost)]);
  };
  return {
    match,
    async take(channel, { reference, state, code }) {
      const kept = STATES[state];
      if (kept === null) return;
      await store.watch.keepReceipt({ channel, reference, state: kept, code, atMs: nowMs() });
      await match();
    },
  };
}

/** The same over the API, of a channel that there is. */
export const receiptOver =
  (channels: Pick<ChannelShelf, 'names'>, { take }: ReceiptDesk): WatchDesk['receipt'] =>
  async (channel, reference, state, code) => {
    if (!channels.names().includes(channel)) {
      throw new ServiceError('not_found', `no channel "${channel}"`);
    }
    await take(channel, { reference, state, code });
    return STATES[state] ?? 'pending';
  };
