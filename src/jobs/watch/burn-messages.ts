// What the crew tapped, told to those who watch from elsewhere.

import { firstDeliveries } from '#core/notices/first-deliveries.ts';
import type { Message, TapTold } from '#core/notices/message.ts';
import { HOUR_MS } from '#core/units/time.ts';
import type { Burn, BurnTap } from '#core/watch/burn.ts';
import { isOpen } from '#core/watch/burn-plan.ts';
import { pitLit, wasLit } from '#core/watch/pit-lit.ts';
import { type Looked, newestOf } from './look-at-site.ts';
import type { WatchDeps } from './watched-site.ts';

/** `burns`: those that the taps changed, and those that were open before them; the first of one that is there twice counts. */
export function burnMessages(
  { hash, escalation }: Pick<WatchDeps, 'hash' | 'escalation'>,
  { watched, silences, heard, state, burn, covered, nowMs }: Looked,
  taps: readonly BurnTap[],
  burns: readonly Burn[],
) {
  const messages = taps
    .filter(({ tap, withdraws }) => !withdraws && tap !== 'charging')
    .map(
      (tap): Message => ({
        id: hash(JSON.stringify(['burn', watched.key, tap.id])),
        kind: 'burn',
        site: watched.key,
        atMs: nowMs,
        verdict: 'go',
        transitions: [],
        validUntilMs: nowMs + 2 * HOUR_MS,
        needsAnswer: false,
        tap: tapTold(tap, [...burns, ...covered]),
      }),
    );
  const audience = {
    contacts: watched.contacts,
    silences,
    timeZone: watched.site.timeZone,
    burnOpen: isOpen(burn),
    heard,
    newest: newestOf(state.notices),
  };
  const deliveries = messages.flatMap((message) => firstDeliveries(message, audience, nowMs, escalation));
  return { messages, deliveries };
}

function tapTold({ burn: id, tap, tappedAtMs, by }: BurnTap, burns: readonly Burn[]): TapTold {
  const own = burns.find((one) => one.id === id);
  const all = burns.filter((one, i) => burns.findIndex((other) => other.id === one.id) === i);
  const beside = all.filter((one) => one.id !== id && isOpen(one));
  const pit = own !== undefined && beside.length > 0 ? pitLit(own, all.filter(wasLit)) : null;
  return { burn: id, tap, tappedAtMs, by, pit };
}
