// What a forecast source gives to those who keep many sites fresh: places resolved once, one pull for each grid cell
// however many sites lie in it, and the official alerts of many places together. It holds nothing between calls: what it
// wants back is handed out and in, so that any process can go on where another stopped.

import type { Forecast } from '#core/series/forecast.ts';
import type { AlertsSeen } from '#core/series/official-alert.ts';
import type { Place } from '#core/site/site.ts';
import type { SourcePoint } from './source.ts';

/** A place resolved to its cell and zones. */
export interface LocatedPlace {
  readonly point: SourcePoint;
  readonly locatedAtMs: number;
  /** What the source alone reads; JSON. */
  readonly kept: unknown;
}

/** A forecast document as it came, with what lets the next question be conditional. */
export interface CellDocument {
  readonly bytes: Uint8Array;
  /** SHA-256 of the bytes, 64 hexadecimal digits. */
  readonly hash: string;
  /** When this content was first received [epoch ms]. */
  readonly receivedAtMs: number;
  /** When the source last confirmed it, less the age that it then had [epoch ms]. */
  readonly confirmedAtMs: number;
  readonly etag: string | null;
  readonly lastModified: string | null;
}

export interface CellQuestion {
  /** A place that lies in the cell: the place is the truth, a cell's name is not. */
  readonly located: LocatedPlace;
  readonly before: CellDocument | null;
}

export interface PulledCell {
  /** The place as it is resolved now: in another cell where the source has moved it. */
  readonly located: LocatedPlace;
  /** The very document of before where nothing newer is to be had. */
  readonly document: CellDocument;
  readonly forecast: Forecast;
}

export interface PlaceAlerts {
  readonly seen: AlertsSeen;
  /** To be handed back at the next reading; JSON. */
  readonly remembered: unknown;
}

export interface GridSource {
  readonly name: string;
  /** Resolves a place; one resolved less than a day ago is given back unasked. Throws ServiceError as `pull` does. */
  locate(place: Place, before: LocatedPlace | null, signal?: AbortSignal): Promise<LocatedPlace>;
  /** The newest document of a cell. Throws ServiceError (`source_…`, `outside_coverage`). */
  cell(question: CellQuestion, signal?: AbortSignal): Promise<PulledCell>;
  /**
   * The official alerts of many places, in their order. Few places are asked for one by one; for many, one list of all
   * alerts is read and matched by zone and by outline. Failed queries make lists incomplete, never shorter. Throws only
   * where the signal is aborted.
   */
  alerts(
    places: readonly { readonly located: LocatedPlace; readonly remembered: unknown }[],
    signal?: AbortSignal,
  ): Promise<PlaceAlerts[]>;
  /**
   * Reads a document for one place of its cell. Throws ServiceError `source_unreadable` where it is none, or is for
   * somewhere else; every place is judged for itself, since a cell's document is asked for by one of them. `cell`: the one
   * that the place is resolved to; null where that is not known any more and was judged at the time.
   */
  read(
    document: Pick<CellDocument, 'bytes' | 'receivedAtMs' | 'hash'>,
    place: Place,
    cell: string | null,
  ): Forecast;
}
