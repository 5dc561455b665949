// What an instrument or a person measured near a pit, in core units. Calm, variable, missing and north are four
// different things. Height and averaging travel with each value, since a limit is only compared with what it means.

/**
 * blowing: direction FROM which it blows, true, in (0, 360], north is 360. variable: blows, but from no one direction.
 * calm: below what the instrument can feel. missing: the instrument does not say; the speed alone may be known.
 */
export type ObservedWind =
  | { readonly kind: 'blowing'; readonly fromDeg: number; readonly speedMps: number }
  | { readonly kind: 'variable'; readonly speedMps: number }
  | { readonly kind: 'calm' }
  | { readonly kind: 'missing'; readonly speedMps: number | null };

/** passed: checked by its source and good. unverified: not checked. doubtful: told, never the ground for anything better. */
export type ObservationQuality = 'passed' | 'unverified' | 'doubtful';

export interface PeakBefore {
  readonly atMs: number;
  readonly speedMps: number;
}

export interface Observation {
  /** Name of the station within its site: what the configuration calls it. */
  readonly station: string;
  /** When it was measured: the end of its averaging period [epoch ms]. Order and age go by this. */
  readonly observedAtMs: number;
  readonly receivedAtMs: number;
  readonly wind: ObservedWind;
  /** Above ground [m]; null where nobody said. */
  readonly windHeightM: number | null;
  /** Over how long the wind is a mean [s]; null where nobody said. */
  readonly windAveragingS: number | null;
  /** Largest short wind of the minutes that the observation speaks of; null: none was told, which is no calm. */
  readonly gustMps: number | null;
  /** A stronger short wind before those minutes, of its own moment; absent where the source tells none. */
  readonly peak?: PeakBefore | null;
  readonly relativeHumidityPct: number | null;
  readonly temperatureC: number | null;
  readonly dewPointC: number | null;
  readonly pressurePa: number | null;
  /** Thunder or lightning told of near the station; null where the source tells nothing of it. */
  readonly thunder: boolean | null;
  /** When the source itself says that the wind shifted (a WSHFT remark) [epoch ms]. */
  readonly windShiftAtMs: number | null;
  readonly quality: ObservationQuality;
  /** True where the source marks it as a correction of what it told before for the same moment. */
  readonly corrects: boolean;
  /** As it came: a report's text, a sentence, a body; for the record. */
  readonly raw: string | null;
}

/** Speed of any wind [m/s]; calm is 0, null where not known. */
export const speedOf = (wind: ObservedWind): number | null => (wind.kind === 'calm' ? 0 : wind.speedMps);
