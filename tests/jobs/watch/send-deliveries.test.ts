// Each channel has a lane of its own: one that hangs holds up nothing but itself, and what is out is kept at once.

import { describe, expect, it } from 'vitest';
import { officeMessage } from '#jobs/watch/office-message.ts';
import { createSending } from '#jobs/watch/send-deliveries.ts';
import type { SendDeps } from '#jobs/watch/send-deps.ts';
import type { WatchedSite } from '#jobs/watch/watched-site.ts';
import type { Channel, Outcome, Outgoing } from '#notify/channel.ts';
import type { Store } from '#store/store.ts';
import { contactOf, noticeMessage, transitionOf } from '../../builders/contacts.ts';
import { EIGHT_MS, SITE, shift } from '../../builders/notices.ts';
import { deliveryOf, silenceOf } from '../../builders/watch-records.ts';
import { storesOf } from '../../store/on-each-store.ts';

const SENT: Outcome = { kind: 'sent', reference: null };
const LANE = 4;

interface Peer extends Channel {
  readonly came: Outgoing[];
  /** Ends everything that hangs. */
  letGo(): void;
}

const peerOf = (answer: (outgoing: Outgoing) => Outcome | null): Peer => {
  const came: Outgoing[] = [];
  const hanging: (() => void)[] = [];
  return {
    came,
    letGo: () => hanging.splice(0).forEach((end) => void end()),
    send: (outgoing) => {
      came.push(outgoing);
      const made = answer(outgoing);
      if (made !== null) return Promise.resolve(made);
      return new Promise((resolve) => hanging.push(() => resolve(SENT)));
    },
    state: () => ({ standing: 'ready', sinceMs: 0, detail: null }),
    close: async () => undefined,
  };
};

interface World {
  readonly store: Store;
  readonly peers: Readonly<Record<string, Peer>>;
  readonly clock: { nowMs: number };
}

/** One process that sends. What it does not ask for is not there. */
function sendingOf({ store, peers, clock }: World, worker: string, change: Partial<SendDeps> = {}) {
  const contacts = Object.keys(peers).map((channel) =>
    contactOf(channel, { ways: [{ channel, to: `to ${channel}` }] }),
  );
  const watched = { key: SITE, organisation: 'fern-hollow', site: { timeZone: 'UTC' }, contacts };
  const deps = {
    store,
    view: () => watched as unknown as WatchedSite,
    nowMs: () => clock.nowMs,
    hash: (text: string) => text,
    log: { info: () => undefined, warn: () => undefined },
    escalation: { repeatAfterMs: [], deadlinesMs: [9e6], mostPerContact: 8, mostPerMessage: 5000 },
    wake: () => undefined,
    channel: (name: string) => peers[name] ?? null,
    lanes: () => new Map(Object.keys(peers).map((name) => [name, LANE])),
    say: () => ({ subject: '', text: 'Pit 7: HALT', html: null, link: null, event: null }),
    worker,
    times: { sendTimeoutMs: 20_000, leaseMs: 25_000, sendWithinMs: 60_000 },
    counted: { delivered: () => undefined },
    ...change,
  } as unknown as SendDeps;
  return createSending(deps, new AbortController().signal);
}

const stores = storesOf('sqlite');

/** Deliveries of one message, so many for each channel. */
async function worldOf(many: number, peers: World['peers']): Promise<World> {
  const store = await stores.open();
  const deliveries = Object.keys(peers).flatMap((channel) =>
    Array.from({ length: many }, (_, i) =>
      deliveryOf('m1', { contact: channel, channel, step: i, urgency: i === many - 1 ? 0 : 1 }),
    ),
  );
  await store.watch.commit([{ site: SITE, replaces: null, messages: [noticeMessage()], deliveries }]);
  return { store, peers, clock: { nowMs: EIGHT_MS } };
}

/** Until all that is due on that channel is settled; the store answers in its own time. */
const settledOn = ({ store }: World, channel: string, many: number): Promise<void> =>
  expect
    .poll(
      async () => {
        const thread = await store.watch.thread('m1');
        return thread?.deliveries.filter((d) => d.channel === channel && d.outcome === 'sent').length;
      },
      { timeout: 20_000 },
    )
    .toBe(many);

const ids = ({ came }: Peer): string[] => came.map(({ id }) => id);

describe('a channel that hangs', () => {
  it('holds up no other, takes no more than its lane, and the most urgent goes first', async () => {
    const peers = { hangs: peerOf(() => null), texts: peerOf(() => SENT) };
    const world = await worldOf(30, peers);
    await sendingOf(world, 'w').begin();
    await settledOn(world, 'texts', 30);
    expect(new Set(ids(peers.texts)).size).toBe(30);
    expect(peers.texts.came.length).toBe(30);
    expect(peers.texts.came[0]?.id).toBe('m1 29 0 0 texts');
    expect(peers.hangs.came.length).toBe(LANE);
    expect(peers.hangs.came[0]?.id).toBe('m1 29 0 0 hangs');
  });

  it('does not keep what becomes due meanwhile from being sent', async () => {
    const peers = { hangs: peerOf(() => null), texts: peerOf(() => SENT) };
    const world = await worldOf(5, peers);
    const sending = sendingOf(world, 'w');
    await sending.begin();
    await settledOn(world, 'texts', 5);
    const late = deliveryOf('m1', { contact: 'texts', channel: 'texts', step: 7 });
    await world.store.watch.commit([{ site: SITE, replaces: null, deliveries: [late] }]);
    await sending.begin();
    await settledOn(world, 'texts', 6);
  });

  it('leaves nothing of the others to be sent twice by whoever comes after a kill', async () => {
    const peers = { hangs: peerOf(() => null), texts: peerOf(() => SENT) };
    const world = await worldOf(30, peers);
    await sendingOf(world, 'killed').begin();
    await settledOn(world, 'texts', 30);
    // Whoever comes next finds the leases ended.
    world.clock.nowMs += 26_000;
    const next = sendingOf({ ...world, peers: { hangs: peerOf(() => SENT), texts: peers.texts } }, 'next');
    await next.all();
    expect(peers.texts.came.length).toBe(30);
    await settledOn(world, 'hangs', 30);
  });

  it('goes on with the rest of its own as each of its tries ends', async () => {
    const peers = { hangs: peerOf(({ id }) => (id.startsWith('m1 29 ') ? null : SENT)) };
    const world = await worldOf(30, peers);
    const sending = sendingOf(world, 'w');
    await sending.begin();
    await settledOn(world, 'hangs', 29);
    peers.hangs.letGo();
    await sending.all();
    await settledOn(world, 'hangs', 30);
    expect(peers.hangs.came.length).toBe(30);
  });
});

it('what could not be kept is kept with the next look, and not sent again', async () => {
  const peers = { texts: peerOf(() => SENT) };
  const world = await worldOf(3, peers);
  let isDown = true;
  const watch: Store['watch'] = {
    ...world.store.watch,
    settle: (these) => (isDown ? Promise.reject(new Error('down')) : world.store.watch.settle(these)),
  };
  const sending = sendingOf({ ...world, store: { ...world.store, watch } }, 'w');
  await sending.all().catch(() => undefined);
  expect(peers.texts.came.length).toBe(3);
  isDown = false;
  world.clock.nowMs += 26_000;
  await sending.all();
  expect(peers.texts.came.length).toBe(3);
  await settledOn(world, 'texts', 3);
});

it('what is under way is not sent again by the same process, though the clock leaps over its lease', async () => {
  const peers = { texts: peerOf(() => null) };
  const world = await worldOf(3, peers);
  const sending = sendingOf(world, 'w');
  await sending.begin();
  world.clock.nowMs += 26_000;
  await sending.begin();
  expect(peers.texts.came.length).toBe(3);
  peers.texts.letGo();
  await sending.all();
  expect(peers.texts.came.length).toBe(3);
  await settledOn(world, 'texts', 3);
});

describe('a channel that asks for a pause of five minutes', () => {
  const BUSY: Outcome = { kind: 'retry', reason: 'rate-limited', afterMs: 300_000, detail: 'answer 429' };
  const twoWays = contactOf('ana', {
    ways: [
      { channel: 'texts', to: 'to texts' },
      { channel: 'mail', to: 'to mail' },
    ],
  });
  const watched = { key: SITE, organisation: 'fern-hollow', site: { timeZone: 'UTC' }, contacts: [twoWays] };
  const view = () => watched as unknown as WatchedSite;
  const deliveriesOf = async ({ store }: World) => (await store.watch.thread('m1'))?.deliveries ?? [];
  const started = async (peers: World['peers']): Promise<World> => {
    const store = await stores.open();
    const first = deliveryOf('m1', { contact: 'ana', channel: 'texts', to: 'to texts' });
    await store.watch.commit([
      { site: SITE, replaces: null, messages: [noticeMessage()], deliveries: [first] },
    ]);
    return { store, peers, clock: { nowMs: EIGHT_MS } };
  };

  it('is passed over for a stop at once, keeps when it was due first, and is not tried again', async () => {
    const peers = { texts: peerOf(() => BUSY), mail: peerOf(() => SENT) };
    const world = await started(peers);
    const sending = sendingOf(world, 'w', { view });
    await sending.all();
    await sending.all();
    expect([peers.texts.came.length, peers.mail.came.length]).toEqual([1, 1]);
    const [text] = (await deliveriesOf(world)).filter((d) => d.channel === 'texts');
    expect(text).toMatchObject({ outcome: null, dueAtMs: EIGHT_MS, notBeforeMs: EIGHT_MS + 300_000 });
    world.clock.nowMs += 300_000;
    await sending.all();
    expect(peers.texts.came.length).toBe(1);
    expect(await deliveriesOf(world)).toMatchObject([
      { channel: 'texts', outcome: 'superseded' },
      { channel: 'mail', outcome: 'sent' },
    ]);
  });

  it('is tried again where nothing else got through', async () => {
    let isBusy = true;
    const peers = {
      texts: peerOf(() => (isBusy ? BUSY : SENT)),
      mail: peerOf(() => ({ kind: 'failed', reason: 'gone', permanent: 'way', detail: '' })),
    };
    const world = await started(peers);
    const sending = sendingOf(world, 'w', { view });
    await sending.all();
    await sending.all();
    isBusy = false;
    world.clock.nowMs += 300_000;
    await sending.all();
    expect((await deliveriesOf(world)).map((d) => [d.channel, d.outcome])).toEqual([
      ['texts', 'sent'],
      ['mail', 'failed'],
    ]);
  });
});

it('what waits at a push service is replaced by nothing that asks for less, and a stop by nothing at all', async () => {
  const peers = { push: peerOf(() => SENT) };
  const store = await stores.open();
  const verdicts = ['stop', 'hold', 'go', 'hold'] as const;
  const wrote = ['ana', 'ben'].map((contact) => {
    const matter = { what: 'wrote', contact, about: null, detail: 'call me' } as const;
    return officeMessage({ site: SITE, verdict: 'hold', of: contact }, matter, EIGHT_MS, (text) => text);
  });
  const messages = [...verdicts.map((verdict, i) => noticeMessage([], { id: `m${i}`, verdict })), ...wrote];
  const to = { contact: 'push', channel: 'push' };
  const deliveries = messages.map(({ id }, i) => deliveryOf(id, { ...to, dueAtMs: EIGHT_MS + i - 9 }));
  await store.watch.commit([{ site: SITE, replaces: null, messages, deliveries }]);
  await sendingOf({ store, peers, clock: { nowMs: EIGHT_MS } }, 'w').all();
  const [stop, hold, note, again, ana, ben] = peers.push.came.map(({ topic }) => topic);
  expect(stop).toBeNull();
  expect(hold).not.toBe(note);
  expect(again).toBe(hold);
  // What one wrote is no newer word of what another did.
  expect(ana).not.toBe(ben);
});

it('keeps what was said, where a silence that came meanwhile leaves out a part', async () => {
  const peers = { text: peerOf(() => SENT) };
  const store = await stores.open();
  const transitions = [transitionOf(), transitionOf({ condition: shift('true', 'stop') })];
  const to = { contact: 'text', to: 'to text', parts: [0, 1] };
  await store.watch.commit([
    {
      ...{ site: SITE, replaces: null, messages: [noticeMessage(transitions)] },
      deliveries: [deliveryOf('m1', to)],
      silences: [silenceOf('s1', { code: 'observed-beyond-limit' })],
    },
  ]);
  await sendingOf({ store, peers, clock: { nowMs: EIGHT_MS } }, 'w').all();
  expect((await store.watch.thread('m1'))?.deliveries).toMatchObject([{ outcome: 'sent', parts: [1] }]);
});
