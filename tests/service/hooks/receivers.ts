// Receivers of one test file, closed after each test; and how they answer.

import type { ServerResponse } from 'node:http';
import { afterEach } from 'vitest';
import { WAITS_MS } from '#core/events/hook-step.ts';
import type { AuditRow } from '#store/api-key.ts';
import { SECRET } from '../../builders/hooks.ts';
import { answerWith } from '../../notify/peer.ts';
import type { Stores } from '../../store/on-each-store.ts';
import { type Hooked, hookedOver } from './hooked.ts';
import { type Receiver, startReceiver } from './receiver.ts';

export function useReceivers({ open }: Pick<Stores, 'open'>) {
  const receivers: Receiver[] = [];
  afterEach(async () => {
    await Promise.all(receivers.splice(0).map((receiver) => receiver.close()));
  });
  return {
    begin: async (): Promise<Hooked> => hookedOver(await open({ sqliteFile: ':memory:' })),
    async receiving(answer: Receiver['answer'] = null): Promise<Receiver> {
      const receiver = await startReceiver();
      receiver.secrets = [SECRET];
      receiver.answer = answer;
      receivers.push(receiver);
      return receiver;
    },
  };
}

export const status =
  (code: number, headers: Record<string, string> = {}) =>
  (response: ServerResponse): void =>
    answerWith(response, code, '', headers);

export const hangs = (): void => undefined;

export const numbers = (first: number, last: number): string[] =>
  Array.from({ length: last - first + 1 }, (_, i) => String(first + i));

/** What it waits after so many failures, where chance is in the middle. */
export const wait = (failures: number): number => (WAITS_MS[failures - 1] ?? WAITS_MS.at(-1) ?? 0) * 0.75;

export const MOVED: AuditRow = {
  atMs: 0,
  organisation: 'fern-hollow',
  who: 'office',
  what: 'subscription-replayed',
  subject: 'subscription',
  detail: null,
};
