// Tables of subscriptions, as the query layer sees them.

export interface HookTables {
  subscriptions: {
    id: string;
    organisation: string;
    revision: number;
    /** JSON. */
    body: string;
    /** Prefix of the key that wrote it last. */
    ownerKey: string | null;
    /** JSON. */
    secrets: string;
    madeAtMs: number;
    changedAtMs: number;
    changedBy: string;
  };
  /** How far each has come, apart from what was written: it changes with every event. */
  hookStates: {
    subscription: string;
    turn: number;
    position: number;
    refusals: number;
    firstTriedAtMs: number | null;
    failures: number;
    failingSinceMs: number | null;
    nextAtMs: number;
    missedFrom: number | null;
    missedTo: number | null;
    missedCount: number;
    endedWhy: string | null;
    endedAtMs: number | null;
    attempts: number;
    lastTakenAtMs: number | null;
    /** Empty: nobody is at it. */
    worker: string;
    /** By the database's clock. */
    claimedAtMs: number;
  };
  hookAttempts: {
    subscription: string;
    number: number;
    webhookId: string;
    type: string;
    atMs: number;
    tookMs: number;
    outcome: string;
    status: number | null;
    reason: string | null;
    detail: string | null;
  };
}
