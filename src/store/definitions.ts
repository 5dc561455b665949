// Sites, limit sets and orders with their whole history. Changes take turns on one counter, so that which revision is
// the newest cannot change under a change.

import type { Kysely, Selectable, Transaction } from 'kysely';
import { orderEvent } from '#core/events/order-event.ts';
import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from './access.ts';
import { addAudit } from './audit.ts';
import { raise, takeTurn } from './counters.ts';
import type { Definition, DefinitionChange, DefinitionId } from './definition.ts';
import { addEvents } from './events.ts';
import { fromJson, toJson } from './json.ts';
import { keepReply, replyTo } from './replies.ts';
import type { DefinitionRecords } from './store.ts';
import type { Tables } from './tables.ts';

export function createDefinitions({ reading, writing }: DatabaseAccess): DefinitionRecords {
  return {
    current: () =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('definitions as d')
          .innerJoin(newestRevisions(db), (join) =>
            join
              .onRef('n.organisation', '=', 'd.organisation')
              .onRef('n.kind', '=', 'd.kind')
              .onRef('n.id', '=', 'd.id')
              .onRef('n.revision', '=', 'd.revision'),
          )
          .selectAll('d')
          .orderBy('d.organisation')
          .orderBy('d.kind')
          .orderBy('d.id')
          .execute();
        return rows.map(asDefinition);
      }),
    history: (id) =>
      reading(async (db) => {
        const rows = await revisionsOf(db, id).orderBy('revision', 'desc').execute();
        return rows.map(asDefinition);
      }),
    writtenBy: (origin, organisation) =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('definitions')
          .selectAll()
          .where('organisation', '=', organisation)
          .where('origin', '=', origin)
          .orderBy('revision')
          .execute();
        return rows.map(asDefinition);
      }),
    at: (id, atMs) =>
      reading(async (db) => {
        const row = await revisionsOf(db, id)
          .where('changedAtMs', '<=', atMs)
          .orderBy('revision', 'desc')
          .limit(1)
          .executeTakeFirst();
        return row ? asDefinition(row) : null;
      }),
    change: (changes, once) =>
      writing('definitions', async (transaction) => {
        await takeTurn(transaction, 'definitions');
        const replayed = once ? await replyTo(transaction, once.request) : null;
        if (replayed) return { made: [], replayed };
        const made: Definition[] = [];
        for (const change of changes) made.push(await append(transaction, change));
        await raise(transaction, 'definitions');
        await addAudit(transaction, made.map(auditOf));
        if (once) await keepReply(transaction, once.request, once.reply(made));
        const orders = made.filter(({ kind }) => kind === 'order');
        const before = await Promise.all(orders.map((order) => bodyBefore(transaction, order)));
        await addEvents(
          transaction,
          orders.map((order, i) => orderEvent(before[i] ?? null, order)),
        );
        return { made, replayed: null };
      }),
  };
}

const revisionsOf = (db: Kysely<Tables>, { organisation, kind, id }: DefinitionId) =>
  db
    .selectFrom('definitions')
    .selectAll()
    .where('organisation', '=', organisation)
    .where('kind', '=', kind)
    .where('id', '=', id);

async function bodyBefore(transaction: Transaction<Tables>, made: Definition): Promise<unknown> {
  const row = await revisionsOf(transaction, made)
    .where('revision', '=', made.revision - 1)
    .executeTakeFirst();
  return row?.body == null ? null : fromJson(row.body);
}

const newestRevisions = (db: Kysely<Tables>) =>
  db
    .selectFrom('definitions')
    .select((e) => ['organisation', 'kind', 'id', e.fn.max('revision').as('revision')])
    .groupBy(['organisation', 'kind', 'id'])
    .as('n');

async function append(transaction: Transaction<Tables>, change: DefinitionChange): Promise<Definition> {
  const { replaces, ...rest } = change;
  const newest = await revisionsOf(transaction, change)
    .clearSelect()
    .select((e) => e.fn.max('revision').as('revision'))
    .executeTakeFirst();
  const found = newest?.revision ?? 0;
  if (found !== replaces) {
    throw new ServiceError(
      'changed_meanwhile',
      `${change.kind} ${change.id} is at revision ${found}, not at ${replaces}: read it again, then change it`,
      { facts: { kind: change.kind, id: change.id, replaces, newest: found } },
    );
  }
  const made = { ...rest, revision: replaces + 1 };
  await transaction
    .insertInto('definitions')
    .values({ ...made, body: made.body === null ? null : toJson(made.body) })
    .execute();
  return made;
}

const asDefinition = (row: Selectable<Tables['definitions']>): Definition => ({
  ...row,
  kind: row.kind as Definition['kind'],
  origin: row.origin as Definition['origin'],
  body: row.body === null ? null : fromJson(row.body),
});

const auditOf = ({ organisation, kind, id, revision, origin, body, ...rest }: Definition) => ({
  atMs: rest.changedAtMs,
  organisation,
  who: rest.changedBy,
  what: body === null ? 'definition-taken-out' : 'definition-changed',
  subject: `${kind} ${id}`,
  detail: { revision, origin },
});
