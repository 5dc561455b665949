// A place resolved to its grid cell and zones. Kept for a day, since offices redraw their grids without notice; the
// place itself is the truth, never the cell.

import type { Place } from '#core/site/site.ts';
import { DAY_MS } from '#core/units/time.ts';
import { messageOf, ServiceError } from '#errors.ts';
import { getPath, type NwsContext, type PullLimits, statusOf } from './context.ts';
import { type PointReading, placePath, readPoint } from './point.ts';

export interface KnownPoint extends PointReading {
  readonly resolvedAtMs: number;
}

const KEPT_FOR_MS = DAY_MS;

/**
 * The place's cell and zones: the ones known where they are younger than a day, otherwise asked for. Where asking fails
 * the ones known still serve. Throws ServiceError; `outside_coverage` only for a place that was never resolved.
 */
export async function pullPoint(
  context: NwsContext,
  place: Place,
  known: KnownPoint | null,
  limits: PullLimits,
): Promise<KnownPoint> {
  if (known && context.nowMs() - known.resolvedAtMs < KEPT_FOR_MS) return known;
  try {
    return await resolvePoint(context, place, known, limits);
  } catch (fault) {
    if (!known || limits.signal?.aborted) throw fault;
    context.log.warn(
      { place: placePath(place), cell: known.point.cell },
      `cell not renewed: ${messageOf(fault)}`,
    );
    return known;
  }
}

/** Asks the service which cell and zones a place has, whatever is known. */
export async function resolvePoint(
  context: NwsContext,
  place: Place,
  known: KnownPoint | null,
  limits: PullLimits,
): Promise<KnownPoint> {
  const path = `/points/${placePath(place)}`;
  const reading = await askPoint(context, place, path, known, limits);
  const { cell } = reading.point;
  if (known && known.point.cell !== cell) {
    context.log.warn(
      { place: placePath(place), before: known.point.cell, now: cell },
      'the place has another grid cell',
    );
  }
  if (reading.lackingZones.length > 0) {
    context.log.warn(
      { place: placePath(place), kinds: reading.lackingZones },
      'the place lacks zones: alerts may be missed',
    );
  }
  return { ...reading, resolvedAtMs: context.nowMs() };
}

async function askPoint(
  context: NwsContext,
  place: Place,
  path: string,
  known: KnownPoint | null,
  limits: PullLimits,
): Promise<PointReading> {
  try {
    const { bytes } = await getPath(context, path, limits, { anew: known !== null });
    return readPoint(bytes, place);
  } catch (fault) {
    if (!(fault instanceof ServiceError)) throw fault;
    context.http.forget(`${context.baseUrl}${path}`);
    if (statusOf(fault) !== 404 && fault.code !== 'outside_coverage') throw fault;
    if (known) {
      // A place that had a grid yesterday has not left the country.
      throw new ServiceError('source_unreachable', `the service no longer knows ${placePath(place)}`, {
        cause: fault,
        retryable: true,
        facts: fault.facts,
      });
    }
    if (fault.code === 'outside_coverage') throw fault;
    throw new ServiceError('outside_coverage', `the service has no forecast for ${placePath(place)}`, {
      cause: fault,
      facts: fault.facts,
    });
  }
}
