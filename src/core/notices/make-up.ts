// What is sent once more to somebody whom none of their ways has reached, though nobody waits for their answer: a channel
// that failed for good may have been mended since, and what it was to say still stands.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Contact } from './contact.ts';
import type { Delivery } from './delivery.ts';
import type { Message } from './message.ts';
import { isRelief } from './notice.ts';

/** After the first telling; from then on each half hour, as long as the message is good for. Ours: no source. */
const FIRST_MS = [5 * MINUTE_MS, 10 * MINUTE_MS, 15 * MINUTE_MS];
const EACH_MS = 30 * MINUTE_MS;

/** Warnings, and what the office must see to; a drill or a day text has had its time. */
export const isMadeUp = ({ kind, transitions }: Message): boolean =>
  kind === 'office' || (kind === 'notice' && transitions.some((t) => !isRelief(t)));

/** True where every way of theirs has failed, and nothing is under way. `rows`: all of this person. */
export function isUnreached({ ways }: Pick<Contact, 'ways'>, rows: readonly Delivery[]): boolean {
  const failed = new Set(rows.filter(({ outcome }) => outcome === 'failed').map(({ way }) => way));
  return rows.every(({ outcome }) => outcome === 'failed') && failed.size >= Math.max(1, ways.length);
}

/** There is a way that may be mended. */
export const canBeMadeUp = (contact: Contact, rows: readonly Delivery[]): boolean =>
  contact.optedOutAtMs === null && contact.ways.length > 0 && isUnreached(contact, rows);

/** How often it should have been sent once more by now. */
export function makeUpTurns(sinceFirstMs: number): number {
  const first = FIRST_MS.filter((afterMs) => sinceFirstMs >= afterMs).length;
  const lastMs = FIRST_MS.at(-1) ?? 0;
  return first + Math.max(0, Math.floor((sinceFirstMs - lastMs) / EACH_MS));
}
