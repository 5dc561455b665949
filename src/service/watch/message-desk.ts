// What was told, and what people said to it: by the API, by a personal link, by a text of theirs.

import { randomUUID } from 'node:crypto';
import { acknowledge, type Incoming } from '#core/notices/acknowledge.ts';
import type { Answer } from '#core/notices/answer.ts';
import { briefingOf } from '#core/notices/briefing-of.ts';
import type { Role } from '#core/notices/contact.ts';
import { markAcknowledged } from '#core/notices/mark-acknowledged.ts';
import { HOUR_MS } from '#core/units/time.ts';
import type { WindBriefing } from '#core/watch/wind-briefing.ts';
import { ServiceError } from '#errors.ts';
import { escalateMessages } from '#jobs/watch/escalate-open.ts';
import { watchSite } from '#jobs/watch/watch-site.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import { organisationOf } from '#memory/definition-book.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { MessageSeen, WatchDesk } from '#publish/watch-desk.ts';
import type { MessageThread } from '#store/watch/records.ts';
import type { LinkTokens } from './link-tokens.ts';
import { mayKnow } from './silence-desk.ts';
import { takeInbound } from './take-inbound.ts';

export interface MessageDeskDeps extends WatchDeps {
  readonly tokens: LinkTokens;
  /** A message in one sentence, for lists. */
  sentence(thread: MessageThread): string;
  /** What an incoming text is taken for. */
  inboundKind(text: string): {
    readonly kind: 'opt-out' | 'opt-in' | 'got-it' | 'cannot' | 'other';
    readonly word: string;
  };
  readonly organisation: string;
  /** A number as contacts have it, from how a gateway writes it. */
  numberIn(from: string): string;
}

const MOST = 200;
const MOST_OPEN = 50_000;

type Part = 'messages' | 'message' | 'answer' | 'linked' | 'answerLinked' | 'inbound';

export function messageDesk(deps: MessageDeskDeps): Pick<WatchDesk, Part> {
  const { store } = deps;
  const seen = (thread: MessageThread): MessageSeen => seenOf(deps, thread);
  const threadOr404 = async (viewer: Viewer, id: string): Promise<MessageThread> => {
    const thread = await store.watch.thread(id);
    if (thread === null || !mayKnow(viewer, thread.message.site)) {
      throw new ServiceError('not_found', `no message "${id}"`);
    }
    return thread;
  };
  return {
    messages: async (siteKey, fromMs, toMs) =>
      (await store.watch.threads(siteKey, fromMs, toMs, MOST)).map(seen),
    message: async (viewer, id) => seen(await threadOr404(viewer, id)),
    async answer(viewer, id, said, by) {
      const { message } = await threadOr404(viewer, id);
      await take(deps, [message.site], {
        id: randomUUID(),
        from: { via: 'api', message: id, by },
        said,
        atMs: null,
        receivedAtMs: deps.nowMs(),
      });
      return seen(await threadOr404(viewer, id));
    },
    async linked(token) {
      const named = deps.tokens.read(token);
      const thread = named && (await store.watch.thread(named.message));
      return named && thread ? { message: seen(thread), contact: named.contact } : null;
    },
    async answerLinked(token, said) {
      const named = deps.tokens.read(token);
      const thread = named && (await store.watch.thread(named.message));
      if (!named || !thread) return null;
      await take(deps, [thread.message.site], {
        // The same button pressed twice says the same once.
        id: `link ${named.message} ${named.contact} ${said}`,
        from: { via: 'link', message: named.message, contact: named.contact },
        said,
        atMs: null,
        receivedAtMs: deps.nowMs(),
      });
      const after = await store.watch.thread(named.message);
      return after && seen(after);
    },
    inbound: (channel, id, from, text) =>
      takeInbound(deps, { channel, id, from, text }, (incoming) => take(deps, null, incoming)),
  };
}

/** Keeps the answers that one is, marks what they acknowledge, and looks at what is to be sent next. */
async function take(
  deps: MessageDeskDeps,
  sites: readonly string[] | null,
  incoming: Incoming,
): Promise<readonly Answer[]> {
  const { store } = deps;
  const threads = await store.watch.openThreads(MOST_OPEN, sites ?? undefined);
  const answers: Answer[] = [];
  // Contacts are known by their ids within an organisation only.
  for (const open of Map.groupBy(threads, ({ message }) => organisationOf(message.site)).values()) {
    const contacts = deps.contactsOf(open[0]?.message.site ?? '');
    const result = acknowledge({ incoming, contacts, open, seen: new Set() });
    for (const answer of result.answers) {
      const thread = open.find(({ message }) => message.id === answer.message);
      const role = contacts.find(({ id }) => id === answer.contact)?.role ?? null;
      if (thread) await keepAnswer(deps, thread, answer, role);
      answers.push(answer);
    }
  }
  return answers;
}

const TRIES = 8;

async function keepAnswer(
  deps: MessageDeskDeps,
  { message }: MessageThread,
  answer: Answer,
  role: Role | null,
): Promise<void> {
  const { store } = deps;
  let briefing: WindBriefing | null = null;
  for (let tries = 1; ; tries += 1) {
    const state = await store.watch.state(message.site, deps.nowMs() - 3 * HOUR_MS);
    const marked = markAcknowledged(state.notices, message, answer);
    const notices = marked.filter((notice, i) => notice !== state.notices[i]);
    const burn = state.openBurns.at(-1);
    briefing = burn ? briefingOf(message, answer, role, burn) : null;
    try {
      await store.watch.commit([
        {
          site: message.site,
          replaces: notices.length > 0 ? state.version : null,
          answers: [answer],
          notices,
          briefings: briefing === null ? [] : [briefing],
        },
      ]);
      break;
    } catch (fault) {
      const isRace = fault instanceof ServiceError && fault.code === 'changed_meanwhile';
      if (!isRace || tries === TRIES) throw fault;
    }
  }
  await escalateMessages(deps, [message.id]);
  // What they know of now is no drift any more.
  if (briefing !== null) await watchSite(deps, message.site);
}

export function seenOf(deps: Pick<MessageDeskDeps, 'sentence'>, thread: MessageThread): MessageSeen {
  const { message, deliveries, answers } = thread;
  const { id, site, atMs, kind, verdict, validUntilMs, needsAnswer } = message;
  return {
    id,
    site,
    atMs,
    kind,
    verdict,
    validUntilMs,
    needsAnswer,
    text: deps.sentence(thread),
    answers: answers.map(({ contact, said, atMs: saidMs, via }) => ({
      contact,
      answer: said,
      atMs: saidMs,
      via,
    })),
    deliveries: deliveries.map((d) => ({
      contact: d.contact,
      channel: d.channel,
      step: d.step,
      round: d.repeat,
      outcome: d.outcome ?? (d.triedAtMs === null ? 'waiting' : 'sending'),
      reason: d.detail,
      dueAtMs: d.dueAtMs,
      settledAtMs: d.settledAtMs,
      deliveredAtMs: d.deliveredAtMs,
    })),
  };
}
