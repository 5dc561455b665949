// The sources of observations: those that are asked, for sites where a fire burns or a shift is near, and those that are
// listened to. What they bring is kept as if it had been posted.

import type { Config } from '#config/schema.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { messageOf } from '#errors.ts';
import { isNearShift } from '#jobs/due.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import type { DefinitionBook } from '#memory/definition-book.ts';
import { inTurn } from '#memory/in-turn.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { NwsContext } from '#sources/nws/context.ts';
import type { SourceLog } from '#sources/source.ts';
import { observationSources } from '#sources/stations/all.ts';
import type {
  HeardObservations,
  Listening,
  ObservationReading,
  PolledObservations,
  SourceContext,
} from '#sources/stations/observation-source.ts';
import { keepObservations } from './observation-desk.ts';
import type { StationShelf } from './station-shelf.ts';

export interface ObservingOptions {
  readonly config: Pick<Config, 'mqtt'>;
  readonly mirror: Mirror;
  readonly nws: NwsContext;
  readonly stations: StationShelf;
  readonly deps: WatchDeps;
  readonly nowMs: () => number;
  readonly log: SourceLog;
  readonly sleep: SourceContext['sleep'];
  secret(name: string): string | null;
  burning(siteKey: string): boolean;
  /** Makes the sources of stations; those that there are, unless a test has its own. */
  readonly sourcesOf?: typeof observationSources;
}

export interface Observing {
  /** Whether there is anything to ask. */
  asks(): boolean;
  ask(signal: AbortSignal): Promise<void>;
  /** Listens until called off. */
  listen(): () => void;
  close(): Promise<void>;
}

export function createObserving(options: ObservingOptions): Observing {
  const sources = sourcesOf(options);
  const keep = keeping(options);
  const ears = listeningTo(options, sources, keep);
  return {
    asks: () => sources().polled.length > 0,
    ask: (signal) => askAll(options, sources().polled, keep, signal),
    listen() {
      void ears.listenAnew();
      const timer = setInterval(() => void ears.listenAnew(), MINUTE_MS).unref();
      return () => clearInterval(timer);
    },
    close: ears.close,
  };
}

type Keep = (reading: ObservationReading) => Promise<void>;

/** One that fails keeps none of the others from being asked; the first fault is thrown when all have been. */
async function askAll(
  options: ObservingOptions,
  polled: readonly PolledObservations[],
  keep: Keep,
  signal: AbortSignal,
): Promise<void> {
  const faults: unknown[] = [];
  for (const source of polled) {
    try {
      await keep(await source.read(signal, (site) => isWanted(options, site)));
    } catch (fault) {
      if (signal.aborted) throw fault;
      options.log.warn({ source: source.name, message: messageOf(fault) }, 'stations could not be asked');
      faults.push(fault);
    }
  }
  if (faults.length > 0) throw faults[0];
}

interface Ears {
  /** Never throws: what fails is told, and tried again with the next. */
  listenAnew(): Promise<void>;
  close(): Promise<void>;
}

function listeningTo({ log }: ObservingOptions, sources: () => Made, keep: Keep): Ears {
  /** `of`: null where not all that is to be listened to is. */
  let listening: { of: number | null; all: readonly Listening[] } = { of: 0, all: [] };
  let isClosed = false;
  const failed = (name: string | null) => (fault: unknown) =>
    log.warn({ source: name, message: messageOf(fault) }, 'stations could not be listened to');
  const closeAll = async (): Promise<void> => {
    const { all } = listening;
    listening = { of: null, all: [] };
    await Promise.all(all.map((one) => one.close().catch(failed(null))));
  };
  const listenTo = (source: HeardObservations): Listening | null => {
    try {
      return source.listen(
        (reading) => void keep(reading).catch(failed(source.name)),
        ({ up, why }) => log.info({ source: source.name, up, why }, 'stations that are listened to'),
      );
    } catch (fault) {
      failed(source.name)(fault);
      return null;
    }
  };
  // One change of stations after the other: of two at once one would go on listening for ever.
  const listenInTurn = inTurn(async () => {
    if (isClosed) return;
    const { of, heard } = sources();
    if (of === listening.of) return;
    await closeAll();
    const all = heard.map(listenTo);
    const ears = all.filter((one) => one !== null);
    listening = { of: ears.length === all.length ? of : null, all: ears };
  });
  const listenAnew = (): Promise<void> => listenInTurn().catch(failed(null));
  return {
    listenAnew,
    async close() {
      isClosed = true;
      await listenAnew();
      await closeAll();
    },
  };
}

interface Made {
  /** Another number for other stations. */
  readonly of: number;
  readonly polled: readonly PolledObservations[];
  readonly heard: readonly HeardObservations[];
}

/** The sources of all stations, made anew where stations have changed. */
function sourcesOf(options: ObservingOptions): () => Made {
  const context: SourceContext = {
    nowMs: options.nowMs,
    sleep: options.sleep,
    random: Math.random,
    log: options.log,
    nws: options.nws,
    brokers: options.config.mqtt,
    secret: options.secret,
  };
  let book: DefinitionBook | null = null;
  let stations = '';
  let made: Made = { of: 0, polled: [], heard: [] };
  return () => {
    if (options.mirror.book() === book) return made;
    book = options.mirror.book();
    const all = options.stations.all();
    if (JSON.stringify(all) === stations) return made;
    stations = JSON.stringify(all);
    const list = (options.sourcesOf ?? observationSources)(all, context);
    made = {
      of: made.of + 1,
      polled: list.filter((source) => source.way === 'polled'),
      heard: list.filter((source) => source.way === 'heard'),
    };
    return made;
  };
}

/** Where a fire burns, or a shift is near. */
function isWanted({ burning, mirror, nowMs }: ObservingOptions, site: string): boolean {
  if (burning(site)) return true;
  const definition = mirror.book().sites.get(site);
  if (definition === undefined) return false;
  const { placeKey, fields } = definition;
  return isNearShift({ placeKey, shifts: fields.shift, place: mirror.place(placeKey) }, nowMs());
}

function keeping({ stations, deps, log }: ObservingOptions): Keep {
  return async (reading) => {
    stations.found(reading.stations);
    stations.none(reading.faults.filter(({ kind }) => kind === 'none-near'));
    for (const [site, own] of Map.groupBy(reading.observations, (one) => one.site)) {
      const observations = own.map(({ observation }) => observation);
      await keepObservations(deps, site, observations).catch((fault: unknown) => {
        log.warn({ site, message: messageOf(fault) }, 'observations not kept');
      });
    }
    for (const { site, station, kind } of reading.faults) log.info({ site, station, kind }, 'station');
  };
}
