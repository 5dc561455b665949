// What a source of observations gives: one that is asked from time to time, or one that is listened to. ADD A SOURCE: a
// file that makes it, and a line in all.ts.

import type { DataFault } from '#core/series/forecast.ts';
import type { Place } from '#core/site/site.ts';
import type { Observation } from '#core/watch/observation.ts';
import type { Station } from '#core/watch/station.ts';
import type { BrokerSettings, ConfiguredStation } from '#core/watch/station-source.ts';
import type { NwsContext } from '#sources/nws/context.ts';
import type { SourceLog } from '#sources/source.ts';

/** A station with the site that it belongs to. */
export interface SourceStation extends ConfiguredStation {
  /** `organisation/id`. */
  readonly site: string;
  readonly place: Place;
  /** Height of the site above the sea [m], asked anew at every reading; null where not known yet. */
  readonly siteElevationM: () => number | null;
}

export interface SiteObservation {
  readonly site: string;
  readonly observation: Observation;
}

export interface SiteStation {
  readonly site: string;
  readonly station: Station;
}

/** Something odd that a station told, counted by kind and place. */
export interface StationFault extends DataFault {
  readonly site: string;
  readonly station: string;
}

export interface ObservationReading {
  /** In order of time for each station; the same one may come again and again. */
  readonly observations: readonly SiteObservation[];
  /** Stations that the source found, or knows better now: where they lie and what they are called. */
  readonly stations: readonly SiteStation[];
  readonly faults: readonly StationFault[];
}

export interface PolledObservations {
  readonly way: 'polled';
  readonly name: string;
  /** Asks the stations of the wanted sites. A station that gives no answer is a fault; throws only where aborted. */
  read(signal?: AbortSignal, wanted?: (site: string) => boolean): Promise<ObservationReading>;
}

export interface ListeningState {
  /** False: what these stations tell does not reach us. */
  readonly up: boolean;
  readonly sinceMs: number;
  /** Why not, in words without secrets; null where it is up. */
  readonly why: string | null;
  readonly stations: readonly { readonly site: string; readonly station: string }[];
}

export interface HeardObservations {
  readonly way: 'heard';
  readonly name: string;
  /** Listens until closed, and connects again by itself. Never throws: what is wrong is told as a state. */
  listen(
    onReading: (reading: ObservationReading) => void,
    onState: (state: ListeningState) => void,
  ): Listening;
}

export interface Listening {
  /** Nothing is told any more once this has been called. */
  close(): Promise<void>;
}

export type ObservationSource = PolledObservations | HeardObservations;

/** What the sources are made with. */
export interface SourceContext {
  readonly nowMs: () => number;
  readonly sleep: (ms: number, signal: AbortSignal) => Promise<void>;
  readonly random: () => number;
  readonly log: SourceLog;
  /** Null: no NWS API is asked. */
  readonly nws: NwsContext | null;
  readonly brokers: readonly BrokerSettings[];
  /** Value of an environment variable; null where it is not set. */
  readonly secret: (name: string) => string | null;
}

/** Makes the sources of one kind for those stations that are of it. */
export type SourceMaker = (stations: readonly SourceStation[], context: SourceContext) => ObservationSource[];
