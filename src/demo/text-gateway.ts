// A stand-in for a text gateway on this machine's loopback: no text leaves it. It shows what the invented phones got.

import type { IncomingMessage, ServerResponse } from 'node:http';

// Not imported: that would ask for all that the module has, and load a WebSocket client of the runtime with it.
const { createServer } = process.getBuiltinModule('node:http');

export interface GotText {
  /** The same for a repeat of the same text, which is kept once. */
  readonly id: string;
  readonly to: string;
  readonly text: string;
  readonly atMs: number;
}

export interface TextGateway {
  /** Where texts are handed over; the page of the phones is at `/` beside it. */
  readonly url: string;
  /** The newest last. */
  readonly texts: readonly GotText[];
  close(): Promise<void>;
}

const MOST_TEXTS = 500;
const MOST_BYTES = 8192;

export async function startTextGateway(nowMs: () => number): Promise<TextGateway> {
  const texts: GotText[] = [];
  const server = createServer((request, response) => {
    answer(request, response, texts, nowMs).catch(() => response.destroy());
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(0, '127.0.0.1', resolve);
  });
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  return {
    url: `http://127.0.0.1:${port}/texts`,
    texts,
    async close() {
      if (!server.listening) return;
      const closed = new Promise((resolve) => server.close(resolve));
      server.closeAllConnections();
      await closed;
    },
  };
}

async function answer(
  request: IncomingMessage,
  response: ServerResponse,
  texts: GotText[],
  nowMs: () => number,
): Promise<void> {
  if (request.method === 'GET' && request.url === '/') return shown(response, texts);
  if (request.method !== 'POST' || request.url !== '/texts')
    return json(response, 404, { error: 'not found' });
  const text = read(await bodyOf(request), nowMs());
  if (text === null) return json(response, 400, { error: 'expected id, to and text' });
  const known = texts.some(({ id }) => id === text.id);
  if (!known) texts.push(text);
  if (texts.length > MOST_TEXTS) texts.shift();
  return json(response, 200, { ref: `demo-${text.id}` });
}

/** Null where there is too much of it. */
async function bodyOf(request: IncomingMessage): Promise<string | null> {
  const parts: Buffer[] = [];
  let bytes = 0;
  for await (const part of request) {
    bytes += (part as Buffer).byteLength;
    if (bytes <= MOST_BYTES) parts.push(part as Buffer);
  }
  return bytes > MOST_BYTES ? null : Buffer.concat(parts).toString('utf8');
}

function read(body: string | null, atMs: number): GotText | null {
  try {
    const told = JSON.parse(body ?? '') as Record<string, unknown>;
    const { id, to, text } = told;
    return typeof id === 'string' && typeof to === 'string' && typeof text === 'string'
      ? { id, to, text, atMs }
      : null;
  } catch {
    return null;
  }
}

function json(response: ServerResponse, status: number, body: unknown): void {
  response.writeHead(status, { 'content-type': 'application/json' });
  response.end(JSON.stringify(body));
}

function shown(response: ServerResponse, texts: readonly GotText[]): void {
  const lines = texts.map(({ atMs, to, text }) => `${new Date(atMs).toISOString()}  ${to}\n  ${text}\n`);
  response.writeHead(200, { 'content-type': 'text/plain; charset=utf-8' });
  response.end(`DEMO: what the invented phones got, oldest first\n\n${lines.join('\n') || 'Nothing yet.\n'}`);
}
