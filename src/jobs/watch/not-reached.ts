// Whom of the crew a warning could not be brought by any of their ways, told to the office; whether or not a fire burns yet.

import type { Contact } from '#core/notices/contact.ts';
import type { Message } from '#core/notices/message.ts';
import { isRelief } from '#core/notices/notice.ts';
import type { Audience } from '#core/notices/who-is-told.ts';
import type { MessageThread } from '#store/watch/records.ts';
import { officeMessage } from './office-message.ts';

/**
 * Of those who opted out the office was told when they did; where nobody of the crew has it because of them, it is told of
 * the warning too. One that asks for an answer says by itself that none came.
 */
export function notReached(
  { message, deliveries }: Pick<MessageThread, 'message' | 'deliveries'>,
  { contacts }: Audience,
  nowMs: number,
  hash: (text: string) => string,
): Message[] {
  if (!isWarning(message)) return [];
  const { site, verdict, id } = message;
  const crew = contacts.filter(({ role }) => role === 'crew');
  const missed = crew.filter((contact) => isMissed(contact, deliveries));
  const told = crew.filter((contact) => deliveries.some((d) => d.contact === contact.id));
  const nobodyHasIt = !message.needsAnswer && missed.length === told.length;
  return missed
    .filter(({ optedOutAtMs }) => optedOutAtMs === null || nobodyHasIt)
    .map((contact) =>
      officeMessage(
        { site, verdict, of: `${id} ${contact.id}` },
        { what: 'not-delivered', contact: contact.id, about: id, detail: null },
        nowMs,
        hash,
      ),
    );
}

function isMissed(contact: Contact, deliveries: MessageThread['deliveries']): boolean {
  const own = deliveries.filter((d) => d.contact === contact.id);
  const failed = new Set(own.filter(({ outcome }) => outcome === 'failed').map(({ way }) => way));
  const isOut = contact.optedOutAtMs !== null || failed.size >= contact.ways.length;
  return own.length > 0 && own.every(({ outcome }) => outcome === 'failed') && isOut;
}

/** That something is over harms nobody who does not hear of it. */
function isWarning({ kind, needsAnswer, transitions }: Message): boolean {
  if (needsAnswer || kind === 'evening' || kind === 'dawn') return true;
  return kind === 'notice' && transitions.some((t) => !isRelief(t));
}
