// Messages about which something may still be to be done: repeats, the next way, the next person, and the end of it.

import { type Escalation, escalate } from '#core/notices/escalate.ts';
import type { Message, OfficeMatter } from '#core/notices/message.ts';
import type { Audience } from '#core/notices/who-is-told.ts';
import { DAY_MS } from '#core/units/time.ts';
import type { MessageThread, WatchPatch } from '#store/watch/records.ts';
import { audiencesOf } from './audiences.ts';
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
      ? [unanswered(message, nowMs, hash)]
      : notReached(thread, audience, nowMs, hash);
  const toldDeliveries = told.flatMap(
    (one) =>
      escalate({ message: one, deliveries: [], answers: [], audience, nowMs, settings: escalation }).due,
  );
  return {
    ...patch,
    messages: told,
    deliveries: [...ended.due, ...toldDeliveries],
    closed: isDone ? closed : [],
  };
}

/** Whom of the crew a warning could not be brought by any of their ways; who opted out was told of when they did. */
function notReached(
  { message, deliveries }: MessageThread,
  { contacts }: Audience,
  nowMs: number,
  hash: (text: string) => string,
): Message[] {
  if (!message.needsAnswer) return [];
  const { site, verdict, id } = message;
  return contacts
    .filter(({ role, optedOutAtMs }) => role === 'crew' && optedOutAtMs === null)
    .filter((contact) => {
      const own = deliveries.filter((d) => d.contact === contact.id);
      const failed = new Set(own.filter(({ outcome }) => outcome === 'failed').map(({ way }) => way));
      return (
        own.length > 0 &&
        own.every(({ outcome }) => outcome === 'failed') &&
        failed.size >= contact.ways.length
      );
    })
    .map((contact) =>
      officeMessage(
        { site, verdict, of: `${id} ${contact.id}` },
        { what: 'not-delivered', contact: contact.id, about: id, detail: null },
        nowMs,
        hash,
      ),
    );
}

const unanswered = ({ id, site, verdict }: Message, nowMs: number, hash: (text: string) => string): Message =>
  officeMessage(
    { site, verdict, of: id },
    { what: 'not-answered', contact: null, about: id, detail: null },
    nowMs,
    hash,
  );

/**
 * Nothing more to send: for their knowledge only, and all of it settled. What asks for an answer stays open to its end, though
 * somebody has it: another may say that it cannot be done.
 */
function isFinished({ message, deliveries }: MessageThread, { due, waits }: Escalation): boolean {
  const settled = due.length === 0 && !waits && deliveries.every(({ outcome }) => outcome !== null);
  return settled && !message.needsAnswer && deliveries.length > 0;
}

/** Tells the office of a site something about the texts themselves; `of` names the occasion, so that it is told once. */
export async function officeMatter(
  deps: WatchDeps,
  site: string,
  matter: OfficeMatter,
  of: string,
  isFor: 'told' | 'kept' = 'told',
): Promise<void> {
  const { store, hash, escalation } = deps;
  const nowMs = deps.nowMs();
  const message = officeMessage(
    { site, verdict: matter.what === 'wrote' ? 'hold' : 'go', of },
    matter,
    nowMs,
    hash,
  );
  if (isFor === 'kept') {
    const closed = [{ message: message.id, atMs: nowMs }];
    await store.watch.commit([{ site, replaces: null, messages: [message], closed }]);
    return;
  }
  const audience = (await audiencesOf(deps, [message]))(message);
  if (audience === null) return;
  const deliveries = escalate({
    message,
    deliveries: [],
    answers: [],
    audience,
    nowMs,
    settings: escalation,
  }).due;
  await store.watch.commit([{ site, replaces: null, messages: [message], deliveries }]);
  if (deliveries.length > 0) deps.wake();
}

function officeMessage(
  { site, verdict, of }: { readonly site: string; readonly verdict: Message['verdict']; readonly of: string },
  matter: OfficeMatter,
  nowMs: number,
  hash: (text: string) => string,
): Message {
  return {
    id: hash(JSON.stringify(['office', matter.what, of])),
    kind: 'office',
    site,
    atMs: nowMs,
    verdict,
    transitions: [],
    validUntilMs: nowMs + DAY_MS / 2,
    needsAnswer: false,
    matter,
  };
}
