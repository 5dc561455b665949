// Official alerts (watches, warnings, advisories) as the rules read them.

export interface OfficialAlert {
  readonly id: string;
  /** Event name as issued, `Red Flag Warning`. */
  readonly event: string;
  /** When the event begins and ends; null where the alert does not say. */
  readonly fromMs: number | null;
  readonly toMs: number | null;
  readonly sentMs: number | null;
  readonly senderName: string;
  readonly headline: string;
  /** True where only the zone's code fits, not its kind (public, fire, county): it may not be ours. */
  readonly possible: boolean;
}

export interface AlertsSeen {
  readonly fetchedAtMs: number;
  /** False where one of the queries that make up the list failed: alerts may be lacking. */
  readonly complete: boolean;
  readonly alerts: readonly OfficialAlert[];
}

/** Alerts of which nothing is known; that alone is a hold. */
export const ALERTS_NEVER_READ: AlertsSeen = { fetchedAtMs: 0, complete: false, alerts: [] };

/** An event's name for comparing: case and spacing do not count. */
export const plainEventName = (event: string): string => event.trim().replace(/\s+/g, ' ').toLowerCase();
