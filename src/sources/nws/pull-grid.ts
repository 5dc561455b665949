// The grid of a place, of the cell that holds it: cells have moved under their names, and names have gone.

import type { Place } from '#core/site/site.ts';
import { ServiceError } from '#errors.ts';
import { type GridContext, type PullLimits, statusOf } from './context.ts';
import type { GridpointReading } from './gridpoint.ts';
import { type HeldGrid, newestGrid } from './newest-grid.ts';
import { placePath } from './point.ts';
import { type KnownPoint, resolvePoint } from './pull-point.ts';

export interface PulledGrid {
  /** The cell that the grid is of: another than was asked for where the place had moved. */
  readonly point: KnownPoint;
  readonly held: HeldGrid;
}

/** A model terrain that jumps by more than this is another cell under the old name [m]. */
const ELEVATION_JUMP_M = 300;
/**
 * A place that lies farther than this outside of the very cell that the service names for it gets no forecast [m]. Less
 * is a neighbour's air and is only flagged: a recorded pair of 2022 lies 1 km apart.
 */
const FARTHEST_OUTSIDE_M = 5_000;

/**
 * Pulls the grid. Where the cell is refused (404, 503), no longer holds the place or has jumped in height, the place is
 * resolved again at once. A cell that still does not hold the place is flagged in the forecast's faults. Throws
 * ServiceError, also where such a cell lies more than 5 km off: a forecast for somewhere else is none.
 */
export async function pullGrid(
  context: GridContext,
  place: Place,
  point: KnownPoint,
  held: HeldGrid | null,
  limits: PullLimits,
): Promise<PulledGrid> {
  let first: HeldGrid | null = null;
  let refusal: unknown = null;
  try {
    first = await newestGrid(context, place, point.gridpointPath, held, limits);
    if (isTheCell(first, held, point.point.cell)) return taken(context, point, first);
    const { holdsPlace, elevationM, forecast } = first.reading;
    context.log.warn(
      { cell: forecast.cell, holdsPlace, elevationM },
      'the cell does not fit the place: resolving again',
    );
  } catch (fault) {
    const status = statusOf(fault);
    if (status !== 404 && status !== 503) throw fault;
    refusal = fault;
  }
  const again = await resolvePoint(context, place, point, limits).catch((fault: unknown) => {
    throw refusal === null ? fault : lasting(refusal);
  });
  const moved = again.gridpointPath !== point.gridpointPath;
  // A 503 is said of the office's grid, not of the cell's name: asking again would only add load.
  if (!moved && statusOf(refusal) === 503) throw refusal;
  const second =
    first !== null && !moved
      ? first
      : await askAgain(context, place, again.gridpointPath, moved ? null : held, limits);
  if (isElsewhere(second.reading, again.point.cell)) {
    throw new ServiceError(
      'source_unreadable',
      `cell ${again.point.cell} does not hold ${placePath(place)}`,
      {
        retryable: true,
        facts: { cell: again.point.cell, place: placePath(place) },
      },
    );
  }
  return taken(context, again, second);
}

/** A cell that the service has just named and now does not know is its fault, not the place's. */
const askAgain = (
  context: GridContext,
  place: Place,
  path: string,
  held: HeldGrid | null,
  limits: PullLimits,
): Promise<HeldGrid> =>
  newestGrid(context, place, path, held, limits).catch((fault: unknown) => {
    throw lasting(fault);
  });

function lasting(fault: unknown): unknown {
  if (!(fault instanceof ServiceError) || statusOf(fault) !== 404) return fault;
  return new ServiceError(
    'source_unreachable',
    `the service does not know the cell that it named: ${fault.message}`,
    {
      cause: fault,
      retryable: true,
      facts: fault.facts,
    },
  );
}

/**
 * True for a grid too far off, and for one under another name that does not show that it holds the place. Without an
 * outline the name is all there is to go by, so that one without a name is elsewhere, too.
 */
export function isElsewhere(
  { outsideM, holdsPlace, forecast }: Pick<GridpointReading, 'outsideM' | 'holdsPlace' | 'forecast'>,
  cell: string,
): boolean {
  if (outsideM === null) return forecast.cell !== cell;
  return outsideM > FARTHEST_OUTSIDE_M || (isNamedOtherwise(forecast.cell, cell) && holdsPlace !== true);
}

const isNamedOtherwise = (named: string, cell: string): boolean => named !== '' && named !== cell;

/** A grid under another name that holds the place is the place's own: told, and taken. */
function taken(context: GridContext, point: KnownPoint, held: HeldGrid): PulledGrid {
  const named = held.reading.forecast.cell;
  const { cell } = point.point;
  if (isNamedOtherwise(named, cell)) {
    context.log.warn({ cell, named }, 'the grid names another cell but holds the place');
  }
  return { point, held };
}

function isTheCell(now: HeldGrid, before: HeldGrid | null, cell: string): boolean {
  if (now.reading.holdsPlace === false || isElsewhere(now.reading, cell)) return false;
  const heightM = now.reading.elevationM;
  const beforeM = before?.path === now.path ? before.reading.elevationM : null;
  return heightM === null || beforeM === null || Math.abs(heightM - beforeM) <= ELEVATION_JUMP_M;
}
