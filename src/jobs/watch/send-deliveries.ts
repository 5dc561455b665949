// Hands deliveries that are due over to their channels: claimed before, settled after, so that whoever dies in between
// leaves them to the next. What comes back decides whether it is tried again, goes by another way, or is done.

import type { Contact } from '#core/notices/contact.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { messageOf } from '#errors.ts';
import type { Outcome } from '#notify/channel.ts';
import type { ClaimedDelivery, MessageThread, OptOut, Settlement } from '#store/watch/records.ts';
import { escalateMessage } from './escalate-open.ts';
import type { SendDeps } from './send-deps.ts';

/** Claimed at once: no more than can be sent within the lease. */
const AT_ONCE = 64;

/** Sends until nothing more is due, or called off. Gives how many were settled. */
export async function sendDeliveries(deps: SendDeps, signal: AbortSignal): Promise<number> {
  let settled = 0;
  while (!signal.aborted) {
    const claimed = await deps.store.watch.claimDeliveries({
      ...deps.times,
      worker: deps.worker,
      nowMs: deps.nowMs(),
      most: AT_ONCE,
    });
    if (claimed.length === 0) return settled;
    await sendThese(deps, claimed, signal);
    settled += claimed.length;
  }
  return settled;
}

async function sendThese(
  deps: SendDeps,
  claimed: readonly ClaimedDelivery[],
  signal: AbortSignal,
): Promise<void> {
  const threads = new Map<string, Promise<MessageThread | null>>();
  const threadOf = (id: string): Promise<MessageThread | null> => {
    const known = threads.get(id) ?? deps.store.watch.thread(id);
    threads.set(id, known);
    return known;
  };
  const done = await Promise.all(
    claimed.map(async (delivery) => {
      const { settlement, optOut } = await sendOne(deps, delivery, await threadOf(delivery.message), signal);
      return { delivery, settlement, optOut };
    }),
  );
  const lost = new Set(await deps.store.watch.settle(done.map(({ settlement }) => settlement)));
  const again = new Set<string>();
  for (const { delivery, settlement, optOut } of done) {
    if (lost.has(delivery.id)) continue;
    if (settlement.outcome !== 'sent' && settlement.outcome !== 'again') again.add(delivery.message);
    if (optOut) {
      await deps.store.watch.commit([{ site: delivery.site, replaces: null, optOuts: [optOut] }]);
    }
  }
  // The next way, or the next person, at once.
  for (const message of again) await escalateMessage(deps, message);
}

interface Sent {
  readonly settlement: Settlement;
  /** Where the network says that this person takes no texts of ours. */
  readonly optOut: OptOut | null;
}

async function sendOne(
  deps: SendDeps,
  delivery: ClaimedDelivery,
  thread: MessageThread | null,
  signal: AbortSignal,
): Promise<Sent> {
  const { log, nowMs } = deps;
  const startedMs = nowMs();
  const contact = contactOf(deps, delivery);
  let outcome: Outcome;
  let said: string | null = null;
  try {
    const channel = deps.channel(delivery.channel);
    if (thread === null || contact === null || channel === null) {
      const detail =
        channel === null ? `no channel "${delivery.channel}"` : 'whom it was for is no longer there';
      outcome = { kind: 'failed', reason: 'bad-address', permanent: 'way', detail };
    } else {
      const words = deps.say(thread.message, delivery, contact, deps.view(delivery.site));
      said = words.text;
      outcome = await channel.send(
        {
          // Ours names people and ways; what goes out must fit a header and name nobody.
          id: deps.hash(delivery.id),
          to: delivery.to,
          ...words,
          topic: delivery.site.replaceAll(/[^\w-]/g, '-').slice(-32),
          validUntilMs: delivery.validUntilMs,
          urgency: delivery.urgency <= 1 ? 'high' : 'normal',
        },
        AbortSignal.any([signal, AbortSignal.timeout(deps.times.sendTimeoutMs)]),
      );
    }
  } catch (fault) {
    // A channel never throws; where one does, it may have been sent.
    outcome = { kind: 'uncertain', reason: 'internal', detail: messageOf(fault) };
  }
  const reason = outcome.kind === 'sent' ? null : outcome.reason;
  deps.counted.delivered(delivery.channel, outcome.kind, reason, nowMs() - delivery.dueAtMs);
  log.info(
    {
      delivery: delivery.id,
      channel: delivery.channel,
      outcome: outcome.kind,
      reason,
      ms: nowMs() - startedMs,
    },
    'delivery',
  );
  return {
    settlement: settlementOf(delivery, outcome, said, nowMs()),
    optOut: reason === 'opted-out' ? optOutOf(delivery, nowMs()) : null,
  };
}

function contactOf({ view }: SendDeps, delivery: ClaimedDelivery): Contact | null {
  return view(delivery.site)?.contacts.find(({ id }) => id === delivery.contact) ?? null;
}

function settlementOf(
  { id, token, tries }: ClaimedDelivery,
  outcome: Outcome,
  said: string | null,
  atMs: number,
): Settlement {
  const base = { id, token, atMs, said };
  switch (outcome.kind) {
    case 'sent':
      return { ...base, outcome: 'sent', detail: outcome.reference };
    case 'failed':
    case 'uncertain':
      return { ...base, outcome: outcome.kind, detail: `${outcome.reason}: ${outcome.detail}` };
    case 'retry': {
      // After so many tries the next way is the better one.
      if (tries >= MOST_TRIES) {
        return { ...base, outcome: 'failed', detail: `${outcome.reason}: ${outcome.detail}` };
      }
      const waitMs = Math.max(outcome.afterMs ?? 0, pauseMs(tries));
      return {
        ...base,
        outcome: 'again',
        notBeforeMs: atMs + waitMs,
        detail: `${outcome.reason}: ${outcome.detail}`,
      };
    }
  }
}

const MOST_TRIES = 6;

/** 1, 2, 4 … seconds, at most a minute. */
const pauseMs = (tries: number): number => Math.min(MINUTE_MS, 1000 * 2 ** Math.min(tries, 6));

const optOutOf = ({ site, contact, to }: ClaimedDelivery, atMs: number): OptOut => ({
  organisation: site.slice(0, site.indexOf('/')),
  contact,
  address: to,
  optedOutAtMs: atMs,
  word: '(told by the network)',
});
