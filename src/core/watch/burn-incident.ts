// What a dispatch center calls a burn: its own reference, for its own programs. Nothing is judged by it.

export interface BurnIncident {
  readonly id: string;
  readonly burn: string;
  /** Null: taken back. */
  readonly reference: string | null;
  readonly by: string;
  readonly atMs: number;
}

/** `incidents`: of one burn, in the order in which they were assigned. */
export const incidentRef = (incidents: readonly BurnIncident[]): string | null =>
  incidents.at(-1)?.reference ?? null;
