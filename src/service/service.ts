// The running service: store, source, memory, turns, desk and server put together, started and stopped in order.

import { randomUUID } from 'node:crypto';
import type { FastifyBaseLogger, FastifyInstance } from 'fastify';
import type { Config } from '#config/schema.ts';
import { messageOf } from '#errors.ts';
import type { Periods } from '#jobs/due.ts';
import { createKeeper, type Keeper } from '#jobs/keep-fresh.ts';
import { planSites } from '#jobs/plan-sites.ts';
import type { TurnQueue } from '#jobs/queue.ts';
import { createQueueHere } from '#jobs/queue-here.ts';
import { createTurnTaker } from '#jobs/take-turn.ts';
import { inTurn, inTurnOf } from '#memory/in-turn.ts';
import { createMirror, type Mirror } from '#memory/mirror.ts';
import type { Access } from '#publish/access/caller.ts';
import { createEventStreams, type EventStreams } from '#publish/api/event-streams.ts';
import { type EventParts, eventAnswers } from '#publish/api/events.ts';
import { createNowStreams, type NowStreams } from '#publish/api/now-streams.ts';
import { buildServer, type ServerOptions } from '#publish/api/server.ts';
import type { StreamedParts, WatchingParts } from '#publish/api/watch.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { PlayDesk } from '#publish/play-desk.ts';
import { type Cap, createCap } from '#service/cap/cap-desk.ts';
import type { Hooking, HookingOptions } from '#service/hooks/hooking.ts';
import { createWatching, type Watching } from '#service/watch/watching.ts';
import type { NwsSource } from '#sources/nws/client.ts';
import type { SourceLog } from '#sources/source.ts';
import type { Store } from '#store/store.ts';
import { createCalendarDesk } from './calendar-desk.ts';
import { createCalendarShelf } from './calendar-shelf.ts';
import { every } from './every.ts';
import { readGauges } from './gauges.ts';
import { importFile } from './import-config.ts';
import { liveSource, type Sleep, sleepFor } from './live-source.ts';
import { createNearShift } from './near-shift.ts';
import { otherTurns } from './other-turns.ts';
import { createPlanDesk } from './plan-desk.ts';
import { createPlanner } from './planner.ts';
import { recordDesks } from './record-desks.ts';
import { createSlowFigure } from './slow-figure.ts';
import { createStoreProbe } from './store-probe.ts';
import { createStoreWatch } from './store-watch.ts';
import { createTally } from './tally.ts';
import { createWhatIfForecasts } from './what-if-forecasts.ts';

export interface ServiceOptions {
  readonly config: Config;
  /** The same as written: what the store is to know of it. */
  readonly written: Readonly<Record<string, unknown>>;
  /** Name of the configuration file, for histories. */
  readonly file: string;
  /** The file may be one that another has replaced since. */
  readonly goBack?: boolean;
  /** Gets the lines of what the file will change, before any of it does. */
  readonly showImport?: (lines: readonly string[]) => void;
  readonly store: Store;
  /** PostgreSQL: turns go over its queue, and `takesTurns` says whether this process does any of them. */
  readonly databaseUrl: string | null;
  readonly takesTurns: boolean;
  readonly demo: boolean;
  readonly nowMs: () => number;
  readonly logger: FastifyBaseLogger | null;
  readonly version: string;
  /** Left out: open, as for a service bound to its own machine. */
  readonly access?: (mirror: Mirror) => Access;
  readonly server?: Pick<
    ServerOptions,
    'rateLimits' | 'trustProxy' | 'draining' | 'mostLoopDelayMs' | 'tiles'
  >;
  /** Waits between tries; injected by tests. */
  readonly sleep?: Sleep;
  /** A clock that nobody sets; injected by tests. */
  readonly steadyMs?: () => number;
  /** Value of an environment variable, for channels and brokers; null where it is not set. */
  readonly secret?: (name: string) => string | null;
  /** How programs that are sent events are reached; injected by tests. */
  readonly hookHttp?: HookingOptions['http'];
  /** Simulated shifts, for the demonstration. */
  readonly play?: PlayDesk;
  /** Said of a source that is our own, such as the demo's stand-in: it is asked as fast as it answers. */
  readonly ownSource: boolean;
}

export interface Service {
  readonly app: FastifyInstance;
  readonly desk: PlanDesk;
  readonly mirror: Mirror;
  readonly keeper: Keeper;
  readonly watching: Watching;
  readonly hooks: Hooking;
  readonly streams: NowStreams;
  readonly eventStreams: EventStreams;
  readonly cap: Cap;
  /** Goes on by the clock. */
  start(): void;
  /** Stops the clock, the server and the connections; the store stays open. */
  close(): Promise<void>;
}

/** A process without turns of its own learns of news by asking the store this often [ms]. */
const FOLLOW_EVERY_MS = 1000;
/** How soon a change is told to those who listen [ms]. */
const STREAM_EVERY_MS = 1000;
/** How soon what stands is told to dispatch centres that nobody asks for [ms]. */
const CAP_EVERY_MS = 10_000;
/** How often a store with a fault is asked whether that is over [ms]. */
const PROBE_EVERY_MS = 2000;
/** How often the size of the store is looked up [ms]. */
const STORE_SIZE_EVERY_MS = 300_000;

export async function createService(options: ServiceOptions): Promise<Service> {
  const { config, store, demo, logger, version } = options;
  // Answers tell moments to the second: made to the second, they can be made again byte for byte.
  const nowMs = () => Math.floor(options.nowMs() / 1000) * 1000;
  const steadyMs = options.steadyMs ?? (() => performance.now());
  const log: SourceLog = logger ?? SILENT;
  await importGiven(options, nowMs());
  const source = sourceOf(options, nowMs, log);
  const mirror = createMirror({ store, source: source.grid, steadyMs });
  await mirror.sync();
  const watch = createStoreWatch({ mirror, health: store.health, steadyMs, nowMs });
  const calendars = createCalendarShelf();
  const tally = createTally();
  const planner = createPlanner(calendars, version);
  const worker = `${process.pid}-${randomUUID().slice(0, 8)}`;
  const deps = { store, mirror, source: source.grid, planner, worker, nowMs, log, tally };
  const periods = periodsOf(config);
  const planAll = inTurn(() => planSites(deps));
  const planSome = inTurnOf((siteKeys: readonly string[]) => planSites(deps, siteKeys));
  const watching = await createWatching({
    ...{ config, store, mirror, calendars, worker, demo, nowMs, log },
    nws: source.context,
    grid: source.grid,
    sleep: options.sleep ?? sleepFor,
    secret: options.secret ?? (() => null),
    publicUrl: config.listen.publicUrl ?? null,
  });
  const others = otherTurns({ config, store, mirror, periods, nowMs, watching: watching.turns, planAll });
  const deadAfterMs = config.turns.takeOverAfterS * 1000;
  const located = (): void => keeper.nudge();
  const taker = createTurnTaker({ ...deps, planAll, planSome, others, every, deadAfterMs, located });
  const queue = await queueOf(options, options.takesTurns ? taker : null, log);
  const { burning, observes } = watching;
  const { forgetAhead } = store.forecasts;
  const keeper = createKeeper({
    ...{ mirror, queue, periods, nowMs, log, every, burning, observes, forgetAhead },
  });
  const forecasts = createWhatIfForecasts({
    ...{ mirror, documents: store.documents, source: source.grid, periods, nowMs },
  });
  const desk = createPlanDesk({ config, mirror, watch, forecasts, calendars, demo, nowMs });
  const applied = async (): Promise<void> => {
    await mirror.sync();
    await planAll();
    void keeper.minute();
  };
  const readFrom = { store, mirror, source, watch, tally, periods, nowMs };
  const isNearShift = createNearShift();
  const storeBytes = createSlowFigure({ find: store.care.bytes, everyMs: STORE_SIZE_EVERY_MS, steadyMs });
  const live = streamed({ desk: watching.desk(desk), say: watching.say }, desk, steadyMs);
  const { desks, hooks } = await recordDesks(options, { ...deps, source, desk, watching, applied });
  const eventStreams = followed(options, { desk, say: watching.say, events: desks.events, steadyMs });
  const cap = createCap({ ...options, nowMs, log, mirror, desk, watching, smoke: live.desk });
  const app = await buildServer({
    ...options.server,
    ...{ desk, logger, version, watching: live, eventStreams, cap: cap.desk },
    play: options.play ?? null,
    calendar: createCalendarDesk(desk, store.calendar),
    ...desks,
    gauges: () => readGauges({ ...readFrom, isNearShift, storeBytes, queue, watching: watching.gauges }),
    ...(options.access ? { access: options.access(mirror) } : {}),
  });
  const parts = { app, desk, mirror, keeper, watching, hooks, cap, streams: live.streams, eventStreams };
  const probe = createStoreProbe({ store, takesTurns: options.takesTurns, nowMs, steadyMs, log });
  return { ...parts, ...lifeOf(parts, source, probe, log) };
}

const importGiven = (
  { config, written, file, store, goBack = false, showImport }: ServiceOptions,
  nowMs: number,
): Promise<unknown> =>
  importFile(store, { written, organisation: config.organisation, file, nowMs, goBack }, showImport);

const streamed = (watching: WatchingParts, desk: PlanDesk, steadyMs: () => number): StreamedParts => ({
  ...watching,
  streams: createNowStreams({ watching, desk, steadyMs }),
});

const followed = (
  { server }: ServiceOptions,
  { steadyMs, ...parts }: EventParts & { readonly steadyMs: () => number },
): EventStreams =>
  createEventStreams({
    events: parts.events,
    answers: (viewer, reader, events) => eventAnswers(parts, viewer, reader, events),
    steadyMs,
    isDraining: () => server?.draining?.begun ?? false,
  });

const sourceOf = (
  { config, ownSource, store, sleep = sleepFor }: ServiceOptions,
  nowMs: () => number,
  log: SourceLog,
): NwsSource =>
  liveSource({
    config,
    nowMs,
    log,
    ownSource,
    ...(store.kind === 'postgres' ? { nextTurn: store.paces.next } : {}),
    sleep,
  });

function periodsOf({ sources, heartbeat }: Config): Periods {
  const { everyMin, nearShiftMin, alertsMin } = sources.nws;
  return { everyMin, nearShiftMin, alertsMin, heartbeatMin: heartbeat?.everyMin ?? null };
}

function lifeOf(
  {
    app,
    mirror,
    keeper,
    watching,
    hooks,
    streams,
    cap,
    eventStreams,
  }: Pick<Service, 'app' | 'mirror' | 'keeper' | 'watching' | 'hooks' | 'cap' | 'streams' | 'eventStreams'>,
  source: { close(): Promise<void> },
  probe: () => Promise<void>,
  log: SourceLog,
): Pick<Service, 'start' | 'close'> {
  const stops: (() => void)[] = [];
  const follow = (): Promise<void> =>
    mirror
      .sync()
      .catch((fault: unknown) => log.warn({ message: messageOf(fault) }, 'the store could not be read'));
  return {
    start() {
      keeper.start();
      watching.start();
      hooks.start();
      stops.push(every(FOLLOW_EVERY_MS, follow), every(PROBE_EVERY_MS, probe));
      stops.push(every(STREAM_EVERY_MS, streams.tick), every(STREAM_EVERY_MS, eventStreams.tick));
      stops.push(eventStreams.start(), every(CAP_EVERY_MS, cap.publish));
    },
    async close() {
      for (const stop of stops) stop();
      await keeper.stop();
      await watching.stop();
      await hooks.stop();
      // Together: an answer that waits for the source would else hold the server open.
      await Promise.all([app.close(), source.close()]);
    },
  };
}

async function queueOf(
  { databaseUrl }: ServiceOptions,
  taker: Parameters<typeof createQueueHere>[0] | null,
  log: SourceLog,
): Promise<TurnQueue> {
  if (databaseUrl !== null) {
    // Loaded where it is needed: a service alone starts sooner without it.
    const { createQueuePostgres } = await import('#jobs/queue-postgres.ts');
    return createQueuePostgres({ databaseUrl, taker, log });
  }
  if (taker === null) throw new RangeError('a process alone with its store takes its own turns');
  return createQueueHere(taker, log);
}

const SILENT: SourceLog = { info: () => undefined, warn: () => undefined };
