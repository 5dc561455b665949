// A text gateway on loopback: takes JSON, answers with an id, and remembers what came; and answers badly when told to.

import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface GatewayText {
  readonly id: string;
  readonly to: string;
  readonly text: string;
  /** When it came, on the process's own clock [ms]. */
  readonly atMs: number;
}

/** taken: whether the text goes out all the same. never: it keeps the connection and says nothing. */
export type BadAnswer =
  | {
      readonly status: number;
      readonly headers?: Readonly<Record<string, string>>;
      readonly body?: object;
      readonly taken?: boolean;
    }
  | { readonly never: true; readonly taken?: boolean };

export interface Gateway {
  /** What went out. */
  readonly texts: GatewayText[];
  /** What came, whatever it was answered. */
  readonly asked: GatewayText[];
  readonly url: string;
  /** How the next requests are answered; empty: 200, and the text goes out. */
  readonly bad: BadAnswer[];
  /** Numbers that it takes nothing for: 403; null: none. */
  refuses: ((to: string) => boolean) | null;
  close(): Promise<void>;
}

export async function startGateway(): Promise<Gateway> {
  const texts: GatewayText[] = [];
  const asked: GatewayText[] = [];
  const bad: BadAnswer[] = [];
  const server = createServer(async (request, response) => {
    const parts: Buffer[] = [];
    for await (const part of request) parts.push(part as Buffer);
    const text = { ...JSON.parse(Buffer.concat(parts).toString('utf8')), atMs: performance.now() };
    const otherwise: BadAnswer = gateway.refuses?.(text.to) ? { status: 403 } : { status: 200, taken: true };
    const answer: BadAnswer = bad.shift() ?? otherwise;
    asked.push(text);
    if (answer.taken === true) texts.push(text);
    if ('never' in answer) return;
    response.writeHead(answer.status, { 'content-type': 'application/json', ...answer.headers });
    response.end(JSON.stringify(answer.body ?? { ref: `g-${texts.length}` }));
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const gateway: Gateway = {
    texts,
    asked,
    bad,
    refuses: null,
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/texts`,
    async close() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
  return gateway;
}
