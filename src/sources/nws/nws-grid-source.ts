// The NWS API asked by cell, for those who keep many sites fresh. The same questions as for one place, with what is
// remembered handed in and out.

import type { Place } from '#core/site/site.ts';
import { ServiceError } from '#errors.ts';
import type { CellDocument, GridSource, LocatedPlace } from '#sources/grid-source.ts';
import type { RememberedAlert } from './alert-memory.ts';
import type { GridContext, PullLimits } from './context.ts';
import type { HeldGrid } from './newest-grid.ts';
import { placePath } from './point.ts';
import { pullAlerts, zoneCodes } from './pull-alerts.ts';
import { type AskingPlace, pullAllAlerts } from './pull-all-alerts.ts';
import { isElsewhere, pullGrid } from './pull-grid.ts';
import { type KnownPoint, pullPoint } from './pull-point.ts';

/** Asked at one a second, these take half of a reading's time; more places than that are read from one list of all. */
const MOST_QUESTIONS = 60;

const questionsOneByOne = (asking: readonly AskingPlace[]): number =>
  asking.length + new Set(asking.flatMap(({ own }) => zoneCodes(own))).size;

export function makeGridSource(
  context: GridContext,
  limitsOf: (signal?: AbortSignal) => PullLimits,
): GridSource {
  return {
    name: 'nws',
    async locate(place, before, signal) {
      return locatedOf(await pullPoint(context, place, before && knownOf(before), limitsOf(signal)));
    },
    async cell({ located, before }, signal) {
      const known = knownOf(located);
      const { place } = known.point;
      const held = before && heldOf(context, before, known.gridpointPath, place);
      if (before && held) context.http.recall(`${context.baseUrl}${held.path}`, before);
      const pulled = await pullGrid(context, place, known, held, limitsOf(signal));
      return {
        located: pulled.point === known ? located : locatedOf(pulled.point),
        document: documentOf(pulled.held),
        forecast: pulled.held.reading.forecast,
      };
    },
    async alerts(places, signal) {
      const asking = places.map(({ located, remembered }) => {
        return { own: knownOf(located), before: (remembered ?? []) as readonly RememberedAlert[] };
      });
      const limits = limitsOf(signal);
      const found =
        questionsOneByOne(asking) > MOST_QUESTIONS
          ? await pullAllAlerts(context, asking, limits)
          : await Promise.all(asking.map(({ own, before }) => pullAlerts(context, own, before, limits)));
      // A query that was called off looks like one that failed: nothing may be learnt from it.
      signal?.throwIfAborted();
      return found.map(({ fetchedAtMs, complete, remembered }) => {
        const alerts = remembered.map(({ alert }) => alert);
        return { seen: { fetchedAtMs, complete, alerts }, remembered };
      });
    },
    read({ bytes, receivedAtMs, hash }, place, cell) {
      const options = { fetchedAtMs: receivedAtMs, place, documentId: hash };
      const reading = context.readGrid(bytes, options);
      const { forecast } = reading;
      if (isElsewhere(reading, cell ?? forecast.cell)) {
        throw new ServiceError(
          'source_unreadable',
          `cell ${cell ?? forecast.cell} does not hold ${placePath(place)}`,
        );
      }
      return forecast;
    },
  };
}

const locatedOf = (known: KnownPoint): LocatedPlace => ({
  point: known.point,
  locatedAtMs: known.resolvedAtMs,
  kept: known,
});

const knownOf = (located: LocatedPlace): KnownPoint => located.kept as KnownPoint;

/** Null where what was kept can no longer be read: the next document is then taken as the first. */
function heldOf(
  { readGrid }: GridContext,
  before: CellDocument,
  path: string,
  place: Place,
): HeldGrid | null {
  const { bytes, hash, receivedAtMs, confirmedAtMs, etag, lastModified } = before;
  try {
    const reading = readGrid(bytes, { fetchedAtMs: receivedAtMs, place, documentId: hash });
    return { path, bytes, reading, confirmedAtMs, etag, lastModified };
  } catch {
    return null;
  }
}

const documentOf = ({ bytes, reading, confirmedAtMs, etag, lastModified }: HeldGrid): CellDocument => ({
  bytes,
  hash: reading.forecast.documentId,
  receivedAtMs: reading.forecast.fetchedAtMs,
  confirmedAtMs,
  etag,
  lastModified,
});
