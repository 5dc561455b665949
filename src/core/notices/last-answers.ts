// The last word of each person, and whether somebody has it: who had it and then cannot has it no more, and a "cannot" that
// comes after somebody else's "got it" is no part of what that one took on.

import type { Answer } from './answer.ts';

export function lastAnswers(answers: readonly Answer[]): Answer[] {
  const inOrder = answers.toSorted((a, b) => a.atMs - b.atMs || (a.id < b.id ? -1 : 1));
  return [...new Map(inOrder.map((answer) => [answer.contact, answer])).values()];
}

/** True where somebody has it, and nobody has said since that it cannot be done. By their coming in, and at one moment the worse. */
export const isAnswered = (answers: readonly Answer[]): boolean => takenBy(answers) !== null;

/** The first answer by which somebody has it since the last that it cannot be done; null: nobody has. */
export function takenBy(answers: readonly Answer[]): Answer | null {
  const last = lastAnswers(answers);
  const refusedMs = Math.max(
    ...last.filter(({ said }) => said === 'cannot').map(({ receivedAtMs }) => receivedAtMs),
  );
  const taken = last.filter(({ said, receivedAtMs }) => said === 'got-it' && receivedAtMs > refusedMs);
  return taken.toSorted((a, b) => a.receivedAtMs - b.receivedAtMs)[0] ?? null;
}
