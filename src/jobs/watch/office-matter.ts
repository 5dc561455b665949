// What the office of a site must know of the texts themselves, told as a message of its own.

import { firstDeliveries } from '#core/notices/first-deliveries.ts';
import type { OfficeMatter } from '#core/notices/message.ts';
import { audiencesOf } from './audiences.ts';
import { officeMessage } from './office-message.ts';
import type { WatchDeps } from './watched-site.ts';

/** `of` names the occasion, so that it is told once. */
export async function officeMatter(
  deps: WatchDeps,
  site: string,
  matter: OfficeMatter,
  of: string,
  isFor: 'told' | 'kept' = 'told',
): Promise<void> {
  const { store, hash, escalation } = deps;
  const nowMs = deps.nowMs();
  const isWord = matter.what === 'wrote' || matter.what === 'cannot';
  const message = officeMessage({ site, verdict: isWord ? 'hold' : 'go', of }, matter, nowMs, hash);
  if (isFor === 'kept') {
    const closed = [{ message: message.id, atMs: nowMs }];
    await store.watch.commit([{ site, replaces: null, messages: [message], closed }]);
    return;
  }
  const audience = (await audiencesOf(deps, [message]))(message);
  if (audience === null) return;
  const deliveries = firstDeliveries(message, audience, nowMs, escalation);
  await store.watch.commit([{ site, replaces: null, messages: [message], deliveries }]);
  if (deliveries.length > 0) deps.wake();
}
