// An answer that came in: kept with its message, whether or not that has ended; what it acknowledges, or takes back, is
// marked, and what is to be sent next is looked at.

import { type AcknowledgeInput, acknowledge, type Incoming } from '#core/notices/acknowledge.ts';
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
  const { from, receivedAtMs } = incoming;
  const { watch } = deps.store;
  if (from.via !== 'digit') {
    const named = await watch.thread(from.message);
    return named === null ? [] : (await takeOf(deps, incoming, splitByEnd([named]))).answers;
  }
  const taken = await takeOf(deps, incoming, { open: await watch.openThreads(MOST_OPEN), ended: [] });
  if (taken.answers.length > 0 || taken.isReplay) return taken.answers;
  const ended = await watch.endedThreads(from.address, receivedAtMs - DAY_MS, MOST_ENDED);
  return (await takeOf(deps, incoming, { open: [], ended })).answers;
}

interface Threads {
  readonly open: readonly MessageThread[];
  readonly ended: readonly MessageThread[];
}

const splitByEnd = (threads: readonly MessageThread[]): Threads => ({
  open: threads.filter(({ closedAtMs }) => closedAtMs === null),
  ended: threads.filter(({ closedAtMs }) => closedAtMs !== null),
});

async function takeOf(
  deps: WatchDeps,
  incoming: Incoming,
  { open, ended }: Threads,
): Promise<{ readonly answers: readonly Answer[]; readonly isReplay: boolean }> {
  const answers: Answer[] = [];
  let isReplay = false;
  // Contacts are known by their ids within an organisation only.
  const byOrganisation = Map.groupBy([...open, ...ended], ({ message }) => organisationOf(message.site));
  for (const threads of byOrganisation.values()) {
    const contacts = deps.contactsOf(threads[0]?.message.site ?? '');
    const input: AcknowledgeInput = {
      incoming,
      contacts,
      open: threads.filter((thread) => open.includes(thread)),
      ended: threads.filter((thread) => ended.includes(thread)),
      seen: new Set(),
    };
    const result = acknowledge(input);
    isReplay ||= 'why' in result && result.why === 'replay';
    for (const answer of result.answers) {
      const thread = threads.find(({ message }) => message.id === answer.message);
      if (thread) await keepAnswer(deps, thread, answer, contacts);
      answers.push(answer);
    }
  }
  return { answers, isReplay };
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
  const briefing = await writeAnswer(deps, thread, answer, isLate ? null : role);
  if (isLate && answer.said === 'cannot') {
    const matter = { what: 'cannot', contact: answer.contact, about: message.id, detail: null } as const;
    await officeMatter(deps, message.site, matter, answer.id);
  }
  await escalateMessages(deps, [message.id]);
  // What they know of now is no drift any more.
  if (briefing !== null) await watchSite(deps, message.site);
}

/** Judged by all answers to its message: of two that come at one moment the later one is written by what the other left. */
async function writeAnswer(
  { store, nowMs }: WatchDeps,
  { message }: MessageThread,
  answer: Answer,
  role: Contact['role'] | null,
): Promise<WindBriefing | null> {
  for (let tries = 1; ; tries += 1) {
    const state = await store.watch.state(message.site, nowMs() - 3 * HOUR_MS);
    const before = (await store.watch.thread(message.id))?.answers ?? [];
    const marked = markAcknowledged(state.notices, message, [...before, answer]);
    const burn = state.openBurns.at(-1);
    const briefing = burn ? briefingOf(message, answer, role, burn) : null;
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
