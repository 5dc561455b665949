// What networks say later of texts: it finds the text whenever it comes, and changes it once.

import { expect, it } from 'vitest';
import type { Store } from '#store/store.ts';
import type { KeptReceipt } from '#store/watch/records.ts';
import { EIGHT_MS, SITE } from '../builders/notices.ts';
import { deliveryOf, raisedAt } from '../builders/watch-records.ts';
import { onEachStore } from './on-each-store.ts';

const MINUTE_MS = 60_000;
const LEASE = { sendTimeoutMs: 10_000, leaseMs: 15_000, sendWithinMs: 60_000 };
const receiptOf = (change: Partial<KeptReceipt> = {}): KeptReceipt => ({
  channel: 'text',
  reference: 'g-1',
  state: 'undelivered',
  code: '027',
  atMs: EIGHT_MS + MINUTE_MS,
  ...change,
});

/** A message with a text under way to Ana, and its token. */
async function claimedText(store: Store, change: object = {}): Promise<number> {
  const { patch } = raisedAt(SITE, 'm1');
  await store.watch.commit([{ ...patch, replaces: 0, deliveries: [deliveryOf('m1', change)] }]);
  const [claimed] = await store.watch.claimDeliveries({ ...LEASE, worker: 'w', nowMs: EIGHT_MS, most: 9 });
  return claimed?.token ?? 0;
}

const sent = (store: Store, token: number, detail = 'g-1') =>
  store.watch.settle([
    { id: 'm1 0 0 0 ana', token, atMs: EIGHT_MS + 1000, outcome: 'sent', detail, said: 'Pit 7' },
  ]);

const textOf = async (store: Store) => {
  const thread = await store.watch.thread('m1');
  const [delivery] = thread?.deliveries ?? [];
  return {
    outcome: delivery?.outcome,
    detail: delivery?.detail,
    deliveredAtMs: delivery?.deliveredAtMs,
    closedAtMs: thread?.closedAtMs,
  };
};

onEachStore('a receipt', ({ open }) => {
  it('of a text that did not arrive makes of it one that failed, with why, once', async () => {
    const store = await open();
    await sent(store, await claimedText(store));
    await store.watch.keepReceipt(receiptOf());
    await store.watch.keepReceipt(receiptOf({ atMs: EIGHT_MS + 2 * MINUTE_MS }));
    expect(await store.watch.matchReceipts(EIGHT_MS + MINUTE_MS)).toEqual([
      { delivery: 'm1 0 0 0 ana', message: 'm1', channel: 'text', state: 'undelivered' },
    ]);
    expect(await textOf(store)).toMatchObject({
      outcome: 'failed',
      detail: 'undelivered: 027',
      deliveredAtMs: null,
    });
    expect(await store.watch.matchReceipts(EIGHT_MS + MINUTE_MS)).toEqual([]);
  });

  it('of one that arrived says when, and none after it says otherwise', async () => {
    const store = await open();
    await sent(store, await claimedText(store));
    await store.watch.keepReceipt(receiptOf({ state: 'delivered', code: null }));
    expect(await store.watch.matchReceipts(EIGHT_MS + MINUTE_MS)).toHaveLength(1);
    await store.watch.keepReceipt(receiptOf({ atMs: EIGHT_MS + 2 * MINUTE_MS }));
    expect(await store.watch.matchReceipts(EIGHT_MS + 2 * MINUTE_MS)).toEqual([]);
    expect(await textOf(store)).toMatchObject({
      outcome: 'sent',
      detail: 'g-1',
      deliveredAtMs: EIGHT_MS + MINUTE_MS,
    });
  });

  it('that comes before it is noted that the text was sent waits for it', async () => {
    const store = await open();
    const token = await claimedText(store);
    await store.watch.keepReceipt(receiptOf());
    expect(await store.watch.matchReceipts(EIGHT_MS + MINUTE_MS)).toEqual([]);
    expect(await textOf(store)).toMatchObject({ outcome: null });
    await sent(store, token);
    expect(await store.watch.matchReceipts(EIGHT_MS + 2 * MINUTE_MS)).toHaveLength(1);
    expect(await textOf(store)).toMatchObject({ outcome: 'failed' });
  });

  it('of another channel, of another text, or of one that failed anyway, is of none of ours', async () => {
    const store = await open();
    await sent(store, await claimedText(store));
    await store.watch.keepReceipt(receiptOf({ channel: 'other' }));
    await store.watch.keepReceipt(receiptOf({ reference: 'g-2' }));
    expect(await store.watch.matchReceipts(EIGHT_MS + MINUTE_MS)).toEqual([]);
    expect(await textOf(store)).toMatchObject({ outcome: 'sent', deliveredAtMs: null });
    // An hour later nobody waits for it any more.
    await store.watch.keepReceipt(receiptOf());
    expect(await store.watch.matchReceipts(EIGHT_MS + MINUTE_MS + 3_600_001)).toEqual([]);
  });

  it('whose name was that of another text long ago is of the text that has it now', async () => {
    const store = await open();
    // A gateway that counts from the beginning after a restart.
    await store.watch.keepReceipt(receiptOf({ atMs: EIGHT_MS - 2 * 3_600_000 }));
    await store.watch.matchReceipts(EIGHT_MS - 2 * 3_600_000);
    await sent(store, await claimedText(store));
    await store.watch.keepReceipt(receiptOf());
    expect(await store.watch.matchReceipts(EIGHT_MS + MINUTE_MS)).toHaveLength(1);
    expect(await textOf(store)).toMatchObject({ outcome: 'failed' });
    // Said again, it is nothing new.
    await store.watch.keepReceipt(receiptOf());
    expect(await store.watch.matchReceipts(EIGHT_MS + MINUTE_MS)).toEqual([]);
  });

  it('opens a message again that was thought done, while it is of use', async () => {
    const store = await open();
    await sent(store, await claimedText(store));
    const close = { site: SITE, replaces: null, closed: [{ message: 'm1', atMs: EIGHT_MS + 2000 }] };
    await store.watch.commit([close]);
    await store.watch.keepReceipt(receiptOf());
    await store.watch.matchReceipts(EIGHT_MS + MINUTE_MS);
    expect(await textOf(store)).toMatchObject({ outcome: 'failed', closedAtMs: null });
    expect((await store.watch.openThreads(9)).map(({ message }) => message.id)).toEqual(['m1']);
  });

  it('leaves a message done that is of no more use', async () => {
    const store = await open();
    await sent(store, await claimedText(store));
    await store.watch.commit([
      { site: SITE, replaces: null, closed: [{ message: 'm1', atMs: EIGHT_MS + 2000 }] },
    ]);
    const late = EIGHT_MS + 2 * 3_600_000;
    await store.watch.keepReceipt(receiptOf({ atMs: late }));
    await store.watch.matchReceipts(late);
    expect(await textOf(store)).toMatchObject({ outcome: 'failed', closedAtMs: EIGHT_MS + 2000 });
  });
});
