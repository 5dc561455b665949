// A real HTTP server on a free port of this machine, a clock that only sleeping moves, and a log that is a list.

import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { SourceLog } from '#sources/source.ts';

export interface Loopback {
  readonly origin: string;
  /** Every request so far: path and headers. */
  readonly seen: { readonly path: string; readonly headers: IncomingMessage['headers'] }[];
  close(): Promise<void>;
}

export type Handler = (response: ServerResponse, request: IncomingMessage, count: number) => void;

/** Serves with the handler; `count` is how many requests came, this one included. */
export async function serve(handler: Handler): Promise<Loopback> {
  const seen: Loopback['seen'] = [];
  const server = createServer((request, response) => {
    // Tests run on a clock of their own, which this machine's date would contradict.
    response.sendDate = false;
    seen.push({ path: request.url ?? '', headers: request.headers });
    handler(response, request, seen.length);
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  return {
    origin: `http://127.0.0.1:${port}`,
    seen,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

export const GEO_JSON = { 'content-type': 'application/geo+json' };

/** Answers with JSON. */
export function reply(
  response: ServerResponse,
  status: number,
  body: unknown,
  headers: Record<string, string> = {},
): void {
  const text = typeof body === 'string' ? body : JSON.stringify(body);
  response.writeHead(status, {
    ...(status < 400 ? GEO_JSON : { 'content-type': 'application/problem+json' }),
    ...headers,
  });
  response.end(text);
}

export interface TestClock {
  nowMs(): number;
  /** Moves the clock on at once and notes how long the wait was. */
  sleep(ms: number, signal: AbortSignal): Promise<void>;
  readonly slept: number[];
  advance(ms: number): void;
}

export function makeClock(startMs: number): TestClock {
  let now = startMs;
  const slept: number[] = [];
  return {
    nowMs: () => now,
    sleep(ms, signal) {
      if (signal.aborted) return Promise.reject(signal.reason);
      slept.push(ms);
      now += ms;
      return Promise.resolve();
    },
    slept,
    advance: (ms) => {
      now += ms;
    },
  };
}

export interface TestLog extends SourceLog {
  readonly lines: { readonly level: string; readonly facts: object; readonly message: string }[];
}

export function makeLog(): TestLog {
  const lines: TestLog['lines'] = [];
  return {
    lines,
    info: (facts, message) => lines.push({ level: 'info', facts, message }),
    warn: (facts, message) => lines.push({ level: 'warn', facts, message }),
  };
}
