// How the observations of a station come in, as the operator told it. Credentials are never here, only the names of the
// environment variables that hold them.

import type { Station } from './station.ts';

/** true: degrees from true north. magnetic: from magnetic north. relative: from where the mounting points. */
export type DirectionReference = 'true' | 'magnetic' | 'relative';

export interface DirectionSettings {
  /** What a direction means whose reading does not say it. */
  readonly reference: DirectionReference;
  /** How far magnetic north lies east of true north [deg]; null: not known, and magnetic directions are refused. */
  readonly declinationDeg: number | null;
  /** Bearing of the instrument's zero mark [deg true]; null: not known, and relative directions are refused. */
  readonly mountDeg: number | null;
}

export type StationSource =
  | { readonly kind: 'posted' }
  /** One station of the NWS API. */
  | { readonly kind: 'nws'; readonly stationId: string }
  /** The nearest of the NWS API: each found one becomes a station `id-kxyz` of its own, so that none are mixed. */
  | {
      readonly kind: 'nws-near';
      readonly withinM: number;
      readonly withinHeightM: number;
      readonly most: number;
    }
  | { readonly kind: 'mqtt'; readonly broker: string; readonly topic: string }
  /** `transducers`: names of the XDR values that are believed; empty: any, where a kind has only one. */
  | {
      readonly kind: 'nmea';
      readonly host: string;
      readonly port: number;
      readonly transducers: readonly string[];
    };

export interface ConfiguredStation {
  readonly station: Station;
  readonly directions: DirectionSettings;
  readonly source: StationSource;
}

/** A broker that stations name. */
export interface BrokerSettings {
  readonly id: string;
  /** `mqtt://` or `mqtts://`, without credentials. */
  readonly url: string;
  /** Names of environment variables; null: none is needed. */
  readonly usernameFrom: string | null;
  readonly passwordFrom: string | null;
  /** Holds the certificates to believe, in PEM; null: those that the machine believes. */
  readonly certificatesFrom: string | null;
}
