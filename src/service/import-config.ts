// The configuration file → the store: what differs is worked out first and can be shown before any of it applies.

import { isDeepStrictEqual } from 'node:util';
import { ServiceError } from '#errors.ts';
import { EMPTY_BOOK, readBook } from '#memory/definition-book.ts';
import type { Definition, DefinitionChange } from '#store/definition.ts';
import type { DefinitionRecords } from '#store/store.ts';
import type { WatchRecords } from '#store/watch/records.ts';
import { bodyDifference } from './body-difference.ts';
import { keptWhileBurning } from './kept-while-burning.ts';
import { replacedSince } from './older-file.ts';
import { type WrittenDefinition, writtenDefinitions } from './written-definitions.ts';

export interface ImportPlan {
  readonly changes: readonly DefinitionChange[];
  /** What a person is shown: one line for each definition, and below it what differs. */
  readonly lines: readonly string[];
}

export interface ImportStore {
  readonly definitions: DefinitionRecords;
  readonly watch: Pick<WatchRecords, 'openBurns'>;
}

export interface FileImport {
  readonly written: Readonly<Record<string, unknown>>;
  readonly organisation: string;
  /** Name of the file, for histories. */
  readonly file: string;
  readonly nowMs: number;
  /** The file may be an older one: somebody means to go back to it. */
  readonly goBack?: boolean;
}

/**
 * What importing the file would change. The file rules over what it has written itself; what was changed through the API
 * since stays until the file changes that definition again, and a site where a pit burns until a start after its cover. Throws ServiceError `config_invalid` where a site would be left
 * without its limit set, `config_older` where it is a file that another has replaced.
 */
export async function planImport(store: ImportStore, given: FileImport): Promise<ImportPlan> {
  const records = store.definitions;
  const { organisation, file, nowMs } = given;
  const rows = (await records.current()).filter((row) => row.organisation === organisation);
  const known = new Map(rows.map((row) => [nameOf(row), row]));
  const changes: DefinitionChange[] = [];
  const lines: string[] = [];
  const revisions = await records.writtenBy('file', organisation);
  const change = (to: WrittenDefinition, row: Definition | undefined): void => {
    const { kind, id, body } = to;
    const replaces = row?.revision ?? 0;
    changes.push({
      organisation,
      kind,
      id,
      body,
      replaces,
      origin: 'file',
      changedAtMs: nowMs,
      changedBy: file,
    });
    lines.push(...linesOf(to, row?.body ?? null));
  };
  const written = writtenDefinitions(given.written);
  const burning = await keptWhileBurning(store.watch, organisation, rows, written);
  for (const to of written) {
    const row = known.get(nameOf(to));
    if ((row !== undefined && isDeepStrictEqual(row.body, to.body)) || burning.has(nameOf(to))) continue;
    const fromFile = row?.origin === 'api' ? lastOf(revisions, row) : (row ?? null);
    if (row?.origin === 'api' && fromFile !== null && isDeepStrictEqual(fromFile.body, to.body)) {
      lines.push(`= ${nameOf(to)} stays as ${row.changedBy} changed it; the file has not changed since`);
      continue;
    }
    change(to, row);
  }
  const staying = new Set([...written.map(nameOf), ...burning.keys()]);
  for (const row of rows) {
    if (row.origin !== 'file' || row.body === null || staying.has(nameOf(row))) continue;
    change({ kind: row.kind, id: row.id, body: null }, row);
  }
  lines.push(...burning.values());
  if (changes.length > 0) {
    if (!given.goBack) refuseOlder(revisions, written, file);
    refuseBroken(rows, changes);
  }
  return { changes, lines };
}

const TRIES = 3;

/**
 * Imports the file, all or nothing; `show` gets the lines of what will change before any of it does. Where another process is
 * at it at the same moment, what is left to do is worked out anew. Throws as `planImport`.
 */
export async function importFile(
  store: ImportStore,
  given: FileImport,
  show: (lines: readonly string[]) => void = () => undefined,
): Promise<readonly string[]> {
  for (let tries = 1; ; tries += 1) {
    const { changes, lines } = await planImport(store, given);
    if (lines.length > 0) show(lines);
    try {
      if (changes.length > 0) await store.definitions.change(changes);
      return lines;
    } catch (fault) {
      const isRace = fault instanceof ServiceError && fault.code === 'changed_meanwhile';
      if (!isRace || tries === TRIES) throw fault;
    }
  }
}

const nameOf = ({ kind, id }: { readonly kind: string; readonly id: string }): string => `${kind} ${id}`;

const lastOf = (revisions: readonly Definition[], row: Definition): Definition | null =>
  revisions.findLast(({ kind, id }) => kind === row.kind && id === row.id) ?? null;

function refuseOlder(
  revisions: readonly Definition[],
  written: readonly WrittenDefinition[],
  file: string,
): void {
  const replaced = replacedSince(revisions, written);
  if (replaced === null) return;
  throw new ServiceError(
    'config_older',
    `${file} is as it was before ${replaced.by} changed it on ${new Date(replaced.atMs).toISOString()}, and limits may have been made stricter since. Bring it up to date; or, to go back to it, start once with --go-back`,
  );
}

function linesOf({ kind, id, body }: WrittenDefinition, before: unknown): string[] {
  const name = `${kind} ${id}`;
  if (body === null) return [`- ${name}`];
  if (before === null) return [`+ ${name}`];
  return [`~ ${name}`, ...bodyDifference(before, body).map((line) => `    ${line}`)];
}

/** A site of the API may name a limit set that the file no longer has. */
function refuseBroken(rows: readonly Definition[], changes: readonly DefinitionChange[]): void {
  const changed = new Map(changes.map((c) => [nameOf(c), c]));
  const after = [
    ...rows.filter((row) => !changed.has(nameOf(row))),
    ...changes.map((c): Definition => ({ ...c, revision: c.replaces + 1 })),
  ];
  const { broken } = readBook(after, EMPTY_BOOK);
  const already = readBook(rows, EMPTY_BOOK).broken;
  const faults = [...broken]
    .filter(([key, why]) => already.get(key) !== why)
    .map(([key, message]) => ({ path: `site ${key}`, message }));
  if (faults.length === 0) return;
  const told = faults.map((f) => `  ${f.path}: ${f.message}`).join('\n');
  throw new ServiceError('config_invalid', `the file would leave sites that cannot be judged:\n${told}`, {
    facts: { faults },
  });
}
