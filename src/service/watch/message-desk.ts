// What was told, and what people said to it: by the API, by a personal link, by a text of theirs.

import { randomUUID } from 'node:crypto';
import type { Said } from '#core/notices/answer.ts';
import { ServiceError } from '#errors.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { MessageSeen, WatchDesk } from '#publish/watch-desk.ts';
import type { MessageThread } from '#store/watch/records.ts';
import type { LinkTokens } from './link-tokens.ts';
import { mayKnow } from './silence-desk.ts';
import { takeAnswer } from './take-answer.ts';
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
    async answer(viewer, id, said, by, _via, once) {
      const { message } = await threadOr404(viewer, id);
      if (!message.needsAnswer) throw new ServiceError('bad_body', 'this message asks for no answer');
      await takeAnswer(deps, {
        id: once === null ? randomUUID() : `once ${viewer.organisation} ${once} ${id}`,
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
      await takeAnswer(deps, {
        id: pressedId(thread, named.contact, said),
        from: { via: 'link', message: named.message, contact: named.contact },
        said,
        atMs: null,
        receivedAtMs: deps.nowMs(),
      });
      const after = await store.watch.thread(named.message);
      return after && seen(after);
    },
    inbound: (channel, id, from, text) =>
      takeInbound(deps, { channel, id, from, text }, (incoming) => takeAnswer(deps, incoming)),
  };
}

/** The same button pressed twice says the same once; pressed after something else was said, it says it anew. */
const pressedId = ({ message, answers }: MessageThread, contact: string, said: Said): string => {
  const others = answers.filter((answer) => answer.contact !== contact || answer.said !== said);
  return `link ${message.id} ${contact} ${said} ${others.length}`;
};

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
    about: 'day' in message ? message.day.date : null,
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
      said: d.said,
    })),
  };
}
