// Hands deliveries that are due over to their channels: claimed before, settled after, so that whoever dies in between
// leaves them to the next. Each channel has a lane of its own: one that hangs holds up nothing but itself. A delivery is
// settled as its own try ends, and the most urgent that waits takes the place at once.

import { messageOf } from '#errors.ts';
import { inTurn, oneAfterTheOther } from '#memory/in-turn.ts';
import type { ClaimedDelivery, MessageThread } from '#store/watch/records.ts';
import { audiencesOf } from './audiences.ts';
import type { SendDeps } from './send-deps.ts';
import { sendOne, type ToSend } from './send-one.ts';
import { settleSent } from './settle-sent.ts';

/** Of channels that are not there: what is for them fails on the spot. */
const AT_ONCE_ELSEWHERE = 64;

export interface Sending {
  /** Claims what is due as far as there is room, and begins to send it. */
  begin(): Promise<void>;
  /** The same, until nothing more is due, nor under way. */
  all(): Promise<void>;
}

export function createSending(deps: SendDeps, signal: AbortSignal): Sending {
  /** By id, each with the last claim that is ours. */
  const underWay = new Map<string, ClaimedDelivery>();
  const working = new Set<Promise<void>>();
  // What is claimed and what is settled never cross, so that the claim by which a delivery is settled is the last.
  const alone = oneAfterTheOther();
  const settle = settleSent(deps, underWay, alone);
  const begin = inTurn(async () => {
    if (signal.aborted) return;
    await settle.rest();
    const fresh = await alone(() => claim(deps, underWay));
    for (const what of await withThreads(deps, fresh, underWay)) {
      const one = work(what).finally(() => working.delete(one));
      working.add(one);
    }
  });
  const work = async (what: ToSend): Promise<void> => {
    const sent = await sendOne(deps, what, signal);
    try {
      await settle.keep(sent);
    } catch (fault) {
      deps.log.warn({ message: messageOf(fault) }, 'what came of a text could not be kept');
    }
    // Where nothing can be claimed now, whoever begins next is told so.
    await begin().catch(() => undefined);
  };
  return {
    begin,
    async all() {
      await begin();
      while (working.size > 0) await Promise.all(working);
    },
  };
}

/** Claims as much as there is room for. Gives what is not under way already. */
async function claim(
  { store, times, worker, nowMs, lanes }: SendDeps,
  underWay: Map<string, ClaimedDelivery>,
): Promise<ClaimedDelivery[]> {
  const room = roomIn(lanes(), underWay.values());
  if (room.none) return [];
  const claimed = await store.watch.claimDeliveries({ ...times, worker, nowMs: nowMs(), ...room });
  // Where the clock leapt, a lease may end while we still send: claimed by ourselves, it is ours on, and not sent twice.
  const fresh = claimed.filter(({ id }) => !underWay.has(id));
  for (const delivery of claimed) underWay.set(delivery.id, delivery);
  return fresh;
}

interface Room {
  readonly room: ReadonlyMap<string, number>;
  readonly most: number;
  readonly none: boolean;
}

function roomIn(lanes: ReadonlyMap<string, number>, underWay: Iterable<ClaimedDelivery>): Room {
  const room = new Map(lanes);
  let most = AT_ONCE_ELSEWHERE;
  for (const { channel } of underWay) {
    const left = room.get(channel);
    if (left === undefined) most -= 1;
    else room.set(channel, left - 1);
  }
  return { room, most, none: most <= 0 && [...room.values()].every((many) => many <= 0) };
}

/** Each with its message and those who may be told of it, as they are now. */
async function withThreads(
  deps: SendDeps,
  fresh: readonly ClaimedDelivery[],
  underWay: Map<string, ClaimedDelivery>,
): Promise<ToSend[]> {
  if (fresh.length === 0) return [];
  try {
    const found = await deps.store.watch.threadsNamed([...new Set(fresh.map(({ message }) => message))]);
    const threads = new Map(found.map((thread) => [thread.message.id, thread]));
    const others = await aboutWhich(deps, found);
    const messages = [...found, ...others.values()].map(({ message }) => message);
    const audienceOf = await audiencesOf(deps, messages);
    return fresh.map((delivery) => {
      const thread = threads.get(delivery.message) ?? null;
      const about = thread && aboutOf(thread);
      return {
        delivery,
        thread,
        audience: thread && audienceOf(thread.message),
        about: about === null ? null : (others.get(about) ?? null),
      };
    });
  } catch (fault) {
    for (const { id } of fresh) underWay.delete(id);
    throw fault;
  }
}

/** By id: the messages of which the office is told that nobody has them, or has answered. */
async function aboutWhich(
  { store }: SendDeps,
  threads: readonly MessageThread[],
): Promise<ReadonlyMap<string, MessageThread>> {
  const ids = new Set(threads.map(aboutOf).filter((id) => id !== null));
  const found = ids.size === 0 ? [] : await store.watch.threadsNamed([...ids]);
  return new Map(found.map((thread) => [thread.message.id, thread]));
}

const aboutOf = ({ message }: MessageThread): string | null =>
  message.kind === 'office' ? message.matter.about : null;
