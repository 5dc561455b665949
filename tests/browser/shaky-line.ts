// A line between a phone and the service that can be cut, lose an answer, or change it on the way. No test in here.

import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { FastifyInstance } from 'fastify';

export interface ShakyLine {
  readonly base: string;
  /** Requests that came through, as `METHOD path`. */
  readonly asked: string[];
  /** Answers to requests that fit are lost after the service has given them. */
  lose: RegExp | null;
  /** What comes instead of the body. */
  change: (path: string, body: string) => string;
  /** What is answered in place of the service; null: it answers. */
  instead: (line: string) => { readonly status: number; readonly body: string } | null;
  cut(): Promise<void>;
  mend(): Promise<void>;
  close(): Promise<void>;
}

export async function startShakyLine(app: FastifyInstance): Promise<ShakyLine> {
  let server: Server | null = null;
  let port = 0;
  const handle = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk as Buffer);
    const { method = 'GET', url = '/', headers } = request;
    const asked = `${method} ${url}`;
    line.asked.push(asked);
    const other = line.instead(asked);
    if (other !== null) {
      response.writeHead(other.status, { 'content-type': 'application/problem+json' }).end(other.body);
      return;
    }
    const isStream = url.includes('/now/stream');
    const payload = Buffer.concat(chunks);
    const given = { method: method as 'GET', url, headers, ...(payload.length > 0 ? { payload } : {}) };
    if (isStream) {
      const streamed = await app.inject({ ...given, payloadAsStream: true });
      response.writeHead(streamed.statusCode, streamed.headers as Record<string, string>);
      const stream = streamed.stream();
      stream.pipe(response);
      response.on('close', () => stream.destroy());
      return;
    }
    // As it stood when it was asked: the service may be seen to have written before its answer is out.
    const isLost = line.lose?.test(asked) ?? false;
    const answer = await app.inject(given);
    if (isLost) {
      response.destroy();
      return;
    }
    const { 'content-length': _, 'transfer-encoding': __, connection: ___, ...heads } = answer.headers;
    response.writeHead(answer.statusCode, heads as Record<string, string>);
    response.end(line.change(url, answer.body));
  };
  const listen = (): Promise<void> =>
    new Promise((resolve) => {
      const made = createServer((request, response) => {
        handle(request, response).catch(() => response.destroy());
      });
      server = made.listen(port, '127.0.0.1', () => {
        port = (made.address() as AddressInfo).port;
        resolve();
      });
    });
  const cut = (): Promise<void> =>
    new Promise((resolve) => {
      const was = server;
      server = null;
      if (was === null) return resolve();
      was.close(() => resolve());
      was.closeAllConnections();
    });
  const line: ShakyLine = {
    get base() {
      return `http://127.0.0.1:${port}`;
    },
    asked: [],
    lose: null,
    change: (_path, body) => body,
    instead: () => null,
    cut,
    mend: listen,
    close: cut,
  };
  await listen();
  return line;
}
