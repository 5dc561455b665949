// Whether everything was lately brought up to date: what a watchdog elsewhere is told by a call, or by its absence.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { SiteDefinition } from '#memory/site-definition.ts';
import type { Periods } from './due.ts';

/** How late a turn may come before the round counts as broken [min]. */
const GRACE_MIN = 5;

export interface Round {
  readonly mirror: Mirror;
  readonly periods: Periods;
  /** Whether the forecast that is held gives no go any more, however well it was pulled. */
  isTooOld(siteKey: string, definition: SiteDefinition, nowMs: number): boolean;
}

/** Of the watch, which looks every minute; dated ahead is as bad as late. */
export const isWatchLate = (lastMs: number | null, nowMs: number): boolean =>
  lastMs === null || isOlder(lastMs, 1, nowMs);

/**
 * Null where every site has a forecast to go by whose cell was pulled without fault within its period and official alerts read whole
 * in theirs; else why not. A service without sites has nothing to be behind with.
 */
export function whyNotWhole({ mirror, periods, isTooOld }: Round, nowMs: number): string | null {
  const [broken] = mirror.book().broken;
  if (broken) return `site ${broken[0]} cannot be judged: ${broken[1]}`;
  for (const [key, definition] of mirror.book().sites) {
    const { placeKey } = definition;
    const place = mirror.place(placeKey);
    const cell = place?.cell ? mirror.cell(place.cell) : null;
    const { held } = mirror.state(key);
    if (held === null) return `site ${key} has no forecast`;
    if (isTooOld(key, definition, nowMs)) return `the forecast of ${key} is too old to go by`;
    if (cell === null || cell.fault !== null)
      return `cell of ${key} not pulled: ${cell?.fault?.message ?? 'never'}`;
    if (isOlder(cell.triedAtMs, periods.everyMin, nowMs)) return `cell of ${key} not pulled in time`;
    if (isOlder(place?.alertsFetchedAtMs ?? 0, periods.alertsMin, nowMs))
      return `alerts of ${key} not read in time`;
    if (!held.alerts.complete) return `alerts of ${key} not read whole`;
  }
  return null;
}

/** Dated ahead is as bad as late. */
const isOlder = (atMs: number, everyMin: number, nowMs: number): boolean =>
  nowMs - atMs > (everyMin + GRACE_MIN) * MINUTE_MS || atMs > nowMs + GRACE_MIN * MINUTE_MS;
