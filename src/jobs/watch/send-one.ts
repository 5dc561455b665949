// One delivery handed over to its channel, and what came of it as it is kept.

import type { Contact } from '#core/notices/contact.ts';
import { isAnswered } from '#core/notices/last-answers.ts';
import type { Message } from '#core/notices/message.ts';
import { wentAnotherWay } from '#core/notices/put-off.ts';
import { isInForce } from '#core/notices/silence.ts';
import { stillToSend } from '#core/notices/still-to-send.ts';
import { isNewest } from '#core/notices/who-is-told.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { messageOf } from '#errors.ts';
import type { Outcome } from '#notify/channel.ts';
import type { ClaimedDelivery, MessageThread, OptOut, Settlement } from '#store/watch/records.ts';
import type { AudienceNow } from './audiences.ts';
import { dayTextNow } from './day-text-now.ts';
import type { SendDeps } from './send-deps.ts';

export interface ToSend {
  readonly delivery: ClaimedDelivery;
  readonly thread: MessageThread | null;
  readonly audience: AudienceNow | null;
  /** The message that nobody has, or has answered, where this one says so to the office. */
  readonly about: MessageThread | null;
}

export interface Sent {
  readonly delivery: ClaimedDelivery;
  readonly settlement: Settlement;
  /** Where the network says that this person takes no texts of ours. */
  readonly optOut: OptOut | null;
}

export async function sendOne(
  deps: SendDeps,
  { delivery, thread: kept, audience, about }: ToSend,
  signal: AbortSignal,
): Promise<Sent> {
  const { log, nowMs, counted } = deps;
  const startedMs = nowMs();
  const contact = audience?.contacts.find(({ id }) => id === delivery.contact) ?? null;
  const base = { id: delivery.id, token: delivery.token, said: null };
  let toSay = delivery;
  const message = kept && (await dayTextNow(deps, kept.message));
  const thread = kept && message && { ...kept, message };
  if (kept !== null && thread === null)
    return {
      delivery,
      settlement: heldBack(delivery, startedMs + MINUTE_MS, startedMs, 'no plan'),
      optOut: null,
    };
  if (thread !== null && audience !== null) {
    // Looked at last of all: what was answered, taken back or followed by something newer meanwhile is not sent.
    const { answers } = thread;
    const still = stillToSend(
      delivery,
      thread.message,
      answers,
      audience,
      startedMs,
      unansweredOf(delivery, thread, about),
    );
    if ('heldUntilMs' in still)
      return { delivery, settlement: heldBack(delivery, still.heldUntilMs, startedMs), optOut: null };
    if ('outcome' in still)
      return { delivery, settlement: { ...base, ...still, atMs: startedMs }, optOut: null };
    toSay = { ...delivery, parts: still.parts };
    const detail = needlessBy(delivery, thread, about, audience, startedMs);
    if (detail !== null) {
      const settlement = { ...base, outcome: 'superseded', detail, atMs: startedMs } as const;
      return { delivery, settlement, optOut: null };
    }
    if (contact !== null && contact.optedOutAtMs !== null) {
      counted.delivered(delivery.channel, 'failed', 'opted-out', startedMs - delivery.dueAtMs);
      const refused = { ...base, outcome: 'failed', detail: 'opted-out', atMs: startedMs } as const;
      return { delivery, settlement: refused, optOut: null };
    }
  }
  const { outcome, said } = await handOver(
    deps,
    { delivery: toSay, thread, audience, about },
    contact,
    signal,
  );
  const reason = outcome.kind === 'sent' ? null : outcome.reason;
  counted.delivered(delivery.channel, outcome.kind, reason, nowMs() - delivery.dueAtMs);
  const { id, channel } = delivery;
  log.info({ delivery: id, channel, outcome: outcome.kind, reason, ms: nowMs() - startedMs }, 'delivery');
  return {
    delivery,
    settlement: settlementOf(toSay, outcome, said, nowMs()),
    optOut: reason === 'opted-out' ? optOutOf(delivery, nowMs()) : null,
  };
}

/** Silenced with the warning that it is about: that nobody has answered, and whatever is made up for. */
function unansweredOf(
  { repeat }: ClaimedDelivery,
  { message }: MessageThread,
  about: MessageThread | null,
): Message | null {
  const isOfOffice = message.kind === 'office' && (message.matter.what === 'not-answered' || repeat > 0);
  return isOfOffice ? (about?.message ?? null) : null;
}

/** Null where it is still of use. */
function needlessBy(
  delivery: ClaimedDelivery,
  { deliveries }: MessageThread,
  about: MessageThread | null,
  audience: AudienceNow,
  nowMs: number,
): string | null {
  if (wentAnotherWay(delivery, deliveries)) return 'told by another way';
  return delivery.repeat > 0 && about !== null && isSeenTo(about, audience, nowMs) ? 'seen to by now' : null;
}

/** What failed to be told is told once more only while it matters. */
function isSeenTo({ message, answers }: MessageThread, { newest }: AudienceNow, nowMs: number): boolean {
  const { transitions, validUntilMs } = message;
  const isOver = transitions.length > 0 && !transitions.some((t) => isNewest(t, newest));
  return isOver || isAnswered(answers) || (transitions.length === 0 && nowMs > validUntilMs);
}

/** It counts as no try: nobody was asked to take it. */
const heldBack = (
  { id, token, wasTried }: ClaimedDelivery,
  notBeforeMs: number,
  atMs: number,
  detail = 'silenced',
): Settlement => ({
  ...{ id, token, atMs, said: null, notBeforeMs },
  ...{ outcome: 'again', isUntried: true, wasTried, detail },
});

async function handOver(
  deps: SendDeps,
  { delivery, thread, audience }: ToSend,
  contact: Contact | null,
  signal: AbortSignal,
): Promise<{ outcome: Outcome; said: string | null }> {
  let said: string | null = null;
  try {
    const channel = deps.channel(delivery.channel);
    if (thread === null || contact === null || channel === null) {
      const detail =
        channel === null ? `no channel "${delivery.channel}"` : 'whom it was for is no longer there';
      return { outcome: { kind: 'failed', reason: 'bad-address', permanent: 'way', detail }, said };
    }
    const now = {
      burnOpen: audience?.burnOpen ?? false,
      standing: audience?.standing ?? null,
      silences: (audience?.silences ?? []).filter((silence) => isInForce(silence, deps.nowMs())),
    };
    const words = deps.say(thread.message, delivery, contact, deps.view(delivery.site), now);
    said = words.text;
    const outcome = await channel.send(
      {
        // Ours names people and ways; what goes out must fit a header and name nobody.
        id: deps.hash(delivery.id),
        to: delivery.to,
        ...words,
        topic: topicOf(thread.message),
        validUntilMs: delivery.validUntilMs,
        urgency: delivery.urgency <= 1 ? 'high' : 'normal',
      },
      AbortSignal.any([signal, AbortSignal.timeout(deps.times.sendTimeoutMs)]),
    );
    return { outcome, said };
  } catch (fault) {
    // A channel never throws; where one does, it may have been sent.
    return { outcome: { kind: 'uncertain', reason: 'internal', detail: messageOf(fault) }, said };
  }
}

/**
 * What is worse is replaced by nothing that is less; each stop arrives. What somebody did or wrote is replaced by itself alone,
 * told once more.
 */
function topicOf({ id, site, kind, verdict }: Message): string | null {
  if (verdict === 'stop') return null;
  return kind === 'office' || kind === 'burn' ? `${site} ${kind} ${id}` : `${site} ${kind} ${verdict}`;
}

function settlementOf(
  { id, token, tries, parts }: ClaimedDelivery,
  outcome: Outcome,
  said: string | null,
  atMs: number,
): Settlement {
  const base = { id, token, atMs, said };
  switch (outcome.kind) {
    case 'sent':
      return { ...base, outcome: 'sent', parts, detail: outcome.reference };
    case 'failed':
    case 'uncertain':
      return { ...base, outcome: outcome.kind, parts, detail: `${outcome.reason}: ${outcome.detail}` };
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
