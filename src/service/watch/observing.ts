// The sources of observations: those that are asked, for sites where a fire burns or a shift is near, and those that are
// listened to. What they bring is kept as if it had been posted.

import type { Config } from '#config/schema.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { messageOf } from '#errors.ts';
import { isNearShift } from '#jobs/due.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import type { DefinitionBook } from '#memory/definition-book.ts';
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
  const { log } = options;
  const sources = sourcesOf(options);
  const keep = keeping(options);
  let listening: { of: number; all: Listening[] } = { of: 0, all: [] };
  const listenAnew = async (): Promise<void> => {
    const { of, heard } = sources();
    if (of === listening.of) return;
    await Promise.all(listening.all.map((one) => one.close()));
    listening = {
      of,
      all: heard.map((source) =>
        source.listen(
          (reading) => void keep(reading),
          ({ up, why }) => log.info({ source: source.name, up, why }, 'stations that are listened to'),
        ),
      ),
    };
  };
  return {
    asks: () => sources().polled.length > 0,
    async ask(signal) {
      for (const source of sources().polled) {
        await keep(await source.read(signal, (site) => isWanted(options, site)));
      }
    },
    listen() {
      void listenAnew();
      const timer = setInterval(() => void listenAnew(), MINUTE_MS).unref();
      return () => clearInterval(timer);
    },
    async close() {
      await Promise.all(listening.all.map((one) => one.close()));
      listening = { of: 0, all: [] };
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
    const list = observationSources(all, context);
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

function keeping({ stations, deps, log }: ObservingOptions): (reading: ObservationReading) => Promise<void> {
  return async (reading) => {
    stations.found(reading.stations);
    for (const [site, own] of Map.groupBy(reading.observations, (one) => one.site)) {
      const observations = own.map(({ observation }) => observation);
      await keepObservations(deps, site, observations).catch((fault: unknown) => {
        log.warn({ site, message: messageOf(fault) }, 'observations not kept');
      });
    }
    for (const { site, station, kind } of reading.faults) log.info({ site, station, kind }, 'station');
  };
}
