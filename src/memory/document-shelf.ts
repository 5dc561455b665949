// Documents read from the store and decoded, for as long as some site is judged by them.

import type { Forecast } from '#core/series/forecast.ts';
import { ALERTS_NEVER_READ, type AlertsSeen } from '#core/series/official-alert.ts';
import { messageOf, ServiceError } from '#errors.ts';
import type { GridSource } from '#sources/grid-source.ts';
import type { CellState, StoredFault } from '#store/cell-state.ts';
import type { PlaceState } from '#store/place-state.ts';
import type { DocumentRecords } from '#store/store.ts';
import { readAlertsDocument } from './alerts-document.ts';
import type { SiteDefinition } from './site-definition.ts';
import type { HeldForecast } from './site-state.ts';

export interface Wanted {
  readonly definition: SiteDefinition;
  readonly place: PlaceState | null;
  readonly cell: CellState | null;
}

export interface DocumentShelf {
  /** Reads and decodes what the sites need and is not here. */
  fetch(wanted: readonly Wanted[]): Promise<void>;
  /** Lets go of what none of these sites needs. */
  keepFor(wanted: readonly Wanted[]): void;
  held(
    definition: SiteDefinition,
    place: PlaceState | null,
    cell: CellState | null,
  ): {
    readonly held: HeldForecast | null;
    /** Hash of the list of alerts that is held; null where none was read, or it is lost. */
    readonly alertsHash: string | null;
    readonly fault: StoredFault | null;
  };
}

type Decoded =
  | { readonly forecast: Forecast }
  | {
      readonly fault: StoredFault;
      /** Looked for again when its cell has been pulled: the pull may have brought it back. */
      readonly isLost: boolean;
    };

export function makeDocumentShelf(
  documents: DocumentRecords,
  source: Pick<GridSource, 'read'>,
): DocumentShelf {
  /** By document and place. */
  const forecasts = new Map<string, Decoded>();
  const alerts = new Map<string, Omit<AlertsSeen, 'fetchedAtMs'>>();

  const isHere = (key: string): boolean => {
    const known = forecasts.get(key);
    return known !== undefined && !('fault' in known && known.isLost);
  };

  async function fetchForecasts(wanted: readonly Wanted[]): Promise<void> {
    const missing = wanted.filter((one) => {
      const key = forecastKey(one);
      return key !== null && !isHere(key);
    });
    for (const [hash, sites] of Map.groupBy(missing, ({ cell }) => cell?.document as string)) {
      const bytes = await bytesOf(documents, hash);
      for (const one of sites) {
        const key = forecastKey(one) as string;
        if (!isHere(key)) forecasts.set(key, bytes === null ? lost(hash) : decode(source, hash, bytes, one));
      }
    }
  }

  async function fetchAlerts(wanted: readonly Wanted[]): Promise<void> {
    const hashes = new Set(wanted.flatMap(({ place }) => place?.alerts ?? []));
    for (const hash of hashes) {
      if ((alerts.get(hash) ?? ALERTS_NEVER_READ) !== ALERTS_NEVER_READ) continue;
      const bytes = await bytesOf(documents, hash);
      // A list that is lost was never read: that alone is a hold.
      alerts.set(hash, bytes === null ? ALERTS_NEVER_READ : readAlertsDocument(bytes));
    }
  }

  return {
    async fetch(wanted) {
      await fetchForecasts(wanted);
      await fetchAlerts(wanted);
    },
    keepFor(wanted) {
      keepOnly(forecasts, new Set(wanted.map(forecastKey)));
      keepOnly(alerts, new Set(wanted.map(({ place }) => place?.alerts ?? null)));
    },
    held(definition, place, cell) {
      const key = forecastKey({ definition, place, cell });
      const decoded = key === null ? undefined : forecasts.get(key);
      const list = place?.alerts == null ? undefined : alerts.get(place.alerts);
      const isRead = list !== undefined && list !== ALERTS_NEVER_READ;
      const alertsHash = isRead ? (place?.alerts ?? null) : null;
      if (decoded === undefined || place?.timeZone == null) return { held: null, alertsHash, fault: null };
      if ('fault' in decoded) return { held: null, alertsHash, fault: decoded.fault };
      const seen = isRead ? { ...list, fetchedAtMs: place.alertsFetchedAtMs ?? 0 } : ALERTS_NEVER_READ;
      const { forecast } = decoded;
      return { held: { forecast, alerts: seen, pointTimeZone: place.timeZone }, alertsHash, fault: null };
    },
  };
}

const keepOnly = (map: Map<string, unknown>, keys: ReadonlySet<string | null>): void => {
  for (const key of map.keys()) if (!keys.has(key)) map.delete(key);
};

/** Sites at one place share what is decoded; the moment of reception is part of an answer. */
function forecastKey({ definition, cell }: Wanted): string | null {
  if (cell === null || cell.document === null) return null;
  return `${cell.document} ${cell.cell} ${cell.receivedAtMs} ${definition.fields.at.join()}`;
}

/** Null where the document is lost or damaged: one bad row must not keep the others from being read. */
async function bytesOf(documents: DocumentRecords, hash: string): Promise<Uint8Array | null> {
  try {
    return (await documents.read(hash))?.bytes ?? null;
  } catch (fault) {
    if (fault instanceof ServiceError && fault.facts['cause'] === 'damaged') return null;
    throw fault;
  }
}

const lost = (hash: string): Decoded => ({
  fault: { code: 'store_unavailable', message: `the store has lost document ${hash.slice(0, 16)}`, atMs: 0 },
  isLost: true,
});

function decode(
  source: Pick<GridSource, 'read'>,
  hash: string,
  bytes: Uint8Array,
  { definition, cell }: Wanted,
): Decoded {
  const [latDeg, lonDeg] = definition.fields.at;
  const receivedAtMs = cell?.receivedAtMs ?? 0;
  try {
    return { forecast: source.read({ bytes, receivedAtMs, hash }, { latDeg, lonDeg }, cell?.cell ?? null) };
  } catch (fault) {
    const code = fault instanceof ServiceError ? fault.code : 'internal';
    return { fault: { code, message: messageOf(fault), atMs: receivedAtMs }, isLost: false };
  }
}
