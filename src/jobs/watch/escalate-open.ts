// Messages about which something may still be to be done: repeats, the next way, the next person, and the end of it.

import { type Escalation, escalate } from '#core/notices/escalate.ts';
import type { Message, OfficeMatter } from '#core/notices/message.ts';
import { DAY_MS, HOUR_MS } from '#core/units/time.ts';
import type { MessageThread, WatchPatch } from '#store/watch/records.ts';
import { withOptOuts } from './contacts-of.ts';
import { newestOf } from './look-at-site.ts';
import type { WatchDeps } from './watched-site.ts';

const MOST_OPEN = 2000;
const ENDED = new Set<Escalation['state']>(['expired', 'superseded']);

/** Looks at all open messages once. */
export async function escalateOpen(deps: WatchDeps): Promise<void> {
  for (const thread of await deps.store.watch.openThreads(MOST_OPEN)) await escalateThread(deps, thread);
}

export async function escalateMessage(deps: WatchDeps, message: string): Promise<void> {
  const thread = await deps.store.watch.thread(message);
  if (thread !== null && thread.closedAtMs === null) await escalateThread(deps, thread);
}

async function escalateThread(deps: WatchDeps, thread: MessageThread): Promise<void> {
  const { store, hash, escalation } = deps;
  const { message, deliveries, answers } = thread;
  const watched = deps.view(message.site);
  const nowMs = deps.nowMs();
  const close = { message: message.id, atMs: nowMs };
  if (watched === null) {
    await store.watch.commit([{ site: message.site, replaces: null, closed: [close] }]);
    return;
  }
  const [state, silences, optOuts] = await Promise.all([
    store.watch.state(message.site, nowMs - HOUR_MS),
    store.watch.silences([message.site], nowMs),
    store.watch.optOuts(watched.organisation),
  ]);
  const audience = {
    contacts: withOptOuts(watched.contacts, optOuts),
    silences,
    timeZone: watched.site.timeZone,
    burnOpen: state.openBurns.length > 0,
    heard: await store.watch.heard(message.transitions),
    newest: newestOf(state.notices),
  };
  const ended = escalate({ message, deliveries, answers, audience, nowMs, settings: escalation });
  const told = ended.state === 'unanswered' ? unanswered(message, nowMs, hash) : null;
  const toldDeliveries = told
    ? escalate({ message: told, deliveries: [], answers: [], audience, nowMs, settings: escalation }).due
    : [];
  const isDone = ENDED.has(ended.state) || isFinished(thread, ended);
  const patch: WatchPatch = {
    site: message.site,
    replaces: null,
    messages: told ? [told] : [],
    deliveries: [...ended.due, ...toldDeliveries],
    closed: isDone ? [close] : [],
  };
  const isNothing = patch.deliveries?.length === 0 && patch.closed?.length === 0;
  // The office was told before where its message is there already.
  if (isNothing) return;
  await store.watch.commit([patch]);
  if ((patch.deliveries?.length ?? 0) > 0) deps.wake();
}

const unanswered = ({ id, site, verdict }: Message, nowMs: number, hash: (text: string) => string): Message =>
  officeMessage(
    { site, verdict, of: id },
    { what: 'not-answered', contact: null, about: id, detail: null },
    nowMs,
    hash,
  );

/** Nothing more to send: for their knowledge only, and all of it settled; or acknowledged. */
function isFinished({ message, deliveries }: MessageThread, { state, due }: Escalation): boolean {
  const settled = due.length === 0 && deliveries.every(({ outcome }) => outcome !== null);
  return settled && (state === 'acknowledged' || (!message.needsAnswer && deliveries.length > 0));
}

/** Tells the office of a site something about the texts themselves; `of` names the occasion, so that it is told once. */
export async function officeMatter(
  deps: WatchDeps,
  site: string,
  matter: OfficeMatter,
  of: string,
): Promise<void> {
  const { store, hash, escalation } = deps;
  const watched = deps.view(site);
  if (watched === null) return;
  const nowMs = deps.nowMs();
  const message = officeMessage({ site, verdict: 'go', of }, matter, nowMs, hash);
  const [silences, optOuts] = await Promise.all([
    store.watch.silences([site], nowMs),
    store.watch.optOuts(watched.organisation),
  ]);
  const audience = {
    contacts: withOptOuts(watched.contacts, optOuts),
    silences,
    timeZone: watched.site.timeZone,
    burnOpen: false,
    heard: new Set<string>(),
    newest: new Map<string, never>(),
  };
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
