// Notices after an answer: who has it, since when. The notice itself stands as it stood.

import type { Answer } from './answer.ts';
import type { Message } from './message.ts';
import type { Notice } from './notice.ts';

/** Only what the message told last of each notice is acknowledged: a worsening since then is not. */
export function markAcknowledged(
  notices: readonly Notice[],
  message: Message,
  answer: Answer,
): readonly Notice[] {
  if (answer.message !== message.id || answer.said !== 'got-it') return notices;
  return notices.map((n) => {
    const told = message.transitions.some(
      (t) => t.notice === n.key && t.episode === n.episode && t.number === n.number,
    );
    if (!told || n.acknowledgedAtMs !== null || n.phase === 'quiet') return n;
    return { ...n, acknowledgedAtMs: answer.atMs, acknowledgedBy: answer.contact };
  });
}
