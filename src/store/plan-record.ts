// A plan as it is kept: not its hours, but everything that it was made from, so that any answer can be made again byte
// for byte, and a summary to compare the next plan with.

/** What a plan was made from. With a moment and a question it gives an answer's very bytes. */
export interface PlanBasis {
  /** Hash of the site's definition with its limits and orders. */
  readonly definition: string;
  /** Hash of the forecast document. */
  readonly document: string;
  readonly documentReceivedAtMs: number;
  /** Hash of the list of alerts, `complete` or not. */
  readonly alerts: string;
  readonly alertsFetchedAtMs: number;
  readonly pointTimeZone: string;
}

export interface PlanRecord {
  readonly planId: string;
  /** `organisation/id`. */
  readonly site: string;
  readonly madeAtMs: number;
  /** Why it was made. */
  readonly cause: 'forecast' | 'alerts' | 'definition' | 'time';
  readonly basis: PlanBasis;
  readonly firstDate: string;
  readonly dayCount: number;
  /** Then ages pass a threshold and the plan is to be made again [epoch ms]; null: never. */
  readonly goodUntilMs: number | null;
  /** SHA-256 of the windows answer over these days. */
  readonly answerHash: string;
  /** Version of the program that made it. */
  readonly program: string;
  /** Days with verdicts, times and reasons; JSON. */
  readonly summary: unknown;
}
