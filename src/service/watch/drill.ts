// A drill: a text to all contacts of a site, marked as one, to see whether it arrives and who answers.

import { randomUUID } from 'node:crypto';
import { firstDeliveries } from '#core/notices/first-deliveries.ts';
import type { Message } from '#core/notices/message.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import { audiencesOf } from '#jobs/watch/audiences.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import { organisationOf } from '#memory/definition-book.ts';
import type { MessageSeen } from '#publish/watch-desk.ts';
import type { MessageThread } from '#store/watch/records.ts';
import { seenOf } from './message-desk.ts';

/** A drill in ten minutes and site: texts cost money, and too many drills make people deaf. */
const APART_MS = 10 * MINUTE_MS;

export const createDrill =
  (deps: WatchDeps, sentence: (thread: MessageThread) => string) =>
  async (
    siteKey: string,
    by: string,
    key: string | null,
  ): Promise<{ readonly message: MessageSeen; readonly already: boolean }> => {
    const { store, hash, escalation } = deps;
    const watched = deps.view(siteKey);
    const nowMs = deps.nowMs();
    if (watched === null) {
      throw new ServiceError('no_forecast', 'nothing is known of this site yet', { retryable: true });
    }
    const id = hash(JSON.stringify(['drill', organisationOf(siteKey), key ?? [siteKey, by, randomUUID()]]));
    const known = key === null ? null : await store.watch.thread(id);
    if (known !== null && known.message.site !== siteKey) {
      throw new ServiceError('key_reused', 'this idempotency key came before with a drill of another site');
    }
    if (known !== null) return { message: seenOf({ sentence }, known), already: true };
    const before = await store.watch.threads(siteKey, nowMs - APART_MS, nowMs + 1, 200);
    if (before.some(({ message }) => message.kind === 'drill')) {
      throw new ServiceError('too_many_requests', 'there was a drill in the last 10 minutes', {
        retryable: true,
        facts: { retryAfterS: APART_MS / 1000 },
      });
    }
    const message: Message = {
      id,
      kind: 'drill',
      site: siteKey,
      atMs: nowMs,
      verdict: 'go',
      transitions: [],
      validUntilMs: nowMs + 60 * MINUTE_MS,
      needsAnswer: true,
    };
    const audience = (await audiencesOf(deps, [message]))(message);
    if (audience === null) throw new ServiceError('unknown_site', `no site "${siteKey}" to drill`);
    const due = firstDeliveries(message, audience, nowMs, escalation);
    await store.watch.commit([{ site: siteKey, replaces: null, messages: [message], deliveries: due }]);
    deps.wake();
    const thread = await store.watch.thread(message.id);
    if (thread === null) throw new ServiceError('internal', 'the drill was not kept');
    return { message: seenOf({ sentence }, thread), already: false };
  };
