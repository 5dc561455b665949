// Changes to sites, limit sets and orders: checked like the configuration file, written with who and when, in force before
// the reply.

import type { Burn } from '#core/watch/burn.ts';
import { messageOf, ServiceError } from '#errors.ts';
import type { Asked, Changed, DefinitionDesk } from '#publish/definition-desk.ts';
import { definitionsSeen } from '#publish/definitions-seen.ts';
import { siteKeyOf, unknownSite } from '#publish/site-key.ts';
import type { Definition, DefinitionChange, DefinitionKind } from '#store/definition.ts';
import type { OnceOutcome } from '#store/once.ts';
import type { DefinitionRecords } from '#store/store.ts';
import type { WatchRecords } from '#store/watch/records.ts';
import { definitionFaults, type Premises, usersOf } from './definition-check.ts';

export interface DefinitionDeskOptions {
  readonly premises: Premises;
  readonly store: {
    readonly definitions: DefinitionRecords;
    readonly watch: Pick<WatchRecords, 'optOuts' | 'openBurns'>;
  };
  nowMs(): number;
  /** Brings what was written into force in this process. */
  applied(): Promise<void>;
}

/** Never a revision: asks the store only whether the request came before. */
const NO_REVISION = 2_000_000_000;

export function createDefinitionDesk({
  premises,
  store,
  nowMs,
  applied,
}: DefinitionDeskOptions): DefinitionDesk {
  const records = store.definitions;
  const inForce = async (organisation: string): Promise<Definition[]> => {
    const all = await records.current();
    return all.filter((d) => d.organisation === organisation && d.body !== null);
  };
  const oneAfterAnother = createTurns();
  return {
    async check(kind, id, body, organisation) {
      const others = await inForce(organisation);
      const before = others.find((d) => d.kind === kind && d.id === id)?.body ?? null;
      return definitionFaults({ kind, id, body, before }, others, premises);
    },
    async current(organisation, kind) {
      const all = await inForce(organisation);
      return all.filter((d) => d.kind === kind).sort((a, b) => (a.id < b.id ? -1 : 1));
    },
    optOuts: (organisation) => store.watch.optOuts(organisation),
    async newest(id) {
      return (await records.history(id))[0] ?? null;
    },
    history: (id) => records.history(id),
    change: (asked, reply) =>
      // What is checked beside the others must still be so when it is written.
      oneAfterAnother(async () => {
        const all = (await records.current()).filter((d) => d.organisation === asked.organisation);
        const ofKind = all.filter((d) => d.kind === asked.kind);
        const id = asked.id ?? freeId(asked.body, new Set(ofKind.map((d) => d.id)));
        const before = ofKind.find((d) => d.id === id) ?? null;
        const burning = await burnsThatEnd(store.watch, asked, id);
        const refusal = refusalOf(asked, id, before, all, premises, burning);
        const { organisation, kind, body, who } = asked;
        const replaces = refusal ? NO_REVISION : (before?.revision ?? 0);
        const change = { organisation, kind, id, replaces, body, changedBy: who, changedAtMs: nowMs() };
        if (refusal && asked.once === null) throw refusal;
        const changed = await write(records, asked, { ...change, origin: 'api' }, reply, refusal);
        if (!changed.replayed) await applied();
        return changed;
      }),
  };
}

/** With a refusal only a reply from before comes back; the refusal is thrown where there is none. */
async function write(
  records: DefinitionRecords,
  { organisation, once }: Asked,
  change: DefinitionChange,
  reply: (made: Definition) => OnceOutcome,
  refusal: ServiceError | null,
): Promise<Changed> {
  const replyOf = (made: readonly Definition[]): OnceOutcome => {
    const first = made[0];
    if (first) return reply(first);
    throw new ServiceError('internal', 'the store made no revision');
  };
  try {
    const { made, replayed } = await records.change(
      [change],
      once ? { request: { organisation, ...once, atMs: change.changedAtMs }, reply: replyOf } : undefined,
    );
    return replayed ? { outcome: replayed, replayed: true } : { outcome: replyOf(made), replayed: false };
  } catch (fault) {
    if (refusal && fault instanceof ServiceError && fault.code === 'changed_meanwhile') throw refusal;
    throw fault;
  }
}

/** Why a change cannot be made, null where it can. */
function refusalOf(
  { sites, kind, body, replaces }: Asked,
  id: string,
  before: Definition | null,
  all: readonly Definition[],
  premises: Premises,
  burning: readonly Burn[],
): ServiceError | null {
  const there = before !== null && before.body !== null;
  if (replaces === 'new') {
    if (there) return new ServiceError('already_there', `there is a ${WORDS[kind]} "${id}" already`);
  } else if (!there) {
    return kind === 'site' ? unknownSite(id) : new ServiceError('not_found', `no ${WORDS[kind]} "${id}"`);
  } else if (!replaces.includes(before.revision)) {
    const told = `${WORDS[kind]} "${id}" was changed meanwhile; its newest revision is "r${before.revision}"`;
    return new ServiceError('changed_meanwhile', told);
  }
  const inForce = all.filter((d) => d.body !== null);
  const isOther = (d: Definition): boolean => !(d.kind === kind && d.id === id);
  if (body === null) {
    return burns(id, burning) ?? inUse(kind, id, usersOf(kind, id, inForce.filter(isOther)));
  }
  const seen = definitionsSeen(
    { sites },
    inForce,
    inForce.filter((d) => d.kind === 'site'),
  );
  const checked = { kind, id, body, before: before?.body ?? null };
  return badBody(definitionFaults(checked, seen.filter(isOther), premises));
}

const WORDS: Readonly<Record<DefinitionKind, string>> = {
  site: 'site',
  'limit-set': 'limit set',
  order: 'order',
  contact: 'contact',
};

function inUse(kind: DefinitionKind, id: string, usedBy: readonly string[]): ServiceError | null {
  if (usedBy.length === 0) return null;
  return new ServiceError('in_use', `${WORDS[kind]} "${id}" is still named by: ${usedBy.join(', ')}`, {
    facts: { usedBy },
  });
}

/** Without its site nobody watches a fire any more. */
async function burnsThatEnd(
  watch: Pick<WatchRecords, 'openBurns'>,
  { organisation, kind, body }: Asked,
  id: string,
): Promise<Burn[]> {
  return kind === 'site' && body === null ? watch.openBurns([siteKeyOf(organisation, id)]) : [];
}

function burns(id: string, open: readonly Burn[]): ServiceError | null {
  if (open.length === 0) return null;
  const usedBy = open.map((burn) => `burn ${burn.id}`);
  return new ServiceError(
    'in_use',
    `a pit still burns at site "${id}": ${usedBy.join(', ')}; it can be taken out once that is covered`,
    { facts: { usedBy } },
  );
}

function badBody(faults: readonly { path: string; message: string }[]): ServiceError | null {
  if (faults.length === 0) return null;
  const lines = faults.map((f) => `${f.path}: ${f.message}`).join('; ');
  return new ServiceError('bad_body', lines, { facts: { faults } });
}

/** `County burn ban` → `county-burn-ban`, or `county-burn-ban-2` where that was ever used. */
function freeId(body: unknown, used: ReadonlySet<string>): string {
  const name = (body as { name?: unknown } | null)?.name;
  const plain = typeof name === 'string' ? name.normalize('NFKD').toLowerCase() : '';
  const slug =
    plain
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^-+|-+$/g, '')
      .slice(0, 50) || 'order';
  for (let n = 1; ; n += 1) {
    const id = n === 1 ? slug : `${slug}-${n}`;
    if (!used.has(id)) return id;
  }
}

/** Runs jobs one after another; a failed one does not keep the next from its turn. */
function createTurns(): <T>(job: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (job) => {
    const mine = last.then(job, job);
    last = mine.catch(messageOf);
    return mine;
  };
}
