// The tables as the query layer sees them: columns in camel case here, in snake case in the database. Instants are epoch
// milliseconds, JSON is text. A change here needs a migration (src/store/migrations).

import type { Generated } from 'kysely';
import type { HookTables } from '#store/hooks/tables.ts';
import type { WatchTables } from '#store/watch/tables.ts';
import type { CapTables } from './cap-tables.ts';

export interface Tables extends WatchTables, HookTables, CapTables {
  definitions: {
    organisation: string;
    kind: string;
    id: string;
    revision: number;
    body: string | null;
    origin: string;
    changedAtMs: number;
    changedBy: string;
  };
  documents: {
    hash: string;
    kind: string;
    /** Bytes before compression. */
    size: number;
    /** Compressed with zstd. */
    packed: Uint8Array;
    /** When something last came to refer to it, to the day: what retention goes by. */
    usedAtMs: number;
  };
  cells: {
    cell: string;
    document: string | null;
    receivedAtMs: number | null;
    confirmedAtMs: number | null;
    issuedAtMs: number | null;
    etag: string | null;
    lastModified: string | null;
    fault: string | null;
    failures: number;
    cycle: number;
    triedAtMs: number;
    version: number;
  };
  places: {
    place: string;
    cell: string | null;
    timeZone: string | null;
    located: string;
    locatedAtMs: number | null;
    remembered: string;
    alerts: string | null;
    alertsFetchedAtMs: number | null;
    fault: string | null;
    version: number;
  };
  claims: {
    work: string;
    cycle: number;
    worker: string;
    claimedAtMs: number;
    doneAtMs: number | null;
  };
  plans: {
    /** In the order of writing; decides between plans of the same millisecond. */
    number: Generated<number>;
    planId: string;
    site: string;
    madeAtMs: number;
    cause: string;
    definition: string;
    document: string;
    documentReceivedAtMs: number;
    alerts: string;
    alertsFetchedAtMs: number;
    pointTimeZone: string;
    firstDate: string;
    dayCount: number;
    goodUntilMs: number | null;
    answerHash: string;
    program: string;
    summary: string;
  };
  /** Which plan is the newest of each site. */
  newestPlans: { site: string; number: number; madeAtMs: number };
  events: {
    position: number;
    organisation: string;
    /** Empty: of the whole organisation. */
    site: string;
    kind: string;
    subject: string;
    /** Of events of a plan; empty for others. */
    planId: string;
    atMs: number;
    validUntilMs: number | null;
    /** The event's data, as JSON. */
    changes: string;
  };
  /** What calendars were told. */
  calendarWindows: {
    site: string;
    date: string;
    number: number;
    uid: string;
    fromMs: number;
    toMs: number;
    sequence: number;
    /** 0 or 1. */
    cancelled: number;
    changedAtMs: number;
  };
  apiKeys: {
    prefix: string;
    digest: string;
    name: string;
    organisation: string;
    sites: string | null;
    scopes: string;
    createdAtMs: number;
    expiresAtMs: number | null;
    lastUsedAtMs: number | null;
    revokedAtMs: number | null;
  };
  audit: {
    number: Generated<number>;
    atMs: number;
    organisation: string;
    who: string;
    what: string;
    subject: string;
    detail: string;
  };
  replies: {
    organisation: string;
    key: string;
    requestHash: string;
    atMs: number;
    status: number;
    body: string;
    headers: string;
  };
  /**
   * Numbers that rise: `definitions` and `keys` with every change, `events` with every event; `subscriptions` with
   * every change of one; `events-dropped`, the last event
   * that retention dropped; `pace` and a host, until when turns to ask it are given out [epoch ms].
   */
  counters: { name: string; value: number };
  /** One row that shows whether the store can write. */
  probes: { name: string; atMs: number };
}
