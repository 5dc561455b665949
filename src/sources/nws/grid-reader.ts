// Grids decoded once for all the places that lie in a cell: a document is large, and many sites may be judged by it.

import {
  type DecodedGridpoint,
  decodeGridpoint,
  documentIdOf,
  type GridpointOptions,
  type GridpointReading,
  placeInGrid,
} from './gridpoint.ts';

/** As `readGridpoint`. A `documentId` that is given must be that of the bytes. */
export type GridReader = (bytes: Uint8Array, options: GridpointOptions) => GridpointReading;

/** Keeps so many documents decoded; the longest unused go first. The moment of reception is part of what is kept. */
export function makeGridReader(mostKept: number, decode = decodeGridpoint): GridReader {
  const kept = new Map<string, DecodedGridpoint>();
  return (bytes, { fetchedAtMs, place, documentId = documentIdOf(bytes) }) => {
    const key = `${documentId} ${fetchedAtMs}`;
    const decoded = kept.get(key) ?? decode(bytes, { fetchedAtMs, documentId });
    kept.delete(key);
    kept.set(key, decoded);
    const oldest = kept.keys().next();
    if (kept.size > mostKept && !oldest.done) kept.delete(oldest.value);
    return placeInGrid(decoded, place ?? null);
  };
}
