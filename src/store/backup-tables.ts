// What a backup holds: every table with the columns that put its rows in an order.

import type { Tables } from './tables.ts';

export interface BackupTable {
  readonly table: Exclude<keyof Tables, 'probes'>;
  readonly key: readonly string[];
}

export const BACKUP_TABLES: readonly BackupTable[] = [
  { table: 'definitions', key: ['organisation', 'kind', 'id', 'revision'] },
  { table: 'replies', key: ['organisation', 'key'] },
  { table: 'counters', key: ['name'] },
  { table: 'documents', key: ['hash'] },
  { table: 'cells', key: ['cell'] },
  { table: 'places', key: ['place'] },
  { table: 'claims', key: ['work', 'cycle'] },
  { table: 'plans', key: ['number'] },
  { table: 'newestPlans', key: ['site'] },
  { table: 'events', key: ['position'] },
  { table: 'calendarWindows', key: ['site', 'date', 'number'] },
  { table: 'apiKeys', key: ['prefix'] },
  { table: 'audit', key: ['number'] },
  { table: 'watches', key: ['site'] },
  { table: 'burnTaps', key: ['site', 'id'] },
  { table: 'burns', key: ['site', 'id'] },
  { table: 'briefings', key: ['site', 'id'] },
  { table: 'observations', key: ['site', 'station', 'observedAtMs', 'revision'] },
  { table: 'notices', key: ['key'] },
  { table: 'transitions', key: ['notice', 'episode', 'number'] },
  { table: 'messages', key: ['id'] },
  { table: 'deliveries', key: ['id'] },
  { table: 'receipts', key: ['channel', 'reference', 'state'] },
  { table: 'answers', key: ['id'] },
  { table: 'silences', key: ['id'] },
  { table: 'optOuts', key: ['organisation', 'contact'] },
  { table: 'dayTexts', key: ['site', 'date', 'kind'] },
  { table: 'secrets', key: ['name'] },
  { table: 'subscriptions', key: ['id'] },
  { table: 'hookStates', key: ['subscription'] },
  { table: 'hookAttempts', key: ['subscription', 'number'] },
  { table: 'burnIncidents', key: ['site', 'burn', 'id'] },
  { table: 'capFeeds', key: ['organisation'] },
  { table: 'capMessages', key: ['organisation', 'id'] },
];

/** First line of a backup. */
export interface BackupHead {
  /** The format of the file. */
  readonly pitwardBackup: number;
  /** Migrations of the store that it was made from. */
  readonly schema: readonly string[];
  readonly madeAtMs: number;
  readonly from: 'sqlite' | 'postgres';
}

/** Before the rows of each table, which follow as arrays of values. */
export interface BackupSection {
  readonly table: BackupTable['table'];
  readonly columns: readonly string[];
}

/** Last line. */
export interface BackupTail {
  readonly rows: Readonly<Record<string, number>>;
  /** Of all lines before, as they were before compression. */
  readonly sha256: string;
}

export const BACKUP_FORMAT = 1;
