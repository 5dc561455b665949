// Records of the store with everything filled in, to be changed where a test needs it.

import { createHash } from 'node:crypto';
import type { ApiKey, AuditRow } from '#store/api-key.ts';
import type { Batch } from '#store/batch.ts';
import type { DefinitionChange } from '#store/definition.ts';
import type { NewDocument } from '#store/document.ts';
import type { PlanRecord } from '#store/plan-record.ts';

const T_MS = Date.UTC(2026, 2, 2, 12);

export function documentOf(text: string, kind: NewDocument['kind'] = 'gridpoint'): NewDocument {
  const bytes = Buffer.from(text);
  return { hash: createHash('sha256').update(bytes).digest('hex'), kind, bytes };
}

type Cell = NonNullable<Batch['cells']>[number];
type Place = NonNullable<Batch['places']>[number];
type Event = NonNullable<Batch['events']>[number];

export const cellOf = (cell: string, change: Partial<Cell> = {}): Cell => ({
  cell,
  document: null,
  receivedAtMs: null,
  confirmedAtMs: null,
  issuedAtMs: null,
  etag: null,
  lastModified: null,
  fault: null,
  failures: 0,
  cycle: 1,
  triedAtMs: T_MS,
  ...change,
});

export const placeOf = (place: string, change: Partial<Place> = {}): Place => ({
  place,
  cell: 'BMX 59,84',
  timeZone: 'America/Chicago',
  located: { office: 'BMX' },
  locatedAtMs: T_MS,
  remembered: null,
  alerts: null,
  alertsFetchedAtMs: null,
  fault: null,
  ...change,
});

/** Documents that `planOf` is made from. */
export const BASIS: readonly NewDocument[] = [
  documentOf('{"limits":[]}', 'definition'),
  documentOf('{"properties":{}}'),
  documentOf('[]', 'alerts'),
];

export function planOf(
  site: string,
  madeAtMs: number,
  change: Partial<PlanRecord> = {},
  [definition, document, alerts] = BASIS,
): PlanRecord {
  return {
    planId: `${site}@${madeAtMs}`,
    site,
    madeAtMs,
    cause: 'forecast',
    basis: {
      definition: definition?.hash ?? '',
      document: document?.hash ?? '',
      documentReceivedAtMs: madeAtMs - 1000,
      alerts: alerts?.hash ?? '',
      alertsFetchedAtMs: madeAtMs - 500,
      pointTimeZone: 'America/Chicago',
    },
    firstDate: '2026-03-02',
    dayCount: 7,
    goodUntilMs: madeAtMs + 3_600_000,
    answerHash: '0'.repeat(64),
    program: '0.1.0',
    summary: { days: [{ date: '2026-03-02', verdict: 'go' }] },
    ...change,
  };
}

export const eventOf = (site: string, change: Partial<Event> = {}): Event => ({
  organisation: site.slice(0, site.indexOf('/')),
  site,
  kind: 'verdict-changed',
  subject: `${site}@1`,
  atMs: T_MS,
  validUntilMs: null,
  data: [{ what: 'verdict', from: 'go', to: 'hold' }],
  ...change,
});

export const changeOf = (
  id: string,
  replaces: number,
  change: Partial<DefinitionChange> = {},
): DefinitionChange => ({
  organisation: 'fern-hollow',
  kind: 'site',
  id,
  replaces,
  body: { name: 'North block', at: [38.97, -92.33] },
  origin: 'api',
  changedAtMs: T_MS + replaces,
  changedBy: 'office key',
  ...change,
});

export const keyOf = (prefix: string, change: Partial<ApiKey> = {}): ApiKey => ({
  prefix,
  digest: createHash('sha256').update(prefix).digest('hex'),
  name: 'office',
  organisation: 'fern-hollow',
  sites: null,
  scopes: ['read'],
  createdAtMs: T_MS,
  expiresAtMs: null,
  lastUsedAtMs: null,
  revokedAtMs: null,
  ...change,
});

export const auditOf = (change: Partial<AuditRow> = {}): AuditRow => ({
  atMs: T_MS,
  organisation: 'fern-hollow',
  who: 'command line',
  what: 'key-made',
  subject: 'key',
  detail: {},
  ...change,
});
