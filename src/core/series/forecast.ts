// One forecast of one place as the rules read it: the hourly series and where it came from.

import type { Span } from '#core/units/time.ts';
import type { HourlySeries } from './hourly-series.ts';

/** Something odd in a source's document; each is counted, none is passed over in silence. */
export interface DataFault {
  readonly kind: string;
  /** Which layer or member. */
  readonly where: string;
  readonly count: number;
  /** The first example, as the source wrote it. */
  readonly example: string;
}

/** A flagged hazard in the grid: phenomenon and significance, both null where the list came empty. */
export interface GridHazard extends Span {
  readonly phenomenon: string | null;
  readonly significance: string | null;
}

/** A kind of weather that the grid expects, in the source's words (`thunderstorms`, `smoke`, `fog` …). */
export interface GridWeather extends Span {
  readonly weather: string;
  readonly coverage: string | null;
}

export interface Forecast {
  /** Name of the source, `nws`. */
  readonly source: string;
  /** Content hash of the document. */
  readonly documentId: string;
  /** The grid cell, `BMX 59,84`. */
  readonly cell: string;
  /** Height of the ground of the cell above the sea, as the source has it [m]; null or left out: it does not say. */
  readonly groundElevationM?: number | null;
  /** The document's own update time; null where it gives none that can be read. */
  readonly issuedAtMs: number | null;
  /** When this content was first received. */
  readonly fetchedAtMs: number;
  readonly series: HourlySeries;
  readonly hazards: readonly GridHazard[];
  readonly weather: readonly GridWeather[];
  readonly faults: readonly DataFault[];
}
