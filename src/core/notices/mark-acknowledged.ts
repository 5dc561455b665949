// Notices after an answer: who has it, since when; or nobody any more. The notice itself stands as it stood.

import type { Answer } from './answer.ts';
import { answersThatCount } from './answers-that-count.ts';
import { takenBy } from './last-answers.ts';
import type { Message } from './message.ts';
import type { Notice } from './notice.ts';

/**
 * Only what the message told last of each notice is acknowledged: a worsening since then is not. `answers` are all to that
 * message.
 */
export function markAcknowledged(
  notices: readonly Notice[],
  message: Message,
  answers: readonly Answer[],
): readonly Notice[] {
  const own = answers.filter((answer) => answer.message === message.id);
  const taken = takenBy(answersThatCount(message, own));
  if (own.length === 0) return notices;
  return notices.map((n) => {
    const told = message.transitions.some(
      (t) => t.notice === n.key && t.episode === n.episode && t.number === n.number,
    );
    // Who had it first stays named, while somebody has it.
    if (!told || n.phase === 'quiet' || (n.acknowledgedAtMs !== null) === (taken !== null)) return n;
    return { ...n, acknowledgedAtMs: taken?.atMs ?? null, acknowledgedBy: taken?.contact ?? null };
  });
}
