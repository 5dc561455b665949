// Turn: the newest forecast document of one grid cell, for all sites in it.

import type { CellDocument, PulledCell } from '#sources/grid-source.ts';
import type { Batch } from '#store/batch.ts';
import type { CellState } from '#store/cell-state.ts';
import type { PlaceState } from '#store/place-state.ts';
import type { TurnDeps } from './deps.ts';
import { storedFault } from './fault.ts';
import { locatedOf, patchOf } from './locate-place.ts';

export async function pullCell(
  deps: TurnDeps,
  cell: string,
  cycle: number,
  signal: AbortSignal,
): Promise<Batch> {
  const { store, source, nowMs, log, tally } = deps;
  const lead = leadOf(deps, cell) ?? (await newLeadOf(deps, cell));
  const located = locatedOf(lead);
  // The last site of the cell has gone, or has moved.
  if (lead === null || located === null) return {};
  const state = (await store.forecasts.cells([cell]))[0] ?? null;
  try {
    const before = state && (await documentOf(deps, state));
    const pulled = await source.cell({ located, before }, signal);
    const isNew = pulled.document.hash !== state?.document;
    tally.pulled(cell, isNew ? 'new' : 'same', null);
    const facts = { cell, hash: pulled.document.hash.slice(0, 16), isNew };
    log.info(facts, 'forecast pulled');
    return batchOf(deps, { lead, cell, cycle }, pulled);
  } catch (fault) {
    signal.throwIfAborted();
    const told = storedFault(fault, nowMs());
    tally.pulled(cell, 'failed', told.code);
    log.warn({ cell, ...told }, 'forecast not pulled');
    const { version: _, ...last } = state ?? neverPulled(cell);
    // A source that is left alone has not failed for this cell alone.
    const failures = last.failures + (told.againAtMs === undefined ? 1 : 0);
    return { cells: [{ ...last, fault: told, failures, cycle, triedAtMs: nowMs() }] };
  }
}

/** Of the places in a cell, the first by name speaks for all. */
function leadOf({ mirror }: TurnDeps, cell: string): PlaceState | null {
  let lead: PlaceState | null = null;
  for (const state of mirror.places()) {
    if (state.cell === cell && (lead === null || state.place < lead.place)) lead = state;
  }
  return lead;
}

/** Whoever handed the turn over may know of a place that this process has not heard of yet: the cell would lose its cycle. */
async function newLeadOf(deps: TurnDeps, cell: string): Promise<PlaceState | null> {
  await deps.mirror.sync();
  return leadOf(deps, cell);
}

async function documentOf({ store }: TurnDeps, state: CellState): Promise<CellDocument | null> {
  if (state.document === null) return null;
  const found = await store.documents.read(state.document).catch(() => null);
  return (
    found && {
      bytes: found.bytes,
      hash: state.document,
      receivedAtMs: state.receivedAtMs ?? 0,
      confirmedAtMs: state.confirmedAtMs ?? 0,
      etag: state.etag,
      lastModified: state.lastModified,
    }
  );
}

interface Asked {
  readonly lead: PlaceState;
  readonly cell: string;
  readonly cycle: number;
}

function batchOf(deps: TurnDeps, { lead, cell, cycle }: Asked, pulled: PulledCell): Batch {
  const { document, forecast, located } = pulled;
  const now = located.point.cell;
  const state = {
    cell: now,
    document: document.hash,
    receivedAtMs: document.receivedAtMs,
    confirmedAtMs: document.confirmedAtMs,
    issuedAtMs: forecast.issuedAtMs,
    etag: document.etag,
    lastModified: document.lastModified,
    fault: null,
    failures: 0,
    cycle,
    triedAtMs: deps.nowMs(),
  };
  const documents = [{ hash: document.hash, kind: 'gridpoint' as const, bytes: document.bytes }];
  const leadPatch = located === locatedOf(lead) ? [] : [patchOf(lead.place, located, locatedOf(lead))];
  if (now === cell) return { documents, cells: [state], places: leadPatch };
  // The source has moved the place to another cell: every other place of the old one is to be asked about anew.
  deps.log.warn({ place: lead.place, before: cell, now }, 'the place has another grid cell');
  const others = [...deps.mirror.places()].filter((p) => p.cell === cell && p.place !== lead.place);
  return {
    documents,
    cells: [state],
    places: [...leadPatch, ...others.map(({ place }) => ({ place, locatedAtMs: 0 }))],
  };
}

const neverPulled = (cell: string): CellState => ({
  cell,
  document: null,
  receivedAtMs: null,
  confirmedAtMs: null,
  issuedAtMs: null,
  etag: null,
  lastModified: null,
  fault: null,
  failures: 0,
  cycle: 0,
  triedAtMs: 0,
  version: 0,
});
