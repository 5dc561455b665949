// What every forecast source gives: a place resolved, its forecast in core units, and the official alerts that touch it.

import type { Forecast } from '#core/series/forecast.ts';
import type { AlertsSeen } from '#core/series/official-alert.ts';
import type { Place } from '#core/site/site.ts';

/** A place as the source knows it. */
export interface SourcePoint {
  readonly place: Place;
  /** The grid cell, `BMX 59,84`. */
  readonly cell: string;
  readonly timeZone: string;
  /** Zones whose alerts concern the place, by kind, `forecast` → `ALZ024`. */
  readonly zones: readonly { readonly kind: string; readonly code: string }[];
}

/** Everything that one pull brings. */
export interface Pulled {
  readonly point: SourcePoint;
  readonly forecast: Forecast;
  readonly alerts: AlertsSeen;
  /** The forecast document as it was received. */
  readonly gridpointBytes: Uint8Array;
}

export interface ForecastSource {
  readonly name: string;
  /**
   * Pulls the newest forecast for a place. Throws ServiceError (`source_…`, `outside_coverage`) where there is none;
   * failed alert queries are no failure of the pull: the alerts are then marked incomplete.
   */
  pull(place: Place, signal?: AbortSignal): Promise<Pulled>;
  /**
   * The official alerts alone, for when the forecast itself cannot be had: a warning must be seen all the same. Failed
   * queries make the list incomplete. Throws ServiceError where the place cannot be resolved.
   */
  alerts(place: Place, signal?: AbortSignal): Promise<AlertsSeen>;
  /** Lets go of connections. */
  close(): Promise<void>;
}

/** What a source tells its keeper about; nothing secret. */
export interface SourceLog {
  info(facts: object, message: string): void;
  warn(facts: object, message: string): void;
}
