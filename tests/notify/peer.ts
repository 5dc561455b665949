// A real HTTP peer on a free port of this machine, plain or TLS, that keeps what it was sent.

import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { createServer as createTlsServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { SERVER_TLS } from './deps.ts';

export interface Asked {
  readonly method: string;
  readonly path: string;
  readonly headers: IncomingMessage['headers'];
  readonly body: Buffer;
}

export type Answer = (response: ServerResponse, asked: Asked, count: number) => void;

export interface Peer {
  readonly port: number;
  readonly origin: string;
  readonly asked: Asked[];
  /** Resolves with the request of that number (from 1), once its body is there. */
  request(count: number): Promise<Asked>;
  connections(): number;
  close(): Promise<void>;
}

export async function peer(answer: Answer, scheme: 'http' | 'https' = 'http'): Promise<Peer> {
  const asked: Asked[] = [];
  const waits: { count: number; resolve: (asked: Asked) => void }[] = [];
  let connections = 0;
  const listener = (request: IncomingMessage, response: ServerResponse) => {
    const chunks: Buffer[] = [];
    request.on('data', (chunk: Buffer) => chunks.push(chunk));
    request.on('error', () => undefined);
    response.on('error', () => undefined);
    request.on('end', () => {
      const one = {
        method: request.method ?? '',
        path: request.url ?? '',
        headers: request.headers,
        body: Buffer.concat(chunks),
      };
      asked.push(one);
      for (const wait of waits) if (wait.count === asked.length) wait.resolve(one);
      answer(response, one, asked.length);
    });
  };
  const server = scheme === 'https' ? createTlsServer(SERVER_TLS, listener) : createServer(listener);
  server.on('connection', () => {
    connections += 1;
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  return {
    port,
    origin: `${scheme}://127.0.0.1:${port}`,
    asked,
    request: (count) => {
      const there = asked[count - 1];
      if (there !== undefined) return Promise.resolve(there);
      return new Promise((resolve) => {
        waits.push({ count, resolve });
      });
    },
    connections: () => connections,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

/** Answers with a body, JSON unless it is text. */
export function answerWith(
  response: ServerResponse,
  status: number,
  body: unknown = '',
  headers: Record<string, string> = {},
): void {
  response.writeHead(status, headers);
  response.end(typeof body === 'string' ? body : JSON.stringify(body));
}

/** On this machine anything may be called in tests. */
export const LOOPBACK = { allow: ['127.0.0.0/8'], ports: [443] };
