// The forecast that a what-if is judged by. What the service keeps fresh serves it too and is never pulled for it; any other
// place is asked for here, and what came is used again for as long as a turn would have left it alone.

import { placeKeyAt } from '#core/site/place-key.ts';
import type { Place } from '#core/site/site.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import type { Periods } from '#jobs/due.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { HeldForecast } from '#memory/site-state.ts';
import type { CellDocument, GridSource, LocatedPlace, PlaceAlerts } from '#sources/grid-source.ts';
import type { DocumentRecords } from '#store/store.ts';
import { createLastUsed } from './last-used.ts';

export interface WhatIfForecasts {
  /** Throws ServiceError `no_forecast` where the service is about to have one, or what the source throws. */
  at(place: Place, signal?: AbortSignal): Promise<HeldForecast>;
}

export interface WhatIfForecastsOptions {
  readonly mirror: Mirror;
  readonly documents: Pick<DocumentRecords, 'read'>;
  readonly source: GridSource;
  readonly periods: Periods;
  readonly nowMs: () => number;
}

/** Places and cells remembered; a document has some 200 kB. */
const MOST_PLACES = 500;
const MOST_CELLS = 50;

interface Asked<T> {
  readonly atMs: number;
  readonly of: T;
}

export function createWhatIfForecasts(options: WhatIfForecastsOptions): WhatIfForecasts {
  const { mirror, source, periods, nowMs } = options;
  const located = createLastUsed<LocatedPlace>(MOST_PLACES);
  const alerts = createLastUsed<Asked<PlaceAlerts>>(MOST_PLACES);
  const documents = createLastUsed<Asked<CellDocument>>(MOST_CELLS);
  const isLately = ({ atMs }: Asked<unknown>, min: number): boolean =>
    nowMs() >= atMs && nowMs() - atMs < min * MINUTE_MS;

  async function alertsOf(key: string, place: LocatedPlace, signal?: AbortSignal): Promise<PlaceAlerts> {
    const before = alerts.get(key);
    if (before?.of.seen.complete && isLately(before, periods.alertsMin)) return before.of;
    const asked = { located: place, remembered: before?.of.remembered ?? null };
    const [found] = await source.alerts([asked], signal);
    if (found === undefined) throw new RangeError('no list of alerts for a place');
    alerts.set(key, { atMs: nowMs(), of: found });
    return found;
  }

  /** The document of a cell that no site lies in. */
  async function ownDocument(key: string, place: LocatedPlace, signal?: AbortSignal) {
    const { cell } = place.point;
    const before = documents.get(cell);
    const pullMin = Math.min(periods.everyMin, periods.nearShiftMin);
    if (before && isLately(before, pullMin)) return { place, document: before.of };
    const pulled = await source.cell({ located: place, before: before?.of ?? null }, signal);
    documents.set(pulled.located.point.cell, { atMs: nowMs(), of: pulled.document });
    located.set(key, pulled.located);
    return { place: pulled.located, document: pulled.document };
  }

  return {
    async at(place, signal) {
      const key = placeKeyAt([place.latDeg, place.lonDeg]);
      const own = siteAt(mirror, key);
      if (own !== null) return heldOf(mirror, own);
      const known = await source.locate(place, located.get(key) ?? null, signal);
      located.set(key, known);
      // Turns pull a cell where some site lies in it.
      const isKept = mirror.sitesIn(known.point.cell).length > 0;
      const kept = isKept ? await keptDocument(options, known.point.cell) : null;
      const found = kept ? { place: known, document: kept } : await ownDocument(key, known, signal);
      const { point } = found.place;
      return {
        forecast: source.read(found.document, place, point.cell),
        alerts: (await alertsOf(key, found.place, signal)).seen,
        pointTimeZone: point.timeZone,
      };
    },
  };
}

/** A site of the service at that very place. */
function siteAt(mirror: Mirror, key: string): string | null {
  for (const [siteKey, { placeKey }] of mirror.book().sites) if (placeKey === key) return siteKey;
  return null;
}

function heldOf(mirror: Mirror, siteKey: string): HeldForecast {
  const { held, fault } = mirror.state(siteKey);
  if (held !== null) return held;
  throw noForecast(fault?.message ?? null);
}

async function keptDocument(
  { mirror, documents }: WhatIfForecastsOptions,
  cell: string,
): Promise<Pick<CellDocument, 'bytes' | 'receivedAtMs' | 'hash'>> {
  const state = mirror.cell(cell);
  const hash = state?.document ?? null;
  const found = hash === null ? null : await documents.read(hash);
  if (hash === null || found === null) throw noForecast(state?.fault?.message ?? null);
  return { bytes: found.bytes, hash, receivedAtMs: state?.receivedAtMs ?? 0 };
}

const noForecast = (why: string | null): ServiceError =>
  new ServiceError(
    'no_forecast',
    `no forecast for that place${why === null ? ' yet; the first pull is under way' : `: ${why}`}`,
    { retryable: true },
  );
