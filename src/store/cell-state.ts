// What is known of one grid cell: its newest document, when it was confirmed, and what went wrong last.

export interface StoredFault {
  readonly code: string;
  readonly message: string;
  readonly atMs: number;
  /** When it may be tried again, where the source as a whole has failed and is left alone for a while [epoch ms]. */
  readonly againAtMs?: number;
}

export interface CellState {
  /** `BMX 59,84`. */
  readonly cell: string;
  /** Hash of the newest document; null before the first. */
  readonly document: string | null;
  /** When that content was first received [epoch ms]. */
  readonly receivedAtMs: number | null;
  /** When the source last confirmed it [epoch ms]. */
  readonly confirmedAtMs: number | null;
  /** The document's own update time. */
  readonly issuedAtMs: number | null;
  readonly etag: string | null;
  readonly lastModified: string | null;
  /** Set by a failed pull, cleared by the next good one. */
  readonly fault: StoredFault | null;
  /** Failed pulls in a row; one in which the source as a whole failed counts neither way. */
  readonly failures: number;
  /** The last turn that was done, good or not. */
  readonly cycle: number;
  /** When that turn was done [epoch ms]. */
  readonly triedAtMs: number;
  /** Rises by one with every write. */
  readonly version: number;
}
