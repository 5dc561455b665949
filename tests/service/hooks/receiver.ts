// A program of a dispatch centre as its makers would write it: it verifies with the public library of Standard Webhooks, and
// knows a repeat by its id.

import type { ServerResponse } from 'node:http';
import { Webhook } from 'standardwebhooks';
import { type Asked, peer } from '../../notify/peer.ts';

export interface Received {
  readonly id: string;
  /** In the order in which they came, repeats too. */
  readonly body: {
    readonly type: string;
    readonly timestamp: string;
    readonly data: Record<string, unknown>;
  };
  readonly headers: Asked['headers'];
  readonly raw: string;
}

export interface Receiver {
  readonly url: string;
  readonly got: Received[];
  /** Secrets by which it verifies; none: it does not. */
  secrets: string[];
  /** Called before it answers. */
  before: ((count: number) => void) | null;
  /** What it answers; 200 where it is null. */
  answer: ((response: ServerResponse, count: number) => void) | null;
  /** What could not be verified. */
  readonly faults: string[];
  /** Resolves once so many distinct ids were taken. */
  until(count: number): Promise<void>;
  /** Resolves once so many requests came. */
  asked(count: number): Promise<void>;
  ids(): string[];
  close(): Promise<void>;
}

export async function startReceiver(): Promise<Receiver> {
  const got: Received[] = [];
  const faults: string[] = [];
  const waits: { count: number; done: () => void }[] = [];
  const taken = new Set<string>();
  const server = await peer((response, asked, count) => {
    const raw = asked.body.toString('utf8');
    const id = String(asked.headers['webhook-id']);
    for (const secret of receiver.secrets) {
      try {
        new Webhook(secret).verify(raw, asked.headers as Record<string, string>);
      } catch (fault) {
        faults.push(`${id}: ${String(fault)}`);
      }
    }
    receiver.before?.(count);
    if (receiver.answer) return receiver.answer(response, count);
    got.push({ id, body: JSON.parse(raw), headers: asked.headers, raw });
    taken.add(id);
    response.writeHead(200).end();
    for (const wait of waits) if (taken.size >= wait.count) wait.done();
  });
  const receiver: Receiver = {
    url: `${server.origin}/pits`,
    got,
    secrets: [],
    before: null,
    answer: null,
    faults,
    until: (count) =>
      taken.size >= count
        ? Promise.resolve()
        : new Promise((resolve) => {
            waits.push({ count, done: resolve });
          }),
    asked: async (count) => {
      await server.request(count);
    },
    ids: () => [...taken],
    close: server.close,
  };
  return receiver;
}
