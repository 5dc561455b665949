// One whole round of watching, as a process makes it: read, judge, keep, escalate, keep, claim, send, settle; with a seam
// between any two of them at which the process can be killed.

import { escalate } from '#core/notices/escalate.ts';
import { mergeMessage } from '#core/notices/merge-message.ts';
import { stepNotices } from '#core/notices/step-notices.ts';
import { stillToSend } from '#core/notices/still-to-send.ts';
import type { Condition } from '#core/watch/condition.ts';
import type { Store } from '#store/store.ts';
import { audienceOf, contactOf } from '../builders/contacts.ts';
import { SITE } from '../builders/notices.ts';

export const SEAMS = [
  'read',
  'judged',
  'kept',
  'asked whom',
  'due kept',
  'claimed',
  'sent',
  'settled',
] as const;
export type Seam = (typeof SEAMS)[number];

export interface Cycle {
  readonly store: Store;
  readonly nowMs: number;
  readonly conditions: readonly Condition[];
  /** Where it is killed; null: it goes through. */
  readonly killedAt: Seam | null;
  /** What the channel was given: the stable id, and what it says. */
  readonly channel: string[];
}

const CONTACTS = [contactOf('ana'), contactOf('ben', { step: 1 })];
const SENDING = { sendTimeoutMs: 1000, leaseMs: 5000, sendWithinMs: 60_000 };

class Killed extends Error {}

/** True where it went through. */
export async function cycle(given: Cycle): Promise<boolean> {
  try {
    await goThrough(given);
    return true;
  } catch (fault) {
    if (fault instanceof Killed) return false;
    throw fault;
  }
}

async function goThrough({ store, nowMs, conditions, killedAt, channel }: Cycle): Promise<void> {
  const seam = (name: Seam): void => {
    if (name === killedAt) throw new Killed();
  };
  const { watch } = store;
  const { version, notices } = await watch.state(SITE, nowMs - 86_400_000);
  seam('read');
  const stepped = stepNotices({
    site: SITE,
    notices,
    conditions,
    unlisted: () => 'dropped',
    burnOpen: true,
    nowMs,
  });
  const message = mergeMessage({
    ...stepped,
    site: SITE,
    burnOpen: true,
    nowMs,
    hash: (text) => text.replaceAll(' ', '_'),
  });
  seam('judged');
  await watch.commit([
    { site: SITE, replaces: version, ...stepped, messages: message === null ? [] : [message] },
  ]);
  seam('kept');
  const newest = new Map(stepped.notices.map((n) => [n.key, n]));
  for (const thread of await watch.openThreads(99)) {
    const heard = await watch.heard(thread.message.transitions);
    const { due } = escalate({ ...thread, audience: audienceOf(CONTACTS, { heard, newest }), nowMs });
    seam('asked whom');
    await watch.commit([{ site: SITE, replaces: null, deliveries: due }]);
  }
  seam('due kept');
  for (const claimed of await watch.claimDeliveries({ ...SENDING, worker: 'w', nowMs, most: 99 })) {
    seam('claimed');
    const thread = await watch.thread(claimed.message);
    if (thread === null) throw new Error('its message is not there');
    const still = stillToSend(claimed, thread.message, thread.answers, { newest, silences: [] }, nowMs);
    if ('parts' in still) {
      const kinds = still.parts.map((i) => thread.message.transitions[i]?.kind);
      channel.push(`${claimed.contact} ${kinds.join('+')} ${claimed.id}`);
      seam('sent');
    }
    if ('heldUntilMs' in still) throw new Error('there is no silence');
    const outcome = 'parts' in still ? 'sent' : still.outcome;
    await watch.settle([
      { id: claimed.id, token: claimed.token, atMs: nowMs, outcome, detail: null, said: null },
    ]);
  }
  seam('settled');
}
