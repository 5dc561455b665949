// An answer that came in: kept with its message, whether or not that has ended; what it acknowledges, or takes back, is
// marked, and what is to be sent next is looked at.

import { acknowledge, type Incoming } from '#core/notices/acknowledge.ts';
import type { Answer } from '#core/notices/answer.ts';
import { briefingOf } from '#core/notices/briefing-of.ts';
import type { Contact } from '#core/notices/contact.ts';
import { markAcknowledged } from '#core/notices/mark-acknowledged.ts';
import { DAY_MS, HOUR_MS } from '#core/units/time.ts';
import type { WindBriefing } from '#core/watch/wind-briefing.ts';
import { ServiceError } from '#errors.ts';
import { escalateMessages } from '#jobs/watch/escalate-open.ts';
import { officeMatter } from '#jobs/watch/office-matter.ts';
import { watchSite } from '#jobs/watch/watch-site.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import { organisationOf } from '#memory/definition-book.ts';
import type { MessageThread } from '#store/watch/records.ts';

const MOST_OPEN = 50_000;
const MOST_ENDED = 500;
const TRIES = 8;

/** Empty where it is an answer to nothing. */
export async function takeAnswer(deps: WatchDeps, incoming: Incoming): Promise<readonly Answer[]> {
  // Sent again it is no answer to whatever was told since.
  if (await deps.store.watch.isAnswerKept(incoming.id)) return [];
  const threads = await threadsFor(deps, incoming);
  const byOrganisation = new Map<string, readonly Contact[]>();
  const contactsOf = (site: string): readonly Contact[] => {
    const organisation = organisationOf(site);
    const contacts = byOrganisation.get(organisation) ?? deps.contactsOf(site);
    byOrganisation.set(organisation, contacts);
    return contacts;
  };
  const { answers } = acknowledge({
    incoming,
    contactsOf,
    open: threads.filter(({ closedAtMs }) => closedAtMs === null),
    ended: threads.filter(({ closedAtMs }) => closedAtMs !== null),
    seen: new Set(),
  });
  for (const answer of answers) {
    const thread = threads.find(({ message }) => message.id === answer.message);
    if (thread) await keepAnswer(deps, thread, answer, contactsOf(answer.site));
  }
  return answers;
}

/** Those that it may be an answer to. */
async function threadsFor({ store }: WatchDeps, { from, receivedAtMs }: Incoming): Promise<MessageThread[]> {
  const { watch } = store;
  if (from.via !== 'digit') {
    const named = await watch.thread(from.message);
    return named === null ? [] : [named];
  }
  const open = await watch.openThreads(MOST_OPEN);
  const ended = await watch.endedThreads(from.address, receivedAtMs - DAY_MS, MOST_ENDED);
  // One that ended between the two is among both.
  const isOver = new Set(ended.map(({ message }) => message.id));
  return [...open.filter(({ message }) => !isOver.has(message.id)), ...ended];
}

async function keepAnswer(
  deps: WatchDeps,
  thread: MessageThread,
  answer: Answer,
  contacts: readonly Contact[],
): Promise<void> {
  const { message } = thread;
  const isLate = thread.closedAtMs !== null || answer.receivedAtMs > message.validUntilMs;
  const role = contacts.find(({ id }) => id === answer.contact)?.role ?? null;
  const written = await writeAnswer(deps, thread, answer, isLate ? null : role);
  if (written === 'kept before') return;
  if (isLate && answer.said === 'cannot') {
    const matter = { what: 'cannot', contact: answer.contact, about: message.id, detail: null } as const;
    await officeMatter(deps, message.site, matter, answer.id);
  }
  await escalateMessages(deps, [message.id]);
  // What they know of now is no drift any more.
  if (written !== null) await watchSite(deps, message.site);
}

/** Judged by all answers to its message: of two that come at one moment the later one is written by what the other left. */
async function writeAnswer(
  { store, nowMs }: WatchDeps,
  { message }: MessageThread,
  answer: Answer,
  role: Contact['role'] | null,
): Promise<WindBriefing | null | 'kept before'> {
  for (let tries = 1; ; tries += 1) {
    const state = await store.watch.state(message.site, nowMs() - 3 * HOUR_MS);
    if (await store.watch.isAnswerKept(answer.id)) return 'kept before';
    const { answers = [], deliveries = [] } = (await store.watch.thread(message.id)) ?? {};
    const marked = markAcknowledged(state.notices, { message, deliveries, answers: [...answers, answer] });
    const burn = state.openBurns.at(-1);
    const briefing = burn ? briefingOf({ message, deliveries }, answer, role, burn) : null;
    try {
      await store.watch.commit([
        {
          site: message.site,
          replaces: state.version,
          answers: [answer],
          notices: marked.filter((notice, i) => notice !== state.notices[i]),
          briefings: briefing === null ? [] : [briefing],
        },
      ]);
      return briefing;
    } catch (fault) {
      const isRace = fault instanceof ServiceError && fault.code === 'changed_meanwhile';
      if (!isRace || tries === TRIES) throw fault;
    }
  }
}
