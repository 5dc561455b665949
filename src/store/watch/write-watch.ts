// What looks at sites leave behind, in one transaction. The row of a site's watch is taken first, sites in order of their
// names, so that of two who judged the same site one is told to judge anew, and nobody waits for ever.

import type { Transaction } from 'kysely';
import type { NewEvent } from '#core/events/event.ts';
import { incidentEvent, tapEvent, transitionEvent } from '#core/events/watch-events.ts';
import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from '#store/access.ts';
import { addAudit } from '#store/audit.ts';
import { chunks } from '#store/chunks.ts';
import { addEvents } from '#store/events.ts';
import { toJson } from '#store/json.ts';
import type { Tables } from '#store/tables.ts';
import { addIncidents, refIn } from './incidents.ts';
import type { WatchKept, WatchPatch, WatchRecords } from './records.ts';
import { deliveryRow, observationRow, tapRow } from './rows.ts';
import { stoodText } from './stood.ts';
import { together } from './together.ts';
import { addMessages, addTransitions } from './write-messages.ts';
import { putBurns, putNotices, putSilences, setOptOuts } from './write-states.ts';

export function createWatchCommit({ database, writing }: DatabaseAccess): WatchRecords['commit'] {
  const write = (transaction: Transaction<Tables>, patches: readonly WatchPatch[]): Promise<WatchKept[]> =>
    writeAll(transaction, patches, database.isDuplicate);
  // PostgreSQL has many connections and brings them together by itself; SQLite has one.
  const commit =
    database.kind === 'sqlite'
      ? together(
          (calls, run, keptOf) =>
            writing('watch', run, (outcome) =>
              calls.some((patches, i) => addsRows(patches, keptOf(outcome, i))),
            ),
          write,
        )
      : (patches: readonly WatchPatch[]) =>
          writing(
            'watch',
            (transaction) => write(transaction, patches),
            (kept) => addsRows(patches, kept),
          );
  return async (patches) => {
    for (const patch of patches) refuseUnguarded(patch);
    return commit(patches);
  };
}

async function writeAll(
  transaction: Transaction<Tables>,
  patches: readonly WatchPatch[],
  isDuplicate: (fault: unknown) => boolean,
): Promise<WatchKept[]> {
  const inOrder = [...patches.entries()].sort(([, a], [, b]) => (a.site < b.site ? -1 : 1));
  const kept: WatchKept[] = [];
  for (const [i, patch] of inOrder) kept[i] = await writeOne(transaction, patch, isDuplicate);
  for (const patch of patches) await addAudit(transaction, patch.audit ?? []);
  const events: NewEvent[] = [];
  for (const [i, patch] of inOrder)
    for (const event of eventsOf(patch, new Set(kept[i]?.taps)))
      events.push(await withIncident(transaction, patch.site, event));
  await addEvents(transaction, events);
  return kept;
}

/** What is told of a burn carries what a dispatch center calls it. */
async function withIncident(
  transaction: Transaction<Tables>,
  site: string,
  event: NewEvent,
): Promise<NewEvent> {
  const isOfBurn = event.kind.startsWith('burn-');
  if (!isOfBurn && !event.kind.startsWith('notice-')) return event;
  const reference = await refIn(transaction, site, isOfBurn ? event.subject : null);
  return reference === null
    ? event
    : { ...event, data: { ...(event.data as object), incidentRef: reference } };
}

/** What was known already was told then. */
const eventsOf = (
  { site, taps = [], transitions = [], incidents = [], events = [] }: WatchPatch,
  added: ReadonlySet<string>,
): NewEvent[] => [
  ...taps.filter(({ id }) => added.has(id)).map((tap) => tapEvent(site, tap)),
  ...transitions.map(transitionEvent),
  ...incidents.map((incident) => incidentEvent(site, incident)),
  ...events,
];

/** False where all was known already, or was written in place. */
function addsRows(patches: readonly WatchPatch[], kept: readonly WatchKept[] | null): boolean {
  if (kept === null) return false;
  const added = kept.flatMap((k) => [k.taps, k.observations, k.messages, k.answers]);
  const appended = patches.flatMap((p) => [p.transitions, p.events, p.audit]);
  return [...added, ...appended].some((rows) => (rows?.length ?? 0) > 0);
}

/** Whoever writes what it worked out must say from what. */
function refuseUnguarded({ site, replaces, burns = [], notices = [], transitions = [] }: WatchPatch): void {
  if (replaces !== null || burns.length + notices.length + transitions.length === 0) return;
  throw new ServiceError(
    'internal',
    `burns and notices of ${site} are to be written without what they replace`,
  );
}

async function writeOne(
  transaction: Transaction<Tables>,
  patch: WatchPatch,
  isDuplicate: (fault: unknown) => boolean,
): Promise<WatchKept> {
  const version = await takeWatch(transaction, patch);
  const taps = await addTaps(transaction, patch);
  await putBurns(transaction, patch);
  const observations = await addObservations(transaction, patch);
  await putNotices(transaction, patch.notices ?? []);
  await addTransitions(transaction, patch).catch((fault: unknown) => {
    if (!isDuplicate(fault)) throw fault;
    throw meanwhile(`a transition of ${patch.site} is kept already under its number`, fault);
  });
  const messages = await addMessages(transaction, patch);
  await addDeliveries(transaction, patch);
  const answers = await addAnswers(transaction, patch);
  // What is marked by an answer is not marked by one that was kept to another message.
  if (patch.replaces !== null && answers.length < (patch.answers ?? []).length) {
    throw meanwhile(`an answer of ${patch.site} is kept already under its id`);
  }
  await addBriefings(transaction, patch);
  await addIncidents(transaction, patch);
  await putSilences(transaction, patch.silences ?? []);
  await setOptOuts(transaction, patch.optOuts ?? []);
  await addDayTexts(transaction, patch);
  return { site: patch.site, version, taps, observations, messages, answers };
}

/** Parts of a patch that nobody has to judge anew for. */
const SILENT: readonly (keyof WatchPatch)[] = [
  'site',
  'replaces',
  'messages',
  'deliveries',
  'closed',
  'optOuts',
  'dayTexts',
  'events',
  'audit',
];

/** The version after this patch; what it was made from must be the one before. */
async function takeWatch(transaction: Transaction<Tables>, patch: WatchPatch): Promise<number> {
  const { site, replaces, judgedAtMs, conditions } = patch;
  await transaction
    .insertInto('watches')
    .values({ site, version: 0, judgedAtMs: null, stood: null })
    .onConflict((c) => c.column('site').doNothing())
    .execute();
  const rises = Object.entries(patch).some(([name, value]) => !isSilent(name) && !isEmpty(value));
  const row = await transaction
    .updateTable('watches')
    .set((e) => ({
      version: e('version', '+', Number(rises || replaces !== null)),
      ...(judgedAtMs === undefined ? {} : { judgedAtMs }),
      ...(conditions === undefined ? {} : { stood: stoodText(conditions) }),
    }))
    .where('site', '=', site)
    .returning('version')
    .executeTakeFirstOrThrow();
  if (replaces !== null && row.version !== replaces + 1) {
    throw meanwhile(`the watch of ${site} is at version ${row.version - 1}, not at ${replaces}: judge anew`);
  }
  return row.version;
}

const isSilent = (name: string): boolean => (SILENT as readonly string[]).includes(name);
const isEmpty = (value: unknown): boolean =>
  value === undefined || (Array.isArray(value) && value.length === 0);

const meanwhile = (message: string, cause?: unknown): ServiceError =>
  new ServiceError('changed_meanwhile', message, { cause, retryable: true });

async function addTaps(transaction: Transaction<Tables>, { site, taps = [] }: WatchPatch): Promise<string[]> {
  const added: string[] = [];
  for (const some of chunks(taps)) {
    const rows = await transaction
      .insertInto('burnTaps')
      .values(some.map((tap) => tapRow(site, tap)))
      .onConflict((c) => c.columns(['site', 'id']).doNothing())
      .returning('id')
      .execute();
    added.push(...rows.map((row) => row.id));
  }
  return added;
}

async function addObservations(
  transaction: Transaction<Tables>,
  { site, observations = [] }: WatchPatch,
): Promise<WatchKept['observations']> {
  const added: WatchKept['observations'][number][] = [];
  for (const some of chunks(observations)) {
    const rows = await transaction
      .insertInto('observations')
      .values(some.map((o) => observationRow(site, o)))
      .onConflict((c) => c.columns(['site', 'station', 'observedAtMs', 'revision']).doNothing())
      .returning(['station', 'observedAtMs', 'revision'])
      .execute();
    added.push(...rows);
  }
  return added;
}

async function addDeliveries(
  transaction: Transaction<Tables>,
  { deliveries = [] }: WatchPatch,
): Promise<void> {
  for (const some of chunks(deliveries)) {
    await transaction
      .insertInto('deliveries')
      .values(some.map(deliveryRow))
      .onConflict((c) => c.column('id').doNothing())
      .execute();
  }
}

async function addAnswers(transaction: Transaction<Tables>, { answers = [] }: WatchPatch): Promise<string[]> {
  const added: string[] = [];
  for (const some of chunks(answers)) {
    const rows = await transaction
      .insertInto('answers')
      .values(some.map((answer) => ({ ...answer })))
      .onConflict((c) => c.column('id').doNothing())
      .returning('id')
      .execute();
    added.push(...rows.map((row) => row.id));
  }
  return added;
}

async function addBriefings(
  transaction: Transaction<Tables>,
  { site, briefings = [] }: WatchPatch,
): Promise<void> {
  for (const briefing of briefings) {
    const { id, burn, atMs } = briefing;
    await transaction
      .insertInto('briefings')
      .values({ site, id, burn, atMs, body: toJson(briefing) })
      .onConflict((c) => c.columns(['site', 'id']).doNothing())
      .execute();
  }
}

async function addDayTexts(transaction: Transaction<Tables>, { dayTexts = [] }: WatchPatch): Promise<void> {
  for (const { day, ...text } of dayTexts) {
    await transaction
      .insertInto('dayTexts')
      .values({ ...text, body: toJson(day) })
      .onConflict((c) => c.columns(['site', 'date', 'kind']).doNothing())
      .execute();
  }
}
