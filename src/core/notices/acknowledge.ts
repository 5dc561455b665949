// Which message an answer that came in is an answer to. Forged and repeated ones are answers to none, and leave everything
// as it is: a text that goes on being sent does less harm than one that is taken for answered. One that comes when its
// message has ended is kept with it: whoever cannot must be heard, however late.

import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Answer, Said } from './answer.ts';
import type { Contact } from './contact.ts';
import { type Delivery, mayHaveArrived } from './delivery.ts';
import type { Message } from './message.ts';

/** Who says it, and how that is known. */
export type AnswerFrom =
  /** A text came in from this address over this channel. */
  | { readonly via: 'digit'; readonly channel: string; readonly address: string }
  /** Somebody pressed the button of the page to which only this contact's text leads. */
  | { readonly via: 'link'; readonly message: string; readonly contact: string }
  /** A key that may do so named the message. */
  | { readonly via: 'api'; readonly message: string; readonly by: string };

export interface Incoming {
  readonly id: string;
  readonly from: AnswerFrom;
  readonly said: Said;
  /** When it was said, as its channel tells; null where it does not [epoch ms]. */
  readonly atMs: number | null;
  readonly receivedAtMs: number;
}

export type WhyNoAnswer =
  | 'replay'
  | 'unknown-sender'
  | 'never-told'
  | 'nothing-open'
  | 'too-old'
  | 'ahead-of-time';

export interface OpenMessage {
  readonly message: Message;
  readonly deliveries: readonly Delivery[];
  readonly answers: readonly Answer[];
}

export interface AcknowledgeInput {
  readonly incoming: Incoming;
  /** Of the site's organisation: within it alone is a contact known by its id. */
  contactsOf(site: string): readonly Contact[];
  /** Every message that may still be answered, of all organisations. */
  readonly open: readonly OpenMessage[];
  /** Messages that have ended. */
  readonly ended?: readonly OpenMessage[];
  /** Ids of answers that came before. */
  readonly seen: ReadonlySet<string>;
}

export type Acknowledged =
  | { readonly answers: readonly Answer[] }
  | { readonly answers: readonly []; readonly why: WhyNoAnswer };

/** A provider's clock may be ahead by so much, and a text may come so late. */
const AHEAD_MS = 5 * MINUTE_MS;
const LATE_MS = 30 * MINUTE_MS;
/** So far the provider's clock and ours may differ: what was said so much before we sent is still no answer to it. */
const CLOCKS_DIFFER_MS = MINUTE_MS;
/** Nobody reads a text and answers it in less: that is an answer to one before. */
const READ_MS = 3000;
/** A digit still means a text of so long ago; later it is about nothing. Ours: no source. */
const MEANT_MS = 12 * HOUR_MS;

export function acknowledge({
  incoming,
  contactsOf,
  open,
  ended = [],
  seen,
}: AcknowledgeInput): Acknowledged {
  const { id, from, receivedAtMs } = incoming;
  const none = (why: WhyNoAnswer): Acknowledged => ({ answers: [], why });
  const all = [...open, ...ended];
  if (seen.has(id) || all.some(({ answers }) => answers.some((a) => a.id === id))) return none('replay');
  const atMs = incoming.atMs ?? receivedAtMs;
  if (atMs > receivedAtMs + AHEAD_MS) return none('ahead-of-time');
  if (atMs < receivedAtMs - LATE_MS) return none('too-old');
  const asking = all.filter(({ message }) => message.needsAnswer);
  const answerBy = (contact: string, { message }: OpenMessage, i: number): Answer => ({
    id: i === 0 ? id : `${id} ${i}`,
    message: message.id,
    site: message.site,
    contact,
    said: incoming.said,
    via: from.via,
    atMs: Math.min(atMs, receivedAtMs),
    receivedAtMs,
  });
  if (from.via === 'api') {
    const named = asking.filter(({ message }) => message.id === from.message);
    return named.length === 0
      ? none('nothing-open')
      : { answers: named.map((m, i) => answerBy(from.by, m, i)) };
  }
  if (asking.length === 0) return none('nothing-open');
  const saidMs = Math.min(atMs + CLOCKS_DIFFER_MS, receivedAtMs);
  const theirs = asking.flatMap((one) =>
    contactsOf(one.message.site)
      .filter((contact) => isFrom(contact, from))
      .map((contact) => ({ contact, one })),
  );
  if (theirs.length === 0) return none('unknown-sender');
  const told = theirs.flatMap(({ contact, one }) => {
    const toldAtMs = toldBefore(one, contact, from, saidMs);
    return toldAtMs === null ? [] : [{ contact, one, toldAtMs }];
  });
  const meant = meantBy(told, open, from.via, receivedAtMs);
  return meant.length === 0
    ? none('never-told')
    : { answers: meant.map(({ one, contact }, i) => answerBy(contact.id, one, i)) };
}

interface ToldOf {
  readonly contact: Contact;
  readonly one: OpenMessage;
  readonly toldAtMs: number;
}

/**
 * One digit answers what this person was told last, in whichever organisation, and all else of that site to which they
 * have said nothing yet. Where that has ended it answers that alone: what was told before it was not meant. Of two told at
 * one moment the open one is the later.
 */
function meantBy(
  told: readonly ToldOf[],
  open: readonly OpenMessage[],
  via: Answer['via'],
  nowMs: number,
): readonly ToldOf[] {
  const opened = new Set(open);
  const isCurrent = ({ one }: ToldOf): boolean => opened.has(one) && nowMs <= one.message.validUntilMs;
  const current = told.filter(isCurrent);
  const over = told.filter((t) => !isCurrent(t) && (via === 'link' || nowMs - t.toldAtMs <= MEANT_MS));
  const newest = [...current, ...over].toSorted((a, b) => b.toldAtMs - a.toldAtMs)[0];
  if (newest === undefined) return [];
  if (!isCurrent(newest)) return [newest];
  const isUnsaid = ({ one, contact }: ToldOf): boolean =>
    !one.answers.some((answer) => answer.contact === contact.id);
  return current.filter(
    (t) =>
      t.contact.id === newest.contact.id &&
      t.one.message.site === newest.one.message.site &&
      (t === newest || isUnsaid(t)),
  );
}

const isFrom = (contact: Contact, from: Exclude<AnswerFrom, { via: 'api' }>): boolean =>
  from.via === 'link'
    ? contact.id === from.contact
    : contact.ways.some((way) => way.channel === from.channel && way.to === from.address);

/**
 * When the person was last told of it by what they answer, before they answered; null: never. Who follows the link has
 * the text, whatever became of its sending.
 */
function toldBefore(
  { message, deliveries }: OpenMessage,
  contact: Contact,
  from: Exclude<AnswerFrom, { via: 'api' }>,
  saidMs: number,
): number | null {
  const own = deliveries.filter((d) => d.message === message.id && d.contact === contact.id && d.asked);
  if (from.via === 'link') return from.message === message.id && own.length > 0 ? saidMs : null;
  const times = own
    .filter((d) => d.channel === from.channel && d.to === from.address && d.triedAtMs !== null)
    .filter((d) => d.outcome === null || mayHaveArrived(d))
    .map((d) => d.triedAtMs as number)
    .filter((triedAtMs) => triedAtMs + READ_MS <= saidMs);
  return times.length === 0 ? null : Math.max(...times);
}
