// Messages about which something may still be to be done: repeats, the next way, the next person, and the end of it.

import { type Escalation, escalate } from '#core/notices/escalate.ts';
import { firstDeliveries } from '#core/notices/first-deliveries.ts';
import type { Message } from '#core/notices/message.ts';
import { undoneBy } from '#core/notices/undone-by.ts';
import type { Audience } from '#core/notices/who-is-told.ts';
import type { MessageThread, WatchPatch } from '#store/watch/records.ts';
import { audiencesOf } from './audiences.ts';
import { notReached } from './not-reached.ts';
import { officeMessage } from './office-message.ts';
import type { WatchDeps } from './watched-site.ts';

/** As many as a storm over a whole nation leaves open. */
const MOST_OPEN = 50_000;
/** Looked at, and written, at once. */
const AT_ONCE = 200;
const ENDED = new Set<Escalation['state']>(['expired', 'superseded']);

/** Looks at all open messages once. */
export async function escalateOpen(deps: WatchDeps): Promise<void> {
  const open = await deps.store.watch.openThreads(MOST_OPEN);
  for (let from = 0; from < open.length; from += AT_ONCE) {
    await escalateThreads(deps, open.slice(from, from + AT_ONCE));
  }
}

/** The same for those of one site. */
export async function escalateSite(deps: WatchDeps, site: string): Promise<void> {
  const open = await deps.store.watch.openThreads(MOST_OPEN);
  await escalateThreads(
    deps,
    open.filter(({ message }) => message.site === site),
  );
}

/** The same for some of them. */
export async function escalateMessages(deps: WatchDeps, messages: readonly string[]): Promise<void> {
  const threads = await deps.store.watch.threadsNamed(messages);
  await escalateThreads(
    deps,
    threads.filter(({ closedAtMs }) => closedAtMs === null),
  );
}

async function escalateThreads(deps: WatchDeps, threads: readonly MessageThread[]): Promise<void> {
  if (threads.length === 0) return;
  const audienceOf = await audiencesOf(
    deps,
    threads.map(({ message }) => message),
  );
  const nowMs = deps.nowMs();
  const all = threads.map((thread) => patchOf(deps, thread, audienceOf(thread.message), nowMs));
  // The office was told before where its message is there already.
  const office = all.flatMap(({ messages = [] }) => messages.map(({ id }) => id));
  const told = new Set((await deps.store.watch.threadsNamed(office)).map(({ message }) => message.id));
  const patches = all
    .map((patch) => withoutTold(patch, told))
    .filter(({ deliveries = [], closed = [] }) => deliveries.length > 0 || closed.length > 0);
  if (patches.length === 0) return;
  await deps.store.watch.commit(patches);
  if (patches.some(({ deliveries = [] }) => deliveries.length > 0)) deps.wake();
}

const withoutTold = (patch: WatchPatch, told: ReadonlySet<string>): WatchPatch => ({
  ...patch,
  messages: (patch.messages ?? []).filter(({ id }) => !told.has(id)),
  deliveries: (patch.deliveries ?? []).filter(({ message }) => !told.has(message)),
});

function patchOf(
  { hash, escalation }: WatchDeps,
  thread: MessageThread,
  audience: Audience | null,
  nowMs: number,
): WatchPatch {
  const { message, deliveries, answers } = thread;
  const patch = { site: message.site, replaces: null };
  const closed = [{ message: message.id, atMs: nowMs }];
  if (audience === null) return { ...patch, closed };
  const ended = escalate({ message, deliveries, answers, audience, nowMs, settings: escalation });
  const isDone = ENDED.has(ended.state) || isFinished(thread, ended);
  const told =
    ended.state === 'unanswered'
      ? [unanswered(thread, nowMs, hash)]
      : notReached(thread, audience, nowMs, hash);
  const toldDeliveries = told.flatMap((one) => firstDeliveries(one, audience, nowMs, escalation));
  return {
    ...patch,
    messages: told,
    deliveries: [...ended.due, ...toldDeliveries],
    closed: isDone ? closed : [],
  };
}

/**
 * Nothing more to send: for their knowledge only, and all of it settled. What asks for an answer stays open to its end, though
 * somebody has it: another may say that it cannot be done.
 */
function isFinished({ message, deliveries }: MessageThread, { due, waits }: Escalation): boolean {
  const settled = due.length === 0 && !waits && deliveries.every(({ outcome }) => outcome !== null);
  return settled && !message.needsAnswer && deliveries.length > 0;
}

/** Told once of a message, and once more whenever somebody had it and it was then taken from them. */
function unanswered(
  { message: { id, site, verdict }, answers }: MessageThread,
  nowMs: number,
  hash: (text: string) => string,
): Message {
  const undone = undoneBy(answers);
  const of = undone === null ? id : `${id} ${undone}`;
  const matter = { what: 'not-answered', contact: null, about: id, detail: null } as const;
  return officeMessage({ site, verdict, of }, matter, nowMs, hash);
}
