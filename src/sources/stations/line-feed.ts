// A TCP connection that sends lines, kept open: connects again whenever it fails, falls silent or tells nothing of use.

import { connect } from 'node:net';
import { messageOf } from '#errors.ts';
import { type Ended, keepTrying } from './keep-trying.ts';
import { makeLineSplitter } from './line-splitter.ts';
import type { SourceContext } from './observation-source.ts';

export interface FeedTiming {
  /** No connection within this [ms]. */
  readonly connectMs: number;
  /** No byte, or no line of use, within this [ms]. */
  readonly silentMs: number;
}

export interface FeedHandlers {
  /** True where the line was of use. */
  line(text: string): boolean;
  /** Lines longer than any may be, left out. */
  dropped(count: number): void;
  up(): void;
  down(why: string): void;
}

/** An NMEA sentence has 82 characters; tag blocks and careless makers add to them. */
const MOST_BYTES = 512;

export const FEED_TIMING: FeedTiming = { connectMs: 10_000, silentMs: 60_000 };

type FeedContext = Pick<SourceContext, 'nowMs' | 'sleep' | 'random'>;

/** Begins at once. `down` is told for every failure, `up` with the first line of use after it. */
export function listenToLines(
  address: { readonly host: string; readonly port: number },
  handlers: FeedHandlers,
  context: FeedContext,
  timing: FeedTiming = FEED_TIMING,
): { close(): Promise<void> } {
  return keepTrying((signal) => once(address, handlers, context, timing, signal), handlers.down, context);
}

/** One connection from its beginning to its end. Never rejects. */
function once(
  address: { readonly host: string; readonly port: number },
  handlers: FeedHandlers,
  { nowMs }: FeedContext,
  { connectMs, silentMs }: FeedTiming,
  signal: AbortSignal,
): Promise<Ended> {
  if (signal.aborted) return Promise.resolve({ why: 'closed', wasUp: false });
  const { promise, resolve } = Promise.withResolvers<Ended>();
  const heard = makeHearing(handlers, signal);
  const socket = connect({ ...address, keepAlive: true });
  let why = 'the other side closed the connection';
  let usefulAtMs = nowMs();
  const stop = () => socket.destroy();
  const stopFor = (reason: string) => {
    why = reason;
    socket.destroy();
  };
  signal.addEventListener('abort', stop, { once: true });
  socket.setTimeout(connectMs);
  socket.once('connect', () => {
    socket.setTimeout(silentMs);
    usefulAtMs = nowMs();
  });
  socket.on('timeout', () => stopFor(socket.connecting ? 'no connection in time' : 'silent'));
  socket.on('error', (fault) => {
    why = messageOf(fault);
  });
  socket.on('data', (chunk: Buffer) => {
    if (heard.take(chunk)) usefulAtMs = nowMs();
    else if (nowMs() - usefulAtMs > silentMs) stopFor('nothing that can be read');
  });
  // The other side's end is ours: a half-open connection would tell nothing for ever.
  socket.once('end', stop);
  socket.once('close', () => {
    signal.removeEventListener('abort', stop);
    resolve({ why, wasUp: heard.isUp() });
  });
  return promise;
}

/** Hands over the lines of a connection; up with the first one of use. */
function makeHearing(handlers: FeedHandlers, signal: AbortSignal) {
  const splitter = makeLineSplitter(MOST_BYTES);
  let isUp = false;
  return {
    isUp: () => isUp,
    /** True where any line of the chunk was of use. */
    take(chunk: Uint8Array): boolean {
      const { lines, dropped } = splitter.push(chunk);
      if (dropped > 0 && !signal.aborted) handlers.dropped(dropped);
      let useful = false;
      for (const line of lines) {
        if (signal.aborted) break;
        if (!handlers.line(line)) continue;
        useful = true;
        if (!isUp) handlers.up();
        isUp = true;
      }
      return useful;
    },
  };
}
