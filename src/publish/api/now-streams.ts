// Everybody who listens to what stands at a site. What is told is the answer of GET /v1/sites/{id}/now: at once, at every
// change, and once a minute so that whoever hears it knows that it still holds. A state and no log: nothing is repeated.

import { createHash } from 'node:crypto';
import { parseInstantMs } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import {
  type Connection,
  createSeats,
  isStuck,
  KEEP_ALIVE_MS,
  type Knock,
  LIFE_MS,
  type Listener,
  RETRY,
  write,
} from './listeners.ts';
import { nowOf } from './live-of.ts';
import { problemOf } from './problem.ts';
import type { ReaderQuery } from './query.ts';
import type { WatchingParts } from './watch.ts';

export interface Listening extends Knock {
  readonly siteKey: string;
  readonly query: ReaderQuery;
}

export interface NowStreams {
  /** Tells the first answer and keeps the listener. Throws `too_many_requests`, `overloaded`, and what the answer throws. */
  add(listening: Listening, listen: () => Listener): Promise<{ remove(): void }>;
  /** Looks for changes and tells them; drops who does not read. To be called every second. */
  tick(): Promise<void>;
  /** Ends all, in good order. */
  end(): void;
  count(): number;
}

export interface NowStreamsOptions {
  readonly watching: WatchingParts;
  readonly desk: PlanDesk;
  /** A clock that nobody sets. */
  readonly steadyMs: () => number;
  readonly mostPerWho?: number;
  readonly mostInAll?: number;
}

/** What the clock alone changes is found so soon. */
const LOOK_EVERY_MS = 15_000;
const TELL_EVERY_MS = MINUTE_MS;
/** Who has left so much untaken does not read. */
const MOST_WAITING_BYTES = 65_536;

/** Listeners of one site who are spoken to alike. */
interface Group {
  readonly siteKey: string;
  readonly query: ReaderQuery;
  readonly streams: Set<Connection>;
  /** What the last look went by. */
  mark: string;
  lookedMs: number;
  toldMs: number;
  told: string;
  goodUntilMs: number;
}

export function createNowStreams(options: NowStreamsOptions): NowStreams {
  const { watching, desk, steadyMs, mostPerWho, mostInAll } = options;
  const groups = new Map<string, Group>();
  const seats = createSeats(mostPerWho, mostInAll);
  const all = (): Connection[] => [...groups.values()].flatMap(({ streams }) => [...streams]);
  const takeOut = (stream: Connection): void => {
    for (const [name, group] of groups) {
      if (!group.streams.delete(stream)) continue;
      seats.leave(stream.who);
      if (group.streams.size === 0) groups.delete(name);
    }
  };
  const marksOf = async (siteKeys: readonly string[]): Promise<(siteKey: string) => string> => {
    const versions = await watching.desk.versions(siteKeys);
    return (siteKey) => `${versions.get(siteKey) ?? 0} ${desk.versionOf(siteKey)}`;
  };
  const look = async (group: Group, mark: string): Promise<void> => {
    group.lookedMs = steadyMs();
    const text = await messageFor(options, group);
    group.goodUntilMs = text.goodUntilMs;
    const isNews = text.id !== group.told;
    if (isNews || steadyMs() - group.toldMs >= TELL_EVERY_MS) tell(group, text, steadyMs());
    group.mark = mark;
  };
  const tick = async (): Promise<void> => {
    const nowMs = steadyMs();
    for (const stream of all().filter((one) => isOver(one, nowMs))) takeOut(stream);
    if (groups.size === 0) return;
    // Where the store does not answer, no answer is given either: the look tells it.
    const markOf = await marksOf([...groups.values()].map(({ siteKey }) => siteKey)).catch(() => () => '');
    for (const group of groups.values()) {
      const mark = markOf(group.siteKey);
      const isDue = nowMs - group.lookedMs >= LOOK_EVERY_MS || desk.nowMs() >= group.goodUntilMs;
      if (mark !== group.mark || isDue) await look(group, mark).catch((fault) => tellFault(group, fault));
    }
    for (const stream of all().filter(({ wroteMs }) => nowMs - wroteMs >= KEEP_ALIVE_MS))
      write(stream, ':\n\n', nowMs);
  };
  let ticking: Promise<void> | null = null;
  return {
    count: () => all().length,
    async add({ siteKey, query, who, isKnown }, listen) {
      seats.take(who);
      try {
        const name = JSON.stringify([siteKey, query.lang ?? '', query.units ?? '']);
        const mark = (await marksOf([siteKey]))(siteKey);
        const first = await messageFor(options, { siteKey, query });
        const nowMs = steadyMs();
        const group = groups.get(name) ?? newGroup(siteKey, query, mark, first, nowMs);
        groups.set(name, group);
        const times = { sinceMs: nowMs, wroteMs: nowMs, waitingSinceMs: null };
        const stream: Connection = { listener: listen(), who, isKnown, ...times };
        group.streams.add(stream);
        write(stream, `${RETRY}${first.text}`, nowMs);
        return { remove: () => takeOut(stream) };
      } catch (fault) {
        seats.leave(who);
        throw fault;
      }
    },
    tick() {
      ticking ??= tick().finally(() => {
        ticking = null;
      });
      return ticking;
    },
    end() {
      for (const stream of all()) {
        stream.listener.end();
        takeOut(stream);
      }
    },
  };
}

interface Told {
  readonly id: string;
  readonly text: string;
  readonly goodUntilMs: number;
}

async function messageFor(
  { watching, desk }: NowStreamsOptions,
  { siteKey, query }: Pick<Group, 'siteKey' | 'query'>,
): Promise<Told> {
  const answer = await nowOf(watching, desk, { key: siteKey }, query);
  const id = idOf(answer);
  const text = `id: ${id}\nevent: now\ndata: ${JSON.stringify(answer)}\n\n`;
  return { id, text, goodUntilMs: parseInstantMs(answer.goodUntil) ?? 0 };
}

/** Of what it says, whenever it was said. */
const idOf = ({ asOf: _, goodUntil: __, ...answer }: NowAnswer): string =>
  createHash('sha256').update(JSON.stringify(answer)).digest('base64url').slice(0, 16);

const newGroup = (
  siteKey: string,
  query: ReaderQuery,
  mark: string,
  { id, goodUntilMs }: Told,
  nowMs: number,
): Group => ({
  ...{ siteKey, query, mark, goodUntilMs },
  ...{ streams: new Set(), lookedMs: nowMs, toldMs: nowMs, told: id },
});

function tell(group: Group, { id, text, goodUntilMs }: Told, nowMs: number): void {
  group.told = id;
  group.toldMs = nowMs;
  group.goodUntilMs = goodUntilMs;
  for (const stream of group.streams) write(stream, text, nowMs);
}

/** Once: that there is no answer now. What was told before holds no longer than it said. */
function tellFault(group: Group, fault: unknown): void {
  const { code, detail } = problemOf(fault);
  // The first look that succeeds is news, whatever was written meanwhile.
  group.mark = '';
  const id = `fault-${code}`;
  const text = `id: ${id}\nevent: fault\ndata: ${JSON.stringify({ code, detail })}\n\n`;
  if (group.told !== id) tell(group, { id, text, goodUntilMs: Number.POSITIVE_INFINITY }, group.lookedMs);
}

/** Ends what has lived long enough or is known no more, and drops who does not read. */
function isOver(stream: Connection, nowMs: number): boolean {
  const { listener, sinceMs } = stream;
  if (isStuck(stream, nowMs) || listener.waitingBytes > MOST_WAITING_BYTES) {
    listener.drop();
    return true;
  }
  if (nowMs - sinceMs < LIFE_MS && stream.isKnown()) return false;
  listener.end();
  return true;
}
