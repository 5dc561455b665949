// Everybody who follows the log of events. Each has a position of its own, and reads on from there, so that nothing is kept for
// whoever reads slowly: what was not told yet stands in the log.

import type { EventKind, LoggedEvent } from '#core/events/event.ts';
import type { EventDesk } from '#publish/event-desk.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { EventAnswer } from '#publish/wire-events.ts';
import { createEventPages, type EventPages } from './event-pages.ts';
import { breather } from './in-lanes.ts';
import {
  type Connection,
  createSeats,
  isStuck,
  KEEP_ALIVE_MS,
  type Knock,
  LIFE_MS,
  type Listener,
  MOST_WAITING_MS,
  RETRY,
  write,
} from './listeners.ts';
import { problemOf } from './problem.ts';
import type { ReaderQuery } from './query.ts';

export interface Following extends Knock {
  readonly viewer: Viewer;
  /** Null: all that the viewer may see. */
  readonly siteKey: string | null;
  /** Null: all. */
  readonly kinds: readonly EventKind[] | null;
  readonly reader: ReaderQuery;
  /** Position; null: what comes from now on. */
  readonly after: number | null;
}

export interface EventStreams {
  /** Tells where it begins and what came since. Throws `too_many_requests`, `overloaded`, `bad_query`, `store_unavailable`. */
  add(following: Following, listen: () => Listener): Promise<{ remove(): void }>;
  /** Tells what came, whoever wrote it; ends who is to be ended. To be called every second. */
  tick(): Promise<void>;
  /** Tells at once what this process adds, until stopped. */
  start(): () => void;
  /** Ends all, in good order. */
  end(): void;
  count(): number;
}

export interface EventStreamsOptions {
  readonly events: EventDesk;
  readonly answers: (viewer: Viewer, reader: ReaderQuery, events: readonly LoggedEvent[]) => EventAnswer[];
  /** A clock that nobody sets. */
  readonly steadyMs: () => number;
  readonly isDraining?: () => boolean;
  readonly mostPerWho?: number;
  readonly mostInAll?: number;
}

/** Nothing more is read for whom so much waits. */
const ENOUGH_WAITING_BYTES = 65_536;

interface Stream extends Connection {
  readonly following: Following;
  /** Everything up to it was told, or is nothing that was asked for. */
  position: number;
  /** The last position that it knows of. */
  told: number;
  faulty: boolean;
}

type Ending = 'renew' | 'key' | 'draining' | 'slow';

export function createEventStreams(options: EventStreamsOptions): EventStreams {
  const { events, steadyMs, isDraining = () => false, mostPerWho, mostInAll } = options;
  const streams = new Set<Stream>();
  /** Told of their end, and since when; who does not take it is broken off. */
  const leaving = new Map<Listener, number>();
  const seats = createSeats(mostPerWho, mostInAll);
  const takeOut = (stream: Stream): void => {
    leaving.delete(stream.listener);
    if (streams.delete(stream)) seats.leave(stream.who);
  };
  const finish = (stream: Stream, reason: Ending): void => {
    takeOut(stream);
    write(stream, named('end', { reason }), steadyMs());
    stream.listener.end();
    if (stream.listener.waitingBytes > 0) leaving.set(stream.listener, steadyMs());
  };
  /** Goes on until nobody is behind who could take more. */
  const round = async (): Promise<void> => {
    const last = streams.size === 0 ? 0 : await events.last();
    const breathe = breather();
    for (;;) {
      const behind = [...streams].filter((s) => s.position < last && hasRoom(s));
      if (behind.length === 0) return;
      // Those who follow alike read together.
      const pages = createEventPages(options);
      for (const stream of behind) {
        if (!streams.has(stream)) continue;
        if (!stream.isKnown()) finish(stream, 'key');
        else await tellOn(stream, pages, () => streams.has(stream), steadyMs);
        await breathe();
      }
    }
  };
  const pump = createPump(() => round().catch((fault) => tellFault(streams, fault, steadyMs())));
  const add: EventStreams['add'] = async (following, listen) => {
    const { who, isKnown, after } = following;
    seats.take(who);
    try {
      const position = after ?? (await events.last());
      await createEventPages(options).read(following, position);
      const nowMs = steadyMs();
      const times = { sinceMs: nowMs, wroteMs: nowMs, waitingSinceMs: null };
      const stream: Stream = {
        ...{ following, who, isKnown, listener: listen() },
        ...{ position, told: position, faulty: false, ...times },
      };
      streams.add(stream);
      stream.listener.onTaken(() => {
        stream.waitingSinceMs = null;
        void pump();
      });
      write(stream, `${RETRY}${positionText(stream)}`, nowMs);
      void pump();
      return { remove: () => takeOut(stream) };
    } catch (fault) {
      seats.leave(who);
      throw fault;
    }
  };
  return {
    count: () => streams.size,
    add,
    async tick() {
      const nowMs = steadyMs();
      breakOff(leaving, nowMs);
      for (const stream of [...streams]) {
        const ending = endingOf(stream, nowMs, isDraining());
        if (ending !== null) finish(stream, ending);
      }
      await pump();
      for (const stream of streams) keepAlive(stream, steadyMs());
    },
    start: () => events.onAdded(() => void pump()),
    end() {
      for (const stream of [...streams]) finish(stream, 'draining');
    },
  };
}

function breakOff(leaving: Map<Listener, number>, nowMs: number): void {
  for (const [listener, sinceMs] of leaving) {
    if (nowMs - sinceMs < MOST_WAITING_MS) continue;
    leaving.delete(listener);
    listener.drop();
  }
}

/** Who calls while it runs has it run once more. */
function createPump(round: () => Promise<void>): () => Promise<void> {
  let running: Promise<void> | null = null;
  let isAgain = false;
  const run = async (): Promise<void> => {
    do {
      isAgain = false;
      await round();
    } while (isAgain);
    running = null;
  };
  return () => {
    isAgain = true;
    running ??= run();
    return running;
  };
}

const hasRoom = ({ listener }: Stream): boolean => listener.waitingBytes < ENOUGH_WAITING_BYTES;

async function tellOn(
  stream: Stream,
  pages: EventPages,
  isThere: () => boolean,
  steadyMs: () => number,
): Promise<void> {
  const { missingUpTo, lines, next } = await pages.read(stream.following, stream.position);
  if (!isThere()) return;
  if (stream.faulty) {
    stream.faulty = false;
    write(stream, positionText(stream), steadyMs());
  }
  if (missingUpTo !== null) {
    const gap = { after: String(stream.position), missingUpTo: String(missingUpTo) };
    write(stream, named('gap', gap, missingUpTo), steadyMs());
    stream.position = missingUpTo;
    stream.told = missingUpTo;
  }
  for (const { position, data } of lines) {
    if (!hasRoom(stream)) return;
    write(stream, `id: ${position}\ndata: ${data}\n\n`, steadyMs());
    stream.position = position;
    stream.told = position;
  }
  stream.position = Math.max(stream.position, next);
}

function endingOf(stream: Stream, nowMs: number, isDraining: boolean): Ending | null {
  if (!stream.isKnown()) return 'key';
  if (isDraining) return 'draining';
  if (isStuck(stream, nowMs)) return 'slow';
  return nowMs - stream.sinceMs >= LIFE_MS ? 'renew' : null;
}

/** Whoever asked for few types is told how far they were looked for, too: retention would else overtake them. */
function keepAlive(stream: Stream, nowMs: number): void {
  if (nowMs - stream.wroteMs < KEEP_ALIVE_MS || !hasRoom(stream)) return;
  write(stream, stream.position > stream.told ? positionText(stream) : ':\n\n', nowMs);
  stream.told = stream.position;
}

/** Once: that nothing can be read now. What comes meanwhile is told when it can. */
function tellFault(streams: ReadonlySet<Stream>, fault: unknown, nowMs: number): void {
  const { code, detail } = problemOf(fault);
  for (const stream of streams) {
    if (stream.faulty) continue;
    stream.faulty = true;
    write(stream, named('fault', { code, detail }), nowMs);
  }
}

const positionText = ({ position }: Stream): string =>
  named('position', { position: String(position) }, position);

const named = (event: string, data: object, id: number | null = null): string =>
  `${id === null ? '' : `id: ${id}\n`}event: ${event}\ndata: ${JSON.stringify(data)}\n\n`;
