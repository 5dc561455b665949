// The last word of each person: who had it and then cannot has it no more.

import type { Answer } from './answer.ts';

export function lastAnswers(answers: readonly Answer[]): Answer[] {
  const inOrder = answers.toSorted((a, b) => a.atMs - b.atMs || (a.id < b.id ? -1 : 1));
  return [...new Map(inOrder.map((answer) => [answer.contact, answer])).values()];
}

/** True where somebody has it. */
export const isAnswered = (answers: readonly Answer[]): boolean =>
  lastAnswers(answers).some(({ said }) => said === 'got-it');
