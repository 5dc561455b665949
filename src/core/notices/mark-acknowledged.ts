// Notices after an answer: who has it, since when; or nobody any more. The notice itself stands as it stood.

import type { OpenMessage } from './acknowledge.ts';
import { answersOfPart } from './answers-of-part.ts';
import { takenBy } from './last-answers.ts';
import type { Notice } from './notice.ts';

/**
 * Only what the message told last of each notice is acknowledged, and told whoever answered: neither a worsening since then
 * is, nor what a silence kept from them. Of `answers` those to that message count.
 */
export function markAcknowledged(notices: readonly Notice[], thread: OpenMessage): readonly Notice[] {
  const { message, deliveries } = thread;
  const answers = thread.answers.filter((answer) => answer.message === message.id);
  if (answers.length === 0) return notices;
  return notices.map((n) => {
    const part = message.transitions.findIndex(
      (t) => t.notice === n.key && t.episode === n.episode && t.number === n.number,
    );
    if (part < 0 || n.phase === 'quiet') return n;
    const taken = takenBy(answersOfPart({ message, deliveries, answers }, part));
    // Who had it first stays named, while somebody has it.
    if ((n.acknowledgedAtMs !== null) === (taken !== null)) return n;
    return { ...n, acknowledgedAtMs: taken?.atMs ?? null, acknowledgedBy: taken?.contact ?? null };
  });
}
