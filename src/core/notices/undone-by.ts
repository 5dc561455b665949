// The last "cannot" that took a message from somebody who had it: since then it is asked anew.

import type { Answer } from './answer.ts';

/** Its id; null where there was none. By their coming in, and at one moment the worse. */
export function undoneBy(answers: readonly Answer[]): string | null {
  const worse = ({ said }: Answer): number => Number(said === 'cannot');
  const inOrder = answers.toSorted((a, b) => a.receivedAtMs - b.receivedAtMs || worse(a) - worse(b));
  let isHad = false;
  let last: string | null = null;
  for (const { id, said } of inOrder) {
    if (isHad && said === 'cannot') last = id;
    isHad = said === 'got-it';
  }
  return last;
}
