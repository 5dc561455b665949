// Messages with their deliveries and answers, and who heard of what.

import type { Kysely, Selectable } from 'kysely';
import type { Message } from '#core/notices/message.ts';
import type { Notice, Transition } from '#core/notices/notice.ts';
import { heardKey } from '#core/notices/who-is-told.ts';
import type { DatabaseAccess } from '#store/access.ts';
import { chunks } from '#store/chunks.ts';
import { fromJson } from '#store/json.ts';
import type { Tables } from '#store/tables.ts';
import type { MessageThread, WatchRecords } from './records.ts';
import { asAnswer, asDelivery } from './rows.ts';

type Reads =
  | 'transitions'
  | 'heard'
  | 'newest'
  | 'threadsNamed'
  | 'thread'
  | 'isAnswerKept'
  | 'threads'
  | 'openThreads'
  | 'endedThreads';

export function createMessageReads({ reading }: DatabaseAccess): Pick<WatchRecords, Reads> {
  return {
    transitions: (site, fromMs, toMs, most) =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('transitions')
          .select('body')
          .where('site', '=', site)
          .where('atMs', '>=', fromMs)
          .where('atMs', '<', toMs)
          .orderBy('atMs')
          .orderBy('notice')
          .orderBy('number')
          .limit(most)
          .execute();
        return rows.map((row) => fromJson<Transition>(row.body));
      }),
    heard: (episodes) => reading((db) => heardIn(db, episodes)),
    newest: (notices) => reading((db) => newestIn(db, notices)),
    thread: (message) => reading(async (db) => (await threadsNamedIn(db, [message]))[0] ?? null),
    isAnswerKept: (id) =>
      reading(async (db) => {
        const rows = await db.selectFrom('answers').select('id').where('id', '=', id).execute();
        return rows.length > 0;
      }),
    threadsNamed: (messages) => reading((db) => threadsNamedIn(db, messages)),
    threads: (site, fromMs, toMs, most) =>
      reading(async (db) => {
        const rows = await db
          .selectFrom('messages')
          .selectAll()
          .where('site', '=', site)
          .where('atMs', '>=', fromMs)
          .where('atMs', '<', toMs)
          .orderBy('atMs', 'desc')
          .orderBy('id')
          .limit(most)
          .execute();
        return threadsOf(db, rows);
      }),
    openThreads: (most, sites) =>
      reading(async (db) => {
        const all = db
          .selectFrom('messages')
          .selectAll()
          .where('closedAtMs', 'is', null)
          .orderBy('atMs')
          .orderBy('id')
          .limit(most);
        const queries = sites ? chunks(sites).map((some) => all.where('site', 'in', some)) : [all];
        const rows = [];
        for (const query of queries) rows.push(...(await query.execute()));
        return threadsOf(db, rows.sort((a, b) => a.atMs - b.atMs).slice(0, most));
      }),
    endedThreads: (address, sinceMs, most) => reading((db) => endedIn(db, address, sinceMs, most)),
  };
}

async function endedIn(
  db: Kysely<Tables>,
  address: string,
  sinceMs: number,
  most: number,
): Promise<MessageThread[]> {
  const sent = db
    .selectFrom('deliveries')
    .select('message')
    .where('address', '=', address)
    .where('dueAtMs', '>=', sinceMs);
  const rows = await db
    .selectFrom('messages')
    .selectAll()
    .where('id', 'in', sent)
    .where('closedAtMs', 'is not', null)
    .orderBy('atMs', 'desc')
    .orderBy('id')
    .limit(most)
    .execute();
  return threadsOf(db, rows);
}

/** A person was told of an episode where any of its transitions was a part of what they were sent. */
async function heardIn(
  db: Kysely<Tables>,
  episodes: readonly Pick<Transition, 'notice' | 'episode'>[],
): Promise<ReadonlySet<string>> {
  const wanted = new Set(episodes.map((t) => heardKey('', t)));
  const heard = new Set<string>();
  for (const some of chunks([...new Set(episodes.map((t) => t.notice))])) {
    const rows = await db
      .selectFrom('transitions as t')
      .innerJoin('deliveries as d', 'd.message', 't.message')
      .select(['t.notice', 't.episode', 't.part', 'd.contact', 'd.parts'])
      .where('t.notice', 'in', some)
      .where('t.episode', 'in', [...new Set(episodes.map((t) => t.episode))])
      .where('d.outcome', 'in', ['sent', 'uncertain'])
      .execute();
    for (const row of rows) {
      const told = fromJson<number[]>(row.parts).includes(row.part ?? -1);
      if (told && wanted.has(heardKey('', row))) heard.add(heardKey(row.contact, row));
    }
  }
  return heard;
}

async function newestIn(db: Kysely<Tables>, notices: readonly string[]): ReturnType<WatchRecords['newest']> {
  const newest = new Map<string, Pick<Notice, 'episode' | 'number'>>();
  for (const some of chunks(notices)) {
    const rows = await db.selectFrom('notices').select('body').where('key', 'in', some).execute();
    for (const { body } of rows) {
      const { key, episode, number } = fromJson<Notice>(body);
      newest.set(key, { episode, number });
    }
  }
  return newest;
}

async function threadsNamedIn(db: Kysely<Tables>, messages: readonly string[]): Promise<MessageThread[]> {
  const rows = [];
  for (const some of chunks(messages)) {
    rows.push(...(await db.selectFrom('messages').selectAll().where('id', 'in', some).execute()));
  }
  return threadsOf(db, rows);
}

async function threadsOf(
  db: Kysely<Tables>,
  messages: readonly Selectable<Tables['messages']>[],
): Promise<MessageThread[]> {
  const deliveries = [];
  const answers = [];
  for (const some of chunks(messages.map((m) => m.id))) {
    const sent = db.selectFrom('deliveries').selectAll().where('message', 'in', some);
    deliveries.push(...(await sent.orderBy('dueAtMs').orderBy('id').execute()));
    const said = db.selectFrom('answers').selectAll().where('message', 'in', some);
    answers.push(...(await said.orderBy('receivedAtMs').orderBy('id').execute()));
  }
  const deliveriesOf = Map.groupBy(deliveries, (d) => d.message);
  const answersOf = Map.groupBy(answers, (a) => a.message);
  return messages.map((m) => ({
    message: fromJson<Message>(m.body),
    closedAtMs: m.closedAtMs,
    deliveries: (deliveriesOf.get(m.id) ?? []).map(asDelivery),
    answers: (answersOf.get(m.id) ?? []).map(asAnswer),
  }));
}
