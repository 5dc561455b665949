// The watch of a running service: its desk for the API, its turns, and the loops that send, ask again and listen.

import { hash, randomBytes } from 'node:crypto';
import type { Config } from '#config/schema.ts';
import type { Site } from '#core/site/site.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { messageOf } from '#errors.ts';
import type { OtherTurns } from '#jobs/take-turn.ts';
import { escalateOpen } from '#jobs/watch/escalate-open.ts';
import { createSending } from '#jobs/watch/send-deliveries.ts';
import type { SendDeps } from '#jobs/watch/send-deps.ts';
import { watchAll } from '#jobs/watch/watch-all.ts';
import { inTurn } from '#memory/in-turn.ts';
import type { Mirror } from '#memory/mirror.ts';
import { readInbound } from '#notify/inbound.ts';
import { inboundNumber } from '#notify/phone-number.ts';
import type { SayCondition } from '#publish/answers/now.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { WatchGauges } from '#publish/gauges.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';
import type { CalendarShelf } from '#service/calendar-shelf.ts';
import { every } from '#service/every.ts';
import type { GridSource } from '#sources/grid-source.ts';
import type { NwsContext } from '#sources/nws/context.ts';
import type { SourceLog } from '#sources/source.ts';
import type { Store } from '#store/store.ts';
import type { MessageThread } from '#store/watch/records.ts';
import { type ChannelShelf, createChannelShelf } from './channel-shelf.ts';
import { dayTextDesk } from './day-text-desk.ts';
import { createDrill } from './drill.ts';
import { createLinkTokens, type LinkTokens } from './link-tokens.ts';
import { listDesk } from './list-desk.ts';
import { liveNow } from './live-now.ts';
import { messageDesk } from './message-desk.ts';
import { observationDesk } from './observation-desk.ts';
import { createObserving } from './observing.ts';
import { readingFormDesk } from './reading-form-desk.ts';
import { createReceiptDesk, type ReceiptDesk, receiptOver } from './receipt-desk.ts';
import { createSaying, type Saying } from './saying.ts';
import { createSendTally, type SendTally } from './send-tally.ts';
import { silenceDesk } from './silence-desk.ts';
import { type PastForecasts, smokeDesk } from './smoke-desk.ts';
import { createStationShelf, type StationShelf } from './station-shelf.ts';
import { tapDesk } from './tap-desk.ts';
import { watchGauges } from './watch-gauges.ts';
import { createWatchView } from './watch-view.ts';

export interface WatchingOptions {
  readonly config: Config;
  readonly store: Store;
  readonly mirror: Mirror;
  readonly calendars: CalendarShelf;
  readonly nws: NwsContext;
  /** Reads forecasts of the past. */
  readonly grid: Pick<GridSource, 'read'>;
  readonly worker: string;
  readonly demo: boolean;
  readonly nowMs: () => number;
  readonly log: SourceLog;
  readonly sleep: (ms: number, signal: AbortSignal) => Promise<void>;
  /** Value of an environment variable; null where it is not set. */
  secret(name: string): string | null;
  /** Where people reach the pages; null where nobody told. */
  readonly publicUrl: string | null;
}

export interface Watching {
  desk(plans: PlanDesk): WatchDesk;
  readonly turns: Pick<OtherTurns, 'watch' | 'observe'>;
  gauges(): Promise<WatchGauges>;
  readonly say: SayCondition;
  /** As it is defined; null where it is not in force. */
  site(siteKey: string): Site | null;
  burning(siteKey: string): boolean;
  observes(): boolean;
  /** Sends what is due, now. */
  send(): Promise<void>;
  /** Looks at all open messages, now. */
  escalate(): Promise<void>;
  /** Sends, asks again and listens until stopped. */
  start(): void;
  stop(): Promise<void>;
}

const SEND_EVERY_MS = 1000;
const NOT_SENT = 'texts could not be sent';
/** Of one site on one day. */
const MOST_TRANSITIONS = 2000;
const ESCALATE_EVERY_MS = 10_000;
/** One try at a channel, what it is given for it, and within what a text must be out. */
const TIMES = { sendTimeoutMs: 20_000, leaseMs: 25_000, sendWithinMs: MINUTE_MS };

export async function createWatching(options: WatchingOptions): Promise<Watching> {
  const { store, mirror, nowMs, log } = options;
  const stopping = new AbortController();
  // A file belongs to one process: what its last one had under way when it was killed is to be sent now, not in half a minute.
  if (store.kind === 'sqlite') await store.watch.releaseClaims();
  const stations = createStationShelf(mirror);
  const tally = createSendTally();
  const tokens = createLinkTokens(await store.watch.secret('links', randomBytes(32).toString('base64url')));
  const saying = createSaying({ tokens, publicUrl: options.publicUrl, stations, demo: options.demo, tally });
  let heard: Heard | null = null;
  const channels = createChannelShelf({
    channels: options.config.channels,
    nowMs,
    secret: options.secret,
    onInbound: async (channel, { id, from, text, continues }) => {
      if (!continues) await heard?.inbound(channel, id, from, text);
    },
    onReceipt: async (channel, receipt) => heard?.receipts.take(channel, receipt),
  });
  let open: ReadonlySet<string> = new Set();
  const burning = (key: string): boolean => open.has(key);
  const deps = sendDeps(options, { stations, channels, saying, tally, wake: () => void begin() });
  const guarded = (what: string, work: () => Promise<unknown>) => async (): Promise<void> => {
    if (stopping.signal.aborted) return;
    await work().catch((fault: unknown) => {
      if (!stopping.signal.aborted) log.warn({ message: messageOf(fault) }, what);
    });
  };
  const sending = createSending(deps, stopping.signal);
  const begin = guarded(NOT_SENT, sending.begin);
  const observing = createObserving({ ...options, stations, deps, burning });
  const { organisation } = options.config;
  const past = { mirror, documents: store.documents, grid: options.grid };
  const parts = deskOf(deps, { stations, channels, saying, tokens, organisation, past });
  heard = parts;
  const lookAtOpen = async (): Promise<void> => {
    await parts.receipts.match();
    await escalateOpen(deps);
  };
  const escalate = inTurn(guarded('open messages could not be looked at', lookAtOpen));
  const stops: (() => void)[] = [];
  return {
    gauges: watchGauges({ records: store.watch, channels, tally, nowMs }),
    say: (siteKey, condition, reader) => saying.condition(siteKey, condition, reader, nowMs()),
    site: (siteKey) => deps.view(siteKey)?.site ?? null,
    burning,
    observes: observing.asks,
    turns: {
      async watch(signal) {
        open = new Set((await store.watch.openBurns()).map(({ site }) => site));
        await watchAll(deps, signal);
      },
      observe: observing.ask,
    },
    desk: parts.desk,
    send: guarded(NOT_SENT, sending.all),
    escalate,
    start() {
      stops.push(every(SEND_EVERY_MS, begin), every(ESCALATE_EVERY_MS, escalate), observing.listen());
    },
    async stop() {
      stopping.abort();
      for (const stop of stops) stop();
      await observing.close();
      // What is out is kept as such: whoever comes next sends it otherwise again.
      await sending.all().catch(() => undefined);
      await channels.close();
    },
  };
}

interface SendParts {
  readonly stations: StationShelf;
  readonly channels: ChannelShelf;
  readonly saying: Saying;
  readonly tally: SendTally;
  wake(): void;
}

function sendDeps(
  options: WatchingOptions,
  { stations, channels, saying, tally, wake }: SendParts,
): SendDeps {
  const { store, nowMs, log, worker, config } = options;
  return {
    store,
    ...createWatchView({
      ...options,
      stationsOf: stations.of,
      unfoundOf: stations.unfound,
      noneNearOf: stations.noneNear,
    }),
    nowMs,
    hash: (text) => hash('sha256', text, 'hex').slice(0, 32),
    log,
    escalation: {
      repeatAfterMs: config.escalation.repeatAfter.map((min) => min * MINUTE_MS),
      deadlinesMs: [config.escalation.deadline * MINUTE_MS],
      mostPerContact: 8,
      mostPerMessage: 100,
    },
    wake,
    channel: channels.get,
    lanes: channels.lanes,
    say: saying.message,
    worker,
    times: TIMES,
    counted: tally,
  };
}

interface DeskParts {
  readonly stations: StationShelf;
  readonly channels: ChannelShelf;
  readonly saying: Saying;
  readonly tokens: LinkTokens;
  readonly organisation: string;
  readonly past: PastForecasts;
}

/** What channels hear, beside what the API asks. */
interface Heard {
  readonly desk: Watching['desk'];
  readonly inbound: WatchDesk['inbound'];
  readonly receipts: ReceiptDesk;
}

function deskOf(
  deps: SendDeps,
  { stations, channels, saying, tokens, organisation, past }: DeskParts,
): Heard {
  const receipts = createReceiptDesk(deps);
  const sentence = (thread: MessageThread): string => saying.sentence(thread, deps.view(thread.message.site));
  const messages = messageDesk({
    ...{ ...deps, tokens, sentence, organisation },
    inboundKind: kindOf,
    numberIn: inboundNumber,
  });
  // One for all who ask: it remembers.
  const lists = listDesk(deps);
  return {
    receipts,
    inbound: messages.inbound,
    desk: (plans) => ({
      ...tapDesk(deps),
      ...observationDesk({ ...deps, stationNamed: stations.named }),
      ...readingFormDesk({ ...deps, stations }),
      ...messages,
      ...silenceDesk(deps),
      ...smokeDesk(deps, past),
      ...dayTextDesk({ ...deps, words: saying.words }),
      ...lists,
      now: (key) => liveNow(deps, plans.site(key)),
      versions: (keys) => deps.store.watch.versions(keys),
      notices: async (viewer, siteKey) =>
        deps.store.watch.standing(siteKey === null ? plans.sites(viewer).map(({ key }) => key) : [siteKey]),
      noticed: (key, fromMs, toMs) => deps.store.watch.transitions(key, fromMs, toMs, MOST_TRANSITIONS),
      drill: createDrill(deps, sentence),
      receipt: receiptOver(channels, receipts),
    }),
  };
}

function kindOf(text: string): ReturnType<Parameters<typeof messageDesk>[0]['inboundKind']> {
  const read = readInbound(text);
  if (read.kind === 'answer')
    return { kind: read.digit === 1 ? 'got-it' : 'cannot', word: String(read.digit) };
  return read.kind === 'other' ? { kind: 'other', word: '' } : read;
}
