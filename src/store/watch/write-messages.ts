// Transitions and the messages that tell them.

import type { Transaction } from 'kysely';
import { chunks } from '#store/chunks.ts';
import { toJson } from '#store/json.ts';
import type { Tables } from '#store/tables.ts';
import type { WatchPatch } from './records.ts';

/** A transition of the same number is a fault of whoever wrote it, and refused. */
export async function addTransitions(
  transaction: Transaction<Tables>,
  { transitions = [], messages = [] }: WatchPatch,
): Promise<void> {
  const toldBy = new Map(
    messages.flatMap((m) => m.transitions.map((t, part) => [nameOf(t), { message: m.id, part }] as const)),
  );
  for (const some of chunks(transitions)) {
    await transaction
      .insertInto('transitions')
      .values(
        some.map((t) => ({
          notice: t.notice,
          episode: t.episode,
          number: t.number,
          site: t.site,
          atMs: t.atMs,
          ...(toldBy.get(nameOf(t)) ?? { message: null, part: null }),
          body: toJson(t),
        })),
      )
      .execute();
  }
}

const nameOf = (t: { notice: string; episode: string; number: number }): string =>
  `${t.notice} ${t.episode} ${t.number}`;

/** Gives the ids of those that were not there yet. */
export async function addMessages(
  transaction: Transaction<Tables>,
  { messages = [], closed = [] }: WatchPatch,
): Promise<string[]> {
  const added: string[] = [];
  for (const some of chunks(messages)) {
    const rows = await transaction
      .insertInto('messages')
      .values(
        some.map((m) => ({
          id: m.id,
          site: m.site,
          kind: m.kind,
          atMs: m.atMs,
          validUntilMs: m.validUntilMs,
          closedAtMs: null,
          body: toJson(m),
        })),
      )
      .onConflict((c) => c.column('id').doNothing())
      .returning('id')
      .execute();
    added.push(...rows.map((row) => row.id));
  }
  for (const { message, atMs } of closed) {
    await transaction
      .updateTable('messages')
      .set({ closedAtMs: atMs })
      .where('id', '=', message)
      .where('closedAtMs', 'is', null)
      .execute();
  }
  return added;
}
