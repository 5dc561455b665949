// The state of one site as answers need it: the forecast and alerts held, when they were confirmed, what went wrong last,
// and a version that rises with every change of what an answer is made from.

import type { Forecast } from '#core/series/forecast.ts';
import type { AlertsSeen } from '#core/series/official-alert.ts';
import type { CellState, StoredFault } from '#store/cell-state.ts';
import type { PlaceState } from '#store/place-state.ts';
import type { SiteDefinition } from './site-definition.ts';

export interface HeldForecast {
  readonly forecast: Forecast;
  readonly alerts: AlertsSeen;
  /** The forecast point's own zone. */
  readonly pointTimeZone: string;
}

export interface SiteState {
  readonly held: HeldForecast | null;
  /** Hash of the list of alerts held; null where none was ever read, or it is lost. */
  readonly alertsHash: string | null;
  /** When the source last confirmed what is held. */
  readonly checkedAtMs: number | null;
  /** Set by a failed pull, cleared by the next good one. */
  readonly fault: StoredFault | null;
  /** Rises when what an answer is made from changes in content; the same content pulled again leaves it. */
  readonly version: number;
  /** Hash of the site's definition that the version speaks of. */
  readonly definition: string | null;
}

export const NOTHING_HELD: SiteState = {
  held: null,
  alertsHash: null,
  checkedAtMs: null,
  fault: null,
  version: 0,
  definition: null,
};

export interface Joined {
  readonly definition: SiteDefinition;
  readonly place: PlaceState | null;
  readonly cell: CellState | null;
  readonly held: HeldForecast | null;
  readonly alertsHash: string | null;
  readonly fault: StoredFault | null;
}

/** `newVersion` is the version that the state gets where it is another than before. */
export function joinState(
  before: SiteState,
  { definition, place, cell, held, alertsHash, fault }: Joined,
  newVersion: number,
): SiteState {
  const same =
    before.definition === definition.hash &&
    before.alertsHash === alertsHash &&
    before.held?.forecast === held?.forecast &&
    before.held?.pointTimeZone === held?.pointTimeZone;
  return {
    held,
    alertsHash,
    checkedAtMs: cell?.confirmedAtMs ?? null,
    fault: fault ?? cell?.fault ?? place?.fault ?? null,
    version: same ? before.version : newVersion,
    definition: definition.hash,
  };
}
