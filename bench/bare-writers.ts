// The rows of a commit written by nothing but the driver, with the pragmas, the statements in a row and the round trips that
// the store has, and documents that are packed already.

import { DatabaseSync } from 'node:sqlite';
import pg from 'pg';
import type { PackedDocument } from '#store/pack-document.ts';
import type { FullBatch } from './commits.ts';

export interface PackedBatch extends Pick<FullBatch, 'cells' | 'plans' | 'events'> {
  readonly packed: readonly PackedDocument[];
}

export interface BareWriter {
  write(batch: PackedBatch): Promise<void> | void;
  close(): Promise<void> | void;
}

type Value = string | number | null | Uint8Array;

const DOCUMENT = ['hash', 'kind', 'size', 'packed', 'used_at_ms'];
const CELL = [
  'cell',
  'document',
  'received_at_ms',
  'confirmed_at_ms',
  'issued_at_ms',
  'etag',
  'last_modified',
  'fault',
  'failures',
  'cycle',
  'tried_at_ms',
  'version',
];
const PLAN = [
  'plan_id',
  'site',
  'made_at_ms',
  'cause',
  'definition',
  'document',
  'document_received_at_ms',
  'alerts',
  'alerts_fetched_at_ms',
  'point_time_zone',
  'first_date',
  'day_count',
  'good_until_ms',
  'answer_hash',
  'program',
  'summary',
];
const EVENT = [
  'position',
  'organisation',
  'site',
  'kind',
  'subject',
  'plan_id',
  'at_ms',
  'valid_until_ms',
  'changes',
];

const documentRow = (d: PackedDocument): Value[] => [d.hash, d.kind, d.size, d.packed, 0];
const cellRow = (c: PackedBatch['cells'][number]): Value[] => [
  c.cell,
  c.document,
  c.receivedAtMs,
  c.confirmedAtMs,
  c.issuedAtMs,
  c.etag,
  c.lastModified,
  null,
  c.failures,
  c.cycle,
  c.triedAtMs,
  1,
];
const planRow = ({ basis, ...p }: PackedBatch['plans'][number]): Value[] => [
  p.planId,
  p.site,
  p.madeAtMs,
  p.cause,
  basis.definition,
  basis.document,
  basis.documentReceivedAtMs,
  basis.alerts,
  basis.alertsFetchedAtMs,
  basis.pointTimeZone,
  p.firstDate,
  p.dayCount,
  p.goodUntilMs,
  p.answerHash,
  p.program,
  JSON.stringify(p.summary),
];

/** `insert` of several rows; `mark` gives the placeholder of the n-th value. */
const insert = (
  table: string,
  columns: readonly string[],
  count: number,
  mark: (n: number) => string,
): string => {
  const rows = Array.from({ length: count }, (_, row) => {
    const marks = columns.map((_, column) => mark(row * columns.length + column + 1));
    return `(${marks.join(', ')})`;
  });
  return `insert into ${table} (${columns.join(', ')}) values ${rows.join(', ')}`;
};

/** All statements of a commit between begin and commit: the last ones depend on what the ones before gave. */
function* statements(
  batch: PackedBatch,
  mark: (n: number) => string,
): Generator<[string, Value[]], void, Given[]> {
  const { packed, cells, plans, events } = batch;
  const hashes = [
    ...packed.map((d) => d.hash),
    ...new Set(plans.flatMap(({ basis }) => [basis.definition, basis.alerts])),
  ];
  yield [
    `${insert('documents', DOCUMENT, packed.length, mark)} on conflict (hash) do nothing`,
    packed.flatMap(documentRow),
  ];
  yield [
    `select hash, used_at_ms from documents where hash in (${hashes.map((_, i) => mark(i + 1)).join(', ')})`,
    hashes,
  ];
  const set = CELL.filter((c) => c !== 'version').map((c) => `${c} = excluded.${c}`);
  yield [
    `${insert('cells', CELL, cells.length, mark)} on conflict (cell) do update set ${set.join(', ')}, version = cells.version + 1`,
    cells.flatMap(cellRow),
  ];
  const added = yield [
    `${insert('plans', PLAN, plans.length, mark)} on conflict (plan_id) do nothing returning number, site, made_at_ms`,
    plans.flatMap(planRow),
  ];
  yield [
    `${insert('newest_plans', ['site', 'number', 'made_at_ms'], added.length, mark)} on conflict (site) do update
       set number = excluded.number, made_at_ms = excluded.made_at_ms where excluded.made_at_ms >= newest_plans.made_at_ms`,
    added.flatMap((row) => [row['site'], row['number'], row['made_at_ms']] as Value[]),
  ];
  const [counter] = yield [
    `update counters set value = value + ${mark(1)} where name = 'events' returning value`,
    [events.length],
  ];
  const last = Number(counter?.['value']);
  yield [
    insert('events', EVENT, events.length, mark),
    events.flatMap((e, i) => [
      last - i,
      e.organisation,
      e.site,
      e.kind,
      e.subject,
      '',
      e.atMs,
      e.validUntilMs,
      JSON.stringify(e.data),
    ]),
  ];
}

type Given = Record<string, unknown>;

/** Prepared statements kept, as the store keeps them. */
export function bareSqlite(file: string): BareWriter {
  const database = new DatabaseSync(file, { timeout: 20, enableForeignKeyConstraints: true });
  database.exec(
    'pragma journal_mode = wal; pragma synchronous = full; pragma journal_size_limit = 67108864; pragma temp_store = memory',
  );
  const kept = new Map<string, ReturnType<DatabaseSync['prepare']>>();
  const prepared = (sql: string) => {
    const statement = kept.get(sql) ?? database.prepare(sql);
    kept.set(sql, statement);
    return statement;
  };
  return {
    write(batch) {
      prepared('begin immediate').run();
      const run = statements(batch, () => '?');
      for (let next = run.next(); !next.done; ) {
        const [sql, values] = next.value;
        next = run.next(prepared(sql).all(...values) as Given[]);
      }
      prepared('commit').run();
    },
    close: () => database.close(),
  };
}

/** With the question which documents are known before, as the store asks it. */
export async function barePostgres(databaseUrl: string): Promise<BareWriter> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  return {
    async write(batch) {
      await client.query('select hash from documents where hash in ($1)', [batch.packed[0]?.hash]);
      await client.query('begin');
      const run = statements(batch, (n) => `$${n}`);
      for (let next = run.next(); !next.done; ) {
        const [sql, values] = next.value;
        next = run.next((await client.query(sql, values)).rows);
      }
      await client.query('commit');
    },
    close: () => client.end(),
  };
}
