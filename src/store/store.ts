// What is remembered, as the rest of the program sees it. One code over two databases: SQLite in a file on a laptop,
// PostgreSQL for many processes. Nothing is told before it is durable: every call resolves after its commit.

import type { EventKind, LoggedEvent } from '#core/events/event.ts';
import type { CalendarWindow } from '#core/plan/calendar-windows.ts';
import type { HookRecords } from '#store/hooks/records.ts';
import type { WatchExpired } from '#store/watch/expire-watch.ts';
import type { WatchRecords } from '#store/watch/records.ts';
import type { ApiKey, AuditRow } from './api-key.ts';
import type { Batch } from './batch.ts';
import type { CapRecords } from './cap-records.ts';
import type { CellState } from './cell-state.ts';
import type { Definition, DefinitionChange, DefinitionId } from './definition.ts';
import type { DocumentKind } from './document.ts';
import type { Once, OnceOutcome } from './once.ts';
import type { PlaceState } from './place-state.ts';
import type { PlanRecord } from './plan-record.ts';
import type { StoreHealth } from './store-health.ts';

/**
 * Every method throws ServiceError `store_unavailable` (retryable; facts.cause: `disk-full`, `read-only`, `locked`,
 * `connection-lost`, `too-slow`, `damaged`, `closed` or `other`) where the database cannot do it now.
 */
export interface Store {
  readonly kind: 'sqlite' | 'postgres';
  readonly definitions: DefinitionRecords;
  readonly documents: DocumentRecords;
  readonly forecasts: ForecastRecords;
  readonly plans: PlanRecords;
  readonly events: EventRecords;
  readonly hooks: HookRecords;
  readonly calendar: CalendarRecords;
  readonly cap: CapRecords;
  readonly keys: KeyRecords;
  readonly watch: WatchRecords;
  readonly paces: PaceRecords;
  readonly care: StoreCare;
  /**
   * Writes all of a batch in one transaction, or nothing. Throws `document_missing` where it refers to a document that is
   * neither kept nor in the batch.
   */
  commit(batch: Batch): Promise<void>;
  /**
   * What tells a reader that something is newer than what it has. Cheap: asked every second by every process. With `only`,
   * of these cells and places alone.
   */
  marks(only?: { readonly cells: readonly string[]; readonly places: readonly string[] }): Promise<Marks>;
  /**
   * Writes everything, as of one moment while others go on, to a new file for the owner's eyes only. Either kind of store
   * can be made from it. Throws `backup_failed` where the file is there already or cannot be written.
   */
  backup(toFile: string): Promise<BackupSummary>;
  /**
   * Fills this store, which must be empty, from a backup: all or nothing. Throws `store_not_empty`, `backup_unreadable`
   * where the file is no whole backup, `store_newer` where a newer program made it.
   */
  restore(fromFile: string): Promise<BackupSummary>;
  /** Judged from what each kind of reading and writing did last, and from the last probe; asks nothing. */
  health(): StoreHealth;
  close(): Promise<void>;
}

export interface BackupSummary {
  /** The moment that it is of. */
  readonly madeAtMs: number;
  /** Rows by table. */
  readonly rows: Readonly<Record<string, number>>;
}

export interface Marks {
  /** Differs whenever a definition was changed. */
  readonly definitions: string;
  /** Differs whenever a key was made, changed or revoked; not when one was used. */
  readonly keys: string;
  /** Version of each cell's state. */
  readonly cells: ReadonlyMap<string, number>;
  /** Of each place: version of its state, and when its alerts were last read [epoch ms]. */
  readonly places: ReadonlyMap<
    string,
    { readonly version: number; readonly alertsFetchedAtMs: number | null }
  >;
  /** Version of each site's watch. */
  readonly watches: ReadonlyMap<string, number>;
}

export interface DefinitionRecords {
  /** The newest revision of everything, taken-out definitions (body null) included. */
  current(): Promise<Definition[]>;
  /** All revisions of one, newest first. */
  history(id: DefinitionId): Promise<Definition[]>;
  /** All revisions of an organisation that the file, or the API, has written, in the order of their revisions. */
  writtenBy(origin: Definition['origin'], organisation: string): Promise<Definition[]>;
  /** The revision in force at a moment; null before the first. */
  at(id: DefinitionId, atMs: number): Promise<Definition | null>;
  /**
   * Appends the next revision of each, all or none, with its audit row. Throws ServiceError `changed_meanwhile` where
   * `replaces` is not the newest revision. With `once`, the same request sent again gets the first reply and changes
   * nothing; throws `key_reused` where the same idempotency key came with another request.
   */
  change(
    changes: readonly DefinitionChange[],
    once?: { readonly request: Once; readonly reply: (made: readonly Definition[]) => OnceOutcome },
  ): Promise<{ readonly made: readonly Definition[]; readonly replayed: OnceOutcome | null }>;
}

export interface DocumentRecords {
  /** The bytes kept under a hash (SHA-256, 64 hexadecimal digits), verified against it; null where none are. */
  read(hash: string): Promise<{ readonly kind: DocumentKind; readonly bytes: Uint8Array } | null>;
  /** Which of these hashes are kept already. */
  known(hashes: readonly string[]): Promise<ReadonlySet<string>>;
}

export interface ForecastRecords {
  cells(names?: readonly string[]): Promise<CellState[]>;
  places(keys?: readonly string[]): Promise<PlaceState[]>;
  /**
   * Claims one turn of work (`pull BMX 59,84`, cycle 1234) for one worker: `ours` for exactly one of all who ask; `taken`
   * while another has it or is at another turn of the same work; `done` once it is done. Asking again for one's own renews
   * it. A claim neither done nor renewed for `deadAfterMs` by the database's clock, or dated ahead of that by more than a
   * minute, goes to the next who asks; whoever had it can then finish no turn of that work.
   */
  claim(claim: Claim): Promise<'ours' | 'taken' | 'done'>;
  /** Lets go of a claim that failed, so that it may be taken at once. */
  release(claim: Pick<Claim, 'work' | 'cycle' | 'worker'>): Promise<void>;
  /** When a turn of the work (`watch`) was last done by whomever [epoch ms]; null: not for as long as claims are kept. */
  lastDoneMs(work: string): Promise<number | null>;
  /**
   * Forgets claims of turns that begin more than a minute from now, done ones too: under a clock that was wrong, turns were
   * done before their time, which would else not be done when it comes. PostgreSQL goes by its own clock.
   */
  forgetAhead(nowMs: number): Promise<void>;
}

export interface Claim {
  readonly work: string;
  readonly cycle: number;
  readonly worker: string;
  readonly deadAfterMs: number;
}

/** The newest plan of a site without its summary. */
export type PlanHead = Pick<
  PlanRecord,
  'planId' | 'site' | 'madeAtMs' | 'basis' | 'firstDate' | 'goodUntilMs'
>;

export interface PlanRecords {
  /** Heads of the newest plans of all sites, or of the sites named. */
  heads(sites?: readonly string[]): Promise<PlanHead[]>;
  /** The newest plan of each site, or of the sites named (`organisation/id`). */
  newest(sites?: readonly string[]): Promise<PlanRecord[]>;
  /** The plan that was the newest at a moment; null where there was none. */
  at(site: string, atMs: number): Promise<PlanRecord | null>;
  /** Plans of a site made within [from, to), oldest first, at most `most`. */
  within(site: string, fromMs: number, toMs: number, most: number): Promise<PlanRecord[]>;
}

export interface EventQuery {
  /** Position: what comes after it. */
  readonly after: number;
  /** Position: nothing beyond it, though it has come meanwhile; left out: all. */
  readonly upTo?: number;
  readonly most: number;
  readonly organisation?: string;
  /** `organisation/id`; what is of the whole organisation comes too. Left out: all. */
  readonly sites?: readonly string[];
  readonly kinds?: readonly EventKind[];
}

export interface EventRecords {
  /** In the order in which they were committed. */
  after(query: EventQuery): Promise<LoggedEvent[]>;
  /** Position of the last event, and of the last that retention has dropped; 0 where there is none. */
  ends(): Promise<{ readonly last: number; readonly dropped: number }>;
  /** Calls back after each commit of this process that added events; gives back what stops it. */
  onAdded(added: () => void): () => void;
}

export interface CalendarRecords {
  /** What was told of these sites, as far as it ended after a moment; by site, date and number. */
  windows(sites: readonly string[], endsAfterMs: number): Promise<CalendarWindow[]>;
  /** Keeps what is to be told, all or none; false where another process has told otherwise meanwhile. */
  keep(changed: readonly CalendarWindow[]): Promise<boolean>;
}

export interface KeyRecords {
  all(): Promise<ApiKey[]>;
  add(key: ApiKey, audit: AuditRow): Promise<void>;
  /** Adds a key and sets the end of the one that it takes the place of, both or neither. Throws as `add`. */
  replace(
    key: ApiKey,
    old: { readonly prefix: string; readonly endsMs: number },
    audits: readonly AuditRow[],
  ): Promise<void>;
  /** Sets a key's end; an earlier one that it has already stands. Null where there is no such key. */
  revoke(prefix: string, atMs: number, audit: AuditRow): Promise<ApiKey | null>;
  /** Notes when keys were last used: prefix → epoch ms. An older moment never replaces a newer. */
  used(lastUsed: ReadonlyMap<string, number>): Promise<void>;
  audit(most: number): Promise<AuditRow[]>;
}

export interface PaceRecords {
  /**
   * Gives out the next turn against a host, to all processes together: in how many ms it comes. `burst` may go at once
   * after a rest, then one every `everyMs`, a whole number. One that is given out and not used is lost.
   */
  next(host: string, pace: { readonly burst: number; readonly everyMs: number }): Promise<number>;
}

export interface StoreCare {
  /**
   * Writes and reads one row, and takes room on the disk for a moment. Throws where the store cannot; where it can, a fault
   * of another writing is held to be over until that fails again.
   */
  probe(nowMs: number): Promise<void>;
  /**
   * Drops plans, events, claims, replies and audit rows of a greater age than asked [ms], and documents that nothing refers
   * to any more; burns, notices and what was told of them, and observations. Never drops what is in force at any moment
   * since, nor anything of a burn that is open or a notice that stands. In small steps: other work goes on between them.
   */
  expire(olderThan: {
    readonly plansMs: number;
    readonly claimsMs: number;
    readonly repliesMs: number;
    readonly burnsMs: number;
    readonly observationsMs: number;
    readonly auditMs: number;
  }): Promise<Expired>;
  bytes(): Promise<number>;
  sizes(): Promise<{ readonly bytes: number; readonly rows: Readonly<Record<string, number>> }>;
}

export interface Expired {
  readonly plans: number;
  readonly events: number;
  readonly calendar: number;
  readonly documents: number;
  readonly claims: number;
  readonly replies: number;
  readonly audit: number;
  readonly cap: number;
  readonly watch: WatchExpired;
}
