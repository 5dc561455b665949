// The newest raw grid of one cell. Freshness is judged by the update time inside the body: caches on the way have served
// grids that were days old.

import type { Place } from '#core/site/site.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { type GridContext, getPath, type PullLimits } from './context.ts';
import { documentIdOf, type GridpointReading } from './gridpoint.ts';

export interface HeldGrid {
  readonly path: string;
  readonly reading: GridpointReading;
  /** The document as it was received. */
  readonly bytes: Uint8Array;
  /** When the service last confirmed it [epoch ms]. */
  readonly confirmedAtMs: number;
  readonly etag: string | null;
  readonly lastModified: string | null;
}

/** A grid older than this is aged, and may come from a stale cache. */
const AGED_MS = 8 * HOUR_MS;
/** How far a clock may run ahead of ours. */
const SKEW_MS = 10 * MINUTE_MS;

/** The newest of what the service gives and what we hold of that cell; on suspicion the service is asked once more. */
export async function newestGrid(
  context: GridContext,
  place: Place,
  path: string,
  held: HeldGrid | null,
  limits: PullLimits,
): Promise<HeldGrid> {
  const ours = held?.path === path ? held : null;
  let found = await askGrid(context, place, path, ours, limits);
  const doubt = doubtAbout(found.reading, ours, context.nowMs());
  if (doubt !== null) {
    const second = await askAnew(context, place, path, limits).catch(() => null);
    const helped = second !== null && isNewer(second.reading, found.reading);
    context.log.info({ path, doubt, helped }, 'grid asked for once more');
    if (helped) found = second;
  }
  if (ours !== null && isOlder(found.reading, ours)) {
    context.http.forget(`${context.baseUrl}${path}`);
    const { issuedAtMs } = found.reading.forecast;
    context.log.warn(
      { path, issuedAtMs, oursMs: ours.reading.forecast.issuedAtMs },
      'an older grid came: ours is kept',
    );
    return ours;
  }
  if (ours !== null) noteUnits(context, path, ours.reading, found.reading);
  return found;
}

/** Reads the grid; a body that is no grid is forgotten and asked for once more, whole. */
async function askGrid(
  context: GridContext,
  place: Place,
  path: string,
  ours: HeldGrid | null,
  limits: PullLimits,
): Promise<HeldGrid> {
  const { bytes, receivedAtMs, confirmedAtMs, etag, lastModified } = await getPath(context, path, limits);
  const documentId = documentIdOf(bytes);
  const told = { path, confirmedAtMs, etag, lastModified };
  if (ours?.reading.forecast.documentId === documentId) return { ...ours, ...told };
  try {
    return {
      ...told,
      bytes,
      reading: context.readGrid(bytes, { fetchedAtMs: receivedAtMs, place, documentId }),
    };
  } catch (fault) {
    context.http.forget(`${context.baseUrl}${path}`);
    context.log.warn({ path }, fault instanceof Error ? fault.message : 'a grid that cannot be read');
    return await askAnew(context, place, path, limits);
  }
}

async function askAnew(
  context: GridContext,
  place: Place,
  path: string,
  limits: PullLimits,
): Promise<HeldGrid> {
  const { bytes, receivedAtMs, confirmedAtMs, etag, lastModified } = await getPath(context, path, limits, {
    anew: true,
  });
  const told = { path, confirmedAtMs, etag, lastModified };
  try {
    return { ...told, bytes, reading: context.readGrid(bytes, { fetchedAtMs: receivedAtMs, place }) };
  } catch (fault) {
    context.http.forget(`${context.baseUrl}${path}`);
    throw fault;
  }
}

/** Why a grid may not be the newest, or null. */
function doubtAbout(reading: GridpointReading, ours: HeldGrid | null, nowMs: number): string | null {
  const { issuedAtMs } = reading.forecast;
  if (issuedAtMs === null) return 'undated';
  if (issuedAtMs > nowMs + SKEW_MS) return 'dated ahead';
  if (ours !== null && isOlder(reading, ours)) return 'older than ours';
  return nowMs - issuedAtMs > AGED_MS ? 'aged' : null;
}

/** A grid of ours that was dated ahead, or not at all, is no yardstick: else it would bar every later one. */
function isOlder(reading: GridpointReading, ours: HeldGrid): boolean {
  const { issuedAtMs, fetchedAtMs } = ours.reading.forecast;
  if (issuedAtMs === null || issuedAtMs > fetchedAtMs + SKEW_MS) return false;
  return reading.forecast.issuedAtMs !== null && reading.forecast.issuedAtMs < issuedAtMs;
}

/** True where `a` is to be preferred: dated where `b` is not, not ahead where `b` is, or later. */
function isNewer(a: GridpointReading, b: GridpointReading): boolean {
  const [issuedA, issuedB] = [a.forecast.issuedAtMs, b.forecast.issuedAtMs];
  if (issuedA === null || issuedB === null) return issuedA !== null;
  const [aheadA, aheadB] = [a, b].map(
    ({ forecast }) => (forecast.issuedAtMs ?? 0) > forecast.fetchedAtMs + SKEW_MS,
  );
  return aheadA !== aheadB ? aheadB === true : issuedA > issuedB;
}

function noteUnits(
  context: GridContext,
  path: string,
  before: GridpointReading,
  now: GridpointReading,
): void {
  for (const [layer, unit] of Object.entries(now.units)) {
    const was = before.units[layer];
    if (was !== undefined && was !== unit)
      context.log.warn({ path, layer, was, unit }, 'a layer has another unit');
  }
}
