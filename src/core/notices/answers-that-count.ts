// The answers by which a message is judged: all that came while it could be answered. Of later ones a "cannot" counts, and a
// "got it" is kept alone: what stands is told by another message by then.

import type { Answer } from './answer.ts';
import type { Message } from './message.ts';

export const answersThatCount = (
  { validUntilMs }: Pick<Message, 'validUntilMs'>,
  answers: readonly Answer[],
): readonly Answer[] =>
  answers.filter(({ said, receivedAtMs }) => said === 'cannot' || receivedAtMs <= validUntilMs);
