// The sources of observations: those that are asked, for sites where a fire burns or a shift is near, and those that are
// listened to. What they bring is kept as if it had been posted.

import type { Config } from '#config/schema.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { messageOf } from '#errors.ts';
import { isNearShift } from '#jobs/due.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
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
  const { mirror, stations, deps, log } = options;
  const context: SourceContext = {
    nowMs: options.nowMs,
    sleep: options.sleep,
    random: Math.random,
    log,
    nws: options.nws,
    brokers: options.config.mqtt,
    secret: options.secret,
  };
  let made = { of: '', polled: [] as PolledObservations[], heard: [] as HeardObservations[] };
  // Made anew where stations have changed.
  const sources = () => {
    const all = stations.all();
    const of = JSON.stringify(all);
    if (of === made.of) return made;
    const list = observationSources(all, context);
    made = {
      of,
      polled: list.filter((source) => source.way === 'polled'),
      heard: list.filter((source) => source.way === 'heard'),
    };
    return made;
  };
  const isWanted = (site: string): boolean => {
    if (options.burning(site)) return true;
    const definition = mirror.book().sites.get(site);
    return (
      definition !== undefined &&
      isNearShift(
        {
          placeKey: definition.placeKey,
          shifts: definition.fields.shift,
          place: mirror.place(definition.placeKey),
        },
        options.nowMs(),
      )
    );
  };
  const keep = async (reading: ObservationReading): Promise<void> => {
    stations.found(reading.stations);
    const bySite = Map.groupBy(reading.observations, ({ site }) => site);
    for (const [site, own] of bySite) {
      await keepObservations(
        deps,
        site,
        own.map(({ observation }) => observation),
      ).catch((fault: unknown) => log.warn({ site, message: messageOf(fault) }, 'observations not kept'));
    }
    for (const { site, station, kind } of reading.faults) log.info({ site, station, kind }, 'station');
  };
  let listening: { of: string; all: Listening[] } = { of: '', all: [] };
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
      for (const source of sources().polled) await keep(await source.read(signal, isWanted));
    },
    listen() {
      void listenAnew();
      const timer = setInterval(() => void listenAnew(), MINUTE_MS).unref();
      return () => clearInterval(timer);
    },
    async close() {
      await Promise.all(listening.all.map((one) => one.close()));
      listening = { of: '', all: [] };
    },
  };
}
