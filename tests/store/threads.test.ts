// Messages with everything that belongs to them, and who was told of what.

import { expect, it } from 'vitest';
import { heardKey } from '#core/notices/who-is-told.ts';
import type { Store } from '#store/store.ts';
import { transitionOf } from '../builders/contacts.ts';
import { EIGHT_MS, gust, SITE } from '../builders/notices.ts';
import { answerOf, deliveryOf, raisedAt } from '../builders/watch-records.ts';
import { onEachStore } from './on-each-store.ts';

const TIMES = { sendTimeoutMs: 10_000, leaseMs: 15_000, sendWithinMs: 60_000 };

async function sendAll(store: Store, outcome: 'sent' | 'failed' | 'uncertain'): Promise<void> {
  const claimed = await store.watch.claimDeliveries({ worker: 'w', nowMs: EIGHT_MS, most: 99, ...TIMES });
  await store.watch.settle(
    claimed.map(({ id, token }) => ({ id, token, atMs: EIGHT_MS, outcome, detail: null, said: 'Pit 7' })),
  );
}

onEachStore('a message', ({ open }) => {
  it('is open until it is closed, and comes with its deliveries and answers', async () => {
    const store = await open();
    const south = 'fern-hollow/south-block';
    const [m1, m2] = [raisedAt(SITE, 'm1'), raisedAt(south, 'm2', EIGHT_MS + 5)];
    await store.watch.commit([
      { ...m1.patch, replaces: 0, deliveries: [deliveryOf('m1')] },
      { ...m2.patch, replaces: 0 },
    ]);
    await sendAll(store, 'sent');
    await store.watch.commit([{ site: SITE, replaces: null, answers: [answerOf('a1', 'm1')] }]);
    const thread = await store.watch.thread('m1');
    expect(thread).toMatchObject({
      message: m1.message,
      closedAtMs: null,
      deliveries: [{ contact: 'ana', outcome: 'sent', said: 'Pit 7', tries: 1, triedAtMs: EIGHT_MS }],
      answers: [answerOf('a1', 'm1')],
    });
    expect(await store.watch.thread('none')).toBeNull();
    expect(await Promise.all(['a1', 'a2'].map((id) => store.watch.isAnswerKept(id)))).toEqual([true, false]);
    const ids = async (sites?: readonly string[]) =>
      (await store.watch.openThreads(9, sites)).map((t) => t.message.id);
    expect(await ids()).toEqual(['m1', 'm2']);
    expect(await ids([south])).toEqual(['m2']);
    expect(await store.watch.openThreads(1)).toHaveLength(1);
    await store.watch.commit([
      { site: SITE, replaces: null, closed: [{ message: 'm1', atMs: EIGHT_MS + 9 }] },
    ]);
    await store.watch.commit([
      { site: SITE, replaces: null, closed: [{ message: 'm1', atMs: EIGHT_MS + 99 }] },
    ]);
    expect(await ids()).toEqual(['m2']);
    expect((await store.watch.thread('m1'))?.closedAtMs).toBe(EIGHT_MS + 9);
    expect((await store.watch.threads(SITE, EIGHT_MS, EIGHT_MS + 1, 9)).map((t) => t.message.id)).toEqual([
      'm1',
    ]);
    expect(await store.watch.threads(SITE, EIGHT_MS + 1, EIGHT_MS + 9, 9)).toEqual([]);
  });

  it('was heard of by those whose text may have arrived, and of its parts by those who were told them', async () => {
    const store = await open();
    const { notice, message } = raisedAt(SITE, 'm1');
    const other = transitionOf({ condition: gust('true', 'hold', { subject: 'windSpeed' }), episode: 'm1' });
    const both = { ...message, transitions: [...message.transitions, other] };
    const send = (
      contact: string,
      parts: readonly number[],
      outcome: 'sent' | 'failed' | 'uncertain' | null,
    ) => deliveryOf('m1', { contact, parts, outcome });
    await store.watch.commit([
      {
        site: SITE,
        replaces: 0,
        notices: [notice],
        transitions: both.transitions,
        messages: [both],
        deliveries: [
          send('all', [0, 1], 'sent'),
          send('one', [1], 'uncertain'),
          send('none', [0, 1], 'failed'),
          send('waiting', [0, 1], null),
        ],
      },
    ]);
    const [first] = message.transitions;
    if (first === undefined) throw new Error('it has one');
    expect([...(await store.watch.heard([first, other]))].sort()).toEqual(
      [heardKey('all', first), heardKey('all', other), heardKey('one', other)].sort(),
    );
    expect(await store.watch.heard([{ ...other, episode: 'another' }])).toEqual(new Set());
    expect(await store.watch.heard([])).toEqual(new Set());
  });
});
