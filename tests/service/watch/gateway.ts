// A text gateway on loopback: takes JSON, answers with an id, and remembers what came.

import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface GatewayText {
  readonly id: string;
  readonly to: string;
  readonly text: string;
  /** When it came, on the process's own clock [ms]. */
  readonly atMs: number;
}

export interface Gateway {
  readonly texts: GatewayText[];
  readonly url: string;
  /** What the next requests are answered with; empty: 200. */
  readonly statuses: number[];
  close(): Promise<void>;
}

export async function startGateway(): Promise<Gateway> {
  const texts: GatewayText[] = [];
  const statuses: number[] = [];
  const server = createServer(async (request, response) => {
    const parts: Buffer[] = [];
    for await (const part of request) parts.push(part as Buffer);
    const status = statuses.shift() ?? 200;
    if (status === 200) {
      texts.push({ ...JSON.parse(Buffer.concat(parts).toString('utf8')), atMs: performance.now() });
    }
    response.writeHead(status, { 'content-type': 'application/json' });
    response.end(JSON.stringify({ ref: `g-${texts.length}` }));
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  return {
    texts,
    statuses,
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/texts`,
    async close() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}
