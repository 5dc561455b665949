// What all streams of server-sent events have in common (WHATWG HTML, 9.2): the connection, who may have how many, and who does
// not read.

import type { ServerResponse } from 'node:http';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { ServiceError } from '#errors.ts';
import { networkOf } from '#publish/access/network-of.ts';
import { viewerOf } from './request-viewer.ts';

export const EVENT_STREAM = 'text/event-stream';

/** One connection, as far as it matters here. */
export interface Listener {
  /** What was written and not taken yet [bytes]. */
  readonly waitingBytes: number;
  write(text: string): void;
  /** Ends in good order. */
  end(): void;
  /** Breaks it off. */
  drop(): void;
  /** Calls back whenever all that waited was taken. */
  onTaken(taken: () => void): void;
}

export interface Knock {
  /** Whose connections are counted together. */
  readonly who: string;
  /** False from when the key is known no more: then it hears nothing more. */
  isKnown(): boolean;
}

/** Everything that the clock ends, and how long nothing was written and something waited. */
export interface Connection extends Knock {
  readonly listener: Listener;
  readonly sinceMs: number;
  wroteMs: number;
  waitingSinceMs: number | null;
}

/** A page for each pit of an office, twice over; and what one process holds without trouble. */
const MOST_PER_WHO = 24;
const MOST_IN_ALL = 1000;
const RETRY_AFTER_S = 30;
/** Proxies end what is silent for a minute. */
export const KEEP_ALIVE_MS = 15_000;
/** Then it is asked for again. */
export const LIFE_MS = 600_000;
/** Who has left anything untaken for so long does not read. */
export const MOST_WAITING_MS = 30_000;
/** Told at the beginning: so soon it is asked for again. */
export const RETRY = 'retry: 3000\n\n';

/** Answers with a stream: `add` may throw until it calls `listen`, which sends the heads. */
export async function answerByStream(
  app: FastifyInstance,
  request: FastifyRequest,
  reply: FastifyReply,
  add: (knock: Knock, listen: () => Listener) => Promise<{ remove(): void }>,
): Promise<FastifyReply> {
  // For proxies that gather an answer before they pass it on.
  reply.type(EVENT_STREAM).header('cache-control', 'no-store').header('x-accel-buffering', 'no');
  if (request.method === 'HEAD') return reply.send('');
  const who = viewerOf(request).key ?? networkOf(request.ip);
  const { raw } = reply;
  let gone = false;
  const isKnown = () => app.isStillKnown(request);
  const added = await add({ who, isKnown }, () => {
    for (const [name, value] of Object.entries(reply.getHeaders())) raw.setHeader(name, value ?? '');
    reply.hijack();
    raw.writeHead(200);
    return listenerOf(raw);
  });
  raw.on('close', () => {
    gone = true;
    added.remove();
  });
  if (gone || raw.destroyed) added.remove();
  return reply;
}

const listenerOf = (raw: ServerResponse): Listener => ({
  get waitingBytes() {
    return raw.writableLength;
  },
  write: (text) => void raw.write(text),
  end: () => void raw.end(),
  drop: () => void raw.destroy(),
  onTaken: (taken) => void raw.on('drain', taken),
});

export interface Seats {
  /** Throws ServiceError `too_many_requests`, `overloaded`. */
  take(who: string): void;
  leave(who: string): void;
}

/** How many listen, in all and of each; those whose first answer is still being made count, too. */
export function createSeats(mostPerWho = MOST_PER_WHO, mostInAll = MOST_IN_ALL): Seats {
  const counts = new Map<string, number>();
  let total = 0;
  const change = (who: string, by: number): void => {
    const left = (counts.get(who) ?? 0) + by;
    total += by;
    if (left > 0) counts.set(who, left);
    else counts.delete(who);
  };
  return {
    take(who) {
      if ((counts.get(who) ?? 0) >= mostPerWho) throw tooMany('too_many_requests', mostPerWho);
      if (total >= mostInAll) throw tooMany('overloaded', mostInAll);
      change(who, 1);
    },
    leave: (who) => change(who, -1),
  };
}

const tooMany = (code: 'too_many_requests' | 'overloaded', most: number): ServiceError =>
  new ServiceError(code, `${most} streams are open${code === 'overloaded' ? '' : ' with this key'}`, {
    retryable: true,
    facts: { retryAfterS: RETRY_AFTER_S },
  });

/** To be asked again and again: notes since when something waits. */
export function isStuck(connection: Connection, nowMs: number): boolean {
  const { listener, waitingSinceMs } = connection;
  connection.waitingSinceMs = listener.waitingBytes === 0 ? null : (waitingSinceMs ?? nowMs);
  return connection.waitingSinceMs !== null && nowMs - connection.waitingSinceMs >= MOST_WAITING_MS;
}

export function write(connection: Connection, text: string, nowMs: number): void {
  connection.listener.write(text);
  connection.wroteMs = nowMs;
}
