// Somebody who listens to a stream, without a connection: what came, and what became of it. No test in here.

import type { Listener } from '#publish/api/listeners.ts';

export function invented(waitingBytes = 0) {
  const heard: string[] = [];
  const taken: (() => void)[] = [];
  const listener: Listener & { waitingBytes: number } = {
    waitingBytes,
    write: (text) => void heard.push(text),
    end: () => void heard.push('END'),
    drop: () => void heard.push('DROPPED'),
    onTaken: (then) => void taken.push(then),
  };
  /** Reads all that waits. */
  const takes = (): void => {
    listener.waitingBytes = 0;
    for (const then of taken) then();
  };
  return { heard, listener, takes };
}

export interface Message {
  readonly id: string | null;
  readonly event: string;
  readonly data: string;
}

/** As the standard has it read (WHATWG HTML, 9.2.6), as far as these streams use it. */
export const messagesIn = (heard: readonly string[]): Message[] =>
  heard
    .join('')
    .split('\n\n')
    .flatMap((block) => {
      const field = (name: string) =>
        block
          .split('\n')
          .find((line) => line.startsWith(`${name}: `))
          ?.slice(name.length + 2);
      const data = field('data');
      return data === undefined
        ? []
        : [{ id: field('id') ?? null, event: field('event') ?? 'message', data }];
    });
