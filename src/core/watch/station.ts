// A station: who observes near a site, how far away, how often, and how its wind is measured. Ranked, never averaged.

/** person: somebody with a hand-held meter. onSite: an instrument at the pit. near: one elsewhere, such as an airport's. */
export type StationKind = 'onSite' | 'person' | 'near';

export interface Station {
  readonly id: string;
  readonly name: string;
  readonly kind: StationKind;
  /** From the pit [m]; 0 on site. */
  readonly distanceM: number;
  /** Higher than the pit is positive [m]; null where not known. */
  readonly aboveSiteM: number | null;
  /** How often it observes [min]; what is older than 2.5 of these is stale. */
  readonly periodMin: number;
  /** What the instrument is set to, where its observations do not say. */
  readonly windHeightM: number | null;
  readonly windAveragingS: number | null;
  /** Added to what the instrument tells, to make it true: declination or mounting [deg]; null: it is true already. */
  readonly directionOffsetDeg: number | null;
  /** Below this its wind is calm [m/s]. */
  readonly calmBelowMps: number;
}
