// Instruments that send NMEA 0183 over TCP, or over a serial line behind a TCP server. One connection for each address,
// however many stations name it: many such servers take one caller only.

import { FEED_TIMING, type FeedTiming, listenToLines } from './line-feed.ts';
import { type Closed, makeNmeaPeriods, type NmeaPeriods } from './nmea-period.ts';
import type {
  HeardObservations,
  ListeningState,
  ObservationReading,
  SourceContext,
  SourceMaker,
  SourceStation,
} from './observation-source.ts';

export const nmeaStations: SourceMaker = (stations, context) => {
  const byAddress = Map.groupBy(stations.filter(isNmea), ({ source }) => `${source.host}:${source.port}`);
  return [...byAddress.values()].map((served) => makeNmeaFeed(served, context));
};

type NmeaStation = SourceStation & { readonly source: { readonly kind: 'nmea' } };

const isNmea = (station: SourceStation): station is NmeaStation => station.source.kind === 'nmea';

interface Served {
  readonly site: string;
  readonly station: string;
  readonly periods: NmeaPeriods;
}

/** The stations of one address. */
export function makeNmeaFeed(
  stations: readonly NmeaStation[],
  context: Pick<SourceContext, 'nowMs' | 'sleep' | 'random'>,
  timing: FeedTiming = FEED_TIMING,
): HeardObservations {
  const { host, port } = (stations[0] as NmeaStation).source;
  const name = `nmea ${host}:${port}`;
  return {
    way: 'heard',
    name,
    listen(onReading, onState) {
      const served = stations.map(
        ({ site, station, directions, source }): Served => ({
          site,
          station: station.id,
          periods: makeNmeaPeriods({ station, directions, transducers: source.transducers }),
        }),
      );
      const tellState = (up: boolean, why: string | null) =>
        onState({ up, sinceMs: context.nowMs(), why, stations: served.map(nameOf) } satisfies ListeningState);
      const tell = (one: Served, closed: Closed | null) => {
        if (closed) onReading(readingOf(one, closed));
      };
      return listenToLines(
        { host, port },
        {
          line(text) {
            const atMs = context.nowMs();
            const taken = served.map((one) => ({ one, ...one.periods.take(text, atMs) }));
            for (const { one, closed } of taken) tell(one, closed);
            return taken.some(({ good }) => good);
          },
          dropped(count) {
            for (const one of served) onReading(droppedReading(one, count));
          },
          up: () => tellState(true, null),
          down(why) {
            for (const one of served) tell(one, one.periods.close(context.nowMs()));
            tellState(false, why);
          },
        },
        context,
        timing,
      );
    },
  };
}

const nameOf = ({ site, station }: Served) => ({ site, station });

const readingOf = ({ site, station }: Served, { observation, faults }: Closed): ObservationReading => ({
  observations: observation ? [{ site, observation }] : [],
  stations: [],
  faults: faults.map((fault) => ({ site, station, ...fault })),
});

const droppedReading = ({ site, station }: Served, count: number): ObservationReading => ({
  observations: [],
  stations: [],
  faults: [{ site, station, kind: 'line-too-long', where: 'sentence', count, example: '' }],
});
