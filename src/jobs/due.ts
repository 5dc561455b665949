// What is due at a moment. Pure: states in, turns out. A moment that was missed asks for nothing of its own: what is due is
// due once, however long ago the last turn was.

import { localDaysFrom } from '#core/site/local-day.ts';
import { shiftsOn } from '#core/site/shift.ts';
import type { Shift } from '#core/site/site.ts';
import { addDays, localDateAt } from '#core/units/local-time.ts';
import { DAY_MS, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { CellState } from '#store/cell-state.ts';
import type { PlaceState } from '#store/place-state.ts';
import type { Turn } from './turn.ts';

export interface Periods {
  /** Between pulls of a cell. */
  readonly everyMin: number;
  /** The same while a fire is open or a shift lasts at one of its sites, or begins within three hours. */
  readonly nearShiftMin: number;
  readonly alertsMin: number;
  /** Between calls to a watchdog elsewhere; null where none is to be called. */
  readonly heartbeatMin: number | null;
}

export interface DueSite {
  readonly placeKey: string;
  readonly shifts: readonly Shift[];
  readonly place: PlaceState | null;
  /** A fire is open there. */
  readonly isBurning?: boolean;
}

export interface Known {
  readonly sites: readonly DueSite[];
  cell(name: string): CellState | null;
  /** There are stations that are to be asked. */
  readonly observes?: boolean;
}

export function dueTurns(known: Known, periods: Periods, nowMs: number): Turn[] {
  const minute = cycleOf(nowMs, 1, 0);
  const turns: Turn[] = [...dueLocates(known, nowMs), ...duePulls(known, periods, nowMs)];
  if (known.sites.some(({ place }) => isLocated(place))) {
    turns.push({ kind: 'alerts', subject: '', cycle: cycleOf(nowMs, periods.alertsMin, 0) });
  }
  if (known.sites.some(({ place }) => isLocated(place) && place?.alerts === null)) {
    turns.push({ kind: 'alerts', subject: 'unread', cycle: minute });
  }
  turns.push({ kind: 'plan', subject: '', cycle: minute });
  turns.push({ kind: 'watch', subject: '', cycle: minute });
  if (known.observes) turns.push({ kind: 'observe', subject: '', cycle: minute });
  if (periods.heartbeatMin !== null)
    turns.push({ kind: 'heartbeat', subject: '', cycle: cycleOf(nowMs, periods.heartbeatMin, 0) });
  turns.push({ kind: 'expire', subject: '', cycle: cycleOf(nowMs, DAY_MS / MINUTE_MS, 0) });
  return turns;
}

const isLocated = (place: PlaceState | null): boolean => place !== null && place.cell !== null;

/** Places that were never resolved, or more than a day ago; a failed resolving waits longer each time, an hour at most. */
function dueLocates({ sites }: Known, nowMs: number): Turn[] {
  const places = new Map(sites.map(({ placeKey, place }) => [placeKey, place]));
  const turns: Turn[] = [];
  for (const [subject, place] of places) {
    const renewMs = (place?.locatedAtMs ?? 0) + DAY_MS;
    const fault = place?.fault ?? null;
    const retryMs = fault ? fault.atMs + LOCATE_RETRY_MS : Number.NEGATIVE_INFINITY;
    const ahead = (place?.locatedAtMs ?? 0) > nowMs + MINUTE_MS;
    if (ahead || (nowMs >= renewMs && nowMs >= retryMs)) {
      turns.push({ kind: 'locate', subject, cycle: cycleOf(nowMs, 5, spread(subject, 5)) });
    } else if (nowMs >= renewMs && nowMs >= (fault?.againAtMs ?? Number.POSITIVE_INFINITY)) {
      turns.push({ kind: 'locate', subject, cycle: cycleOf(nowMs, 1, 0) + 2 });
    }
  }
  return turns;
}

const LOCATE_RETRY_MS = 5 * MINUTE_MS;

function duePulls({ sites, cell }: Known, periods: Periods, nowMs: number): Turn[] {
  const byCell = Map.groupBy(sites, ({ place }) => place?.cell ?? null);
  const due: { turn: Turn; failures: number }[] = [];
  for (const [name, own] of byCell) {
    if (name === null) continue;
    const state = cell(name);
    const cycle = dueCycle(name, state, periodMin(own, periods, nowMs), nowMs);
    if (cycle === null) continue;
    due.push({ turn: { kind: 'pull', subject: name, cycle }, failures: state?.failures ?? 0 });
  }
  // The sound ones first: cells that fail by themselves must not be the ones by which the whole source is judged.
  return due.sort((a, b) => a.failures - b.failures).map(({ turn }) => turn);
}

/** The turn in which a cell is to be pulled now; null where it has been. Cells are spread over the period by name. */
function dueCycle(name: string, state: CellState | null, everyMin: number, nowMs: number): number | null {
  const cycle = cycleOf(nowMs, everyMin, spread(name, everyMin));
  if (state === null) return cycle;
  // A clock that was set back must not keep a cell waiting until it has caught up; the odd second keeps turns apart.
  if (state.triedAtMs > nowMs + MINUTE_MS) return cycleOf(nowMs, 1, 0) + 1;
  if (state.triedAtMs < cycle * 1000) return cycle;
  return nowMs >= retryAtMs(state, everyMin) ? cycleOf(nowMs, 1, 0) + 2 : null;
}

/**
 * After 1, 2, 4, 8 … minutes, the more failures in a row the later. Where the source as a whole is left alone, as soon as it
 * may be asked again: the wait for it is not one for this cell.
 */
function retryAtMs({ triedAtMs, failures, fault }: CellState, everyMin: number): number {
  if (fault?.againAtMs !== undefined) return fault.againAtMs;
  return failures === 0
    ? Number.POSITIVE_INFINITY
    : triedAtMs + Math.min(everyMin, 2 ** (failures - 1)) * MINUTE_MS;
}

function periodMin(sites: readonly DueSite[], { everyMin, nearShiftMin }: Periods, nowMs: number): number {
  return nearShiftMin < everyMin && sites.some((site) => isNear(site, nowMs)) ? nearShiftMin : everyMin;
}

const isNear = (site: DueSite, nowMs: number): boolean => site.isBurning === true || isNearShift(site, nowMs);

const NEAR_SHIFT_MS = 3 * HOUR_MS;

/** Whether a shift lasts, or begins within three hours. A site whose zone is not known yet counts as near. */
export function isNearShift({ shifts, place }: DueSite, nowMs: number): boolean {
  const timeZone = place?.timeZone ?? null;
  if (timeZone === null) return true;
  const days = localDaysFrom(addDays(localDateAt(nowMs, timeZone), -1), 4, timeZone);
  return shiftsOn(shifts, days, timeZone).some((s) => s.fromMs - NEAR_SHIFT_MS <= nowMs && nowMs < s.toMs);
}

/** The newest multiple of a period, moved by an offset, that is not after now [s since 1970]. */
export function cycleOf(nowMs: number, everyMin: number, offsetMin: number): number {
  const everyMs = everyMin * MINUTE_MS;
  const offsetMs = offsetMin * MINUTE_MS;
  return (Math.floor((nowMs - offsetMs) / everyMs) * everyMs + offsetMs) / 1000;
}

/** A whole minute within the period, by name: always the same for the same name (FNV-1a, 32 bits). */
export function spread(name: string, everyMin: number): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < name.length; i += 1) {
    hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193);
  }
  return (hash >>> 0) % everyMin;
}
