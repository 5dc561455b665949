// Reads over all sites at once, without the bodies of messages.

import type { Kysely } from 'kysely';
import type { Answer } from '#core/notices/answer.ts';
import type { MessageKind } from '#core/notices/message.ts';
import type { DatabaseAccess } from '#store/access.ts';
import { chunks } from '#store/chunks.ts';
import { fromJson } from '#store/json.ts';
import type { Tables } from '#store/tables.ts';
import type { KeptEvening, KeptStood, LastTold, ListReads } from './list-records.ts';
import { asStood } from './stood.ts';

/** What tells a crew how it stands; a drill or an office matter does not. */
const TOLD_KINDS = ['evening', 'dawn', 'notice'];

export function createListReads({ reading }: DatabaseAccess): ListReads {
  return {
    evenings: (sinceMs) =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('dayTexts')
          .select(['site', 'atMs', 'body'])
          .where('atMs', '>=', sinceMs)
          .where('kind', '=', 'evening')
          .orderBy('atMs')
          .orderBy('site')
          .execute();
        return rows.map(({ site, atMs, body }) => ({ site, atMs, day: fromJson<KeptEvening['day']>(body) }));
      }),
    lastTold: (sites, sinceMs) => reading((db) => lastToldIn(db, sites, sinceMs)),
    unreached: () => reading(unreachedIn),
    stood: (sites) => reading((db) => stoodIn(db, sites)),
    watchVersions: () =>
      reading(async (db) => {
        const rows = await db.selectFrom('watches').select(['site', 'version']).execute();
        return new Map(rows.map(({ site, version }) => [site, version]));
      }),
  };
}

async function unreachedIn(db: Kysely<Tables>): Promise<{ site: string; contact: string }[]> {
  const failed = await db
    .selectFrom('deliveries')
    .innerJoin('messages', 'messages.id', 'deliveries.message')
    .select(['messages.id', 'messages.site', 'deliveries.contact'])
    .where('messages.closedAtMs', 'is', null)
    .where('deliveries.outcome', '=', 'failed')
    .distinct()
    .execute();
  const reached = new Set<string>();
  for (const some of chunks([...new Set(failed.map(({ id }) => id))])) {
    const others = await db
      .selectFrom('deliveries')
      .select(['message', 'contact'])
      .where('message', 'in', some)
      .where((is) => is.or([is('outcome', 'is', null), is('outcome', '!=', 'failed')]))
      .execute();
    for (const { message, contact } of others) reached.add(`${message} ${contact}`);
    const said = db.selectFrom('answers').select(['message']).where('said', '=', 'got-it');
    for (const { message } of await said.where('message', 'in', some).execute()) reached.add(message);
  }
  const missed = failed.filter(({ id, contact }) => !reached.has(id) && !reached.has(`${id} ${contact}`));
  return [...new Map(missed.map(({ site, contact }) => [`${site} ${contact}`, { site, contact }])).values()];
}

async function stoodIn(db: Kysely<Tables>, sites: readonly string[]): Promise<KeptStood[]> {
  const found: KeptStood[] = [];
  for (const some of chunks(sites)) {
    const rows = await db.selectFrom('watches').selectAll().where('site', 'in', some).execute();
    found.push(...rows.map(({ stood, ...row }) => ({ ...row, conditions: asStood(stood) })));
  }
  return found;
}

async function lastToldIn(
  db: Kysely<Tables>,
  sites: readonly string[],
  sinceMs: number,
): Promise<LastTold[]> {
  const newest = [];
  for (const some of chunks(sites)) {
    const rows = await db
      .selectFrom('messages')
      .select(['id', 'site', 'kind', 'atMs'])
      .where('site', 'in', some)
      .where('atMs', '>=', sinceMs)
      .where('kind', 'in', TOLD_KINDS)
      .orderBy('atMs', 'desc')
      .orderBy('id')
      .execute();
    newest.push(...new Map(rows.toReversed().map((row) => [row.site, row])).values());
  }
  const deliveries = [];
  const answers = [];
  for (const some of chunks(newest.map(({ id }) => id))) {
    const sent = db
      .selectFrom('deliveries')
      .select(['message', 'contact', 'outcome', 'settledAtMs', 'deliveredAtMs'])
      .where('message', 'in', some);
    deliveries.push(...(await sent.orderBy('dueAtMs').orderBy('id').execute()));
    const said = db.selectFrom('answers').select(['message', 'contact', 'said', 'atMs']);
    answers.push(
      ...(await said.where('message', 'in', some).orderBy('receivedAtMs').orderBy('id').execute()),
    );
  }
  const deliveriesOf = Map.groupBy(deliveries, ({ message }) => message);
  const answersOf = Map.groupBy(answers, ({ message }) => message);
  return newest.map(({ id, site, kind, atMs }) => ({
    message: id,
    site,
    kind: kind as MessageKind,
    atMs,
    deliveries: (deliveriesOf.get(id) ?? []).map(({ message: _, ...part }) => part),
    answers: (answersOf.get(id) ?? []).map(({ contact, said, atMs: saidMs }) => ({
      contact,
      said: said as Answer['said'],
      atMs: saidMs,
    })),
  }));
}
