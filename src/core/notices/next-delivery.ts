// What one person is to be sent next of one message in one step, if anything.

import { SEVERITY } from '#core/rules/finding.ts';
import type { Contact, ContactWay } from './contact.ts';
import type { Delivery } from './delivery.ts';
import { elapsedMs } from './elapsed.ts';
import { canBeMadeUp, isMadeUp, makeUpTurns } from './make-up.ts';
import type { Message } from './message.ts';
import { isPutOff } from './put-off.ts';
import type { Told } from './who-is-told.ts';

export interface NextDeliveryInput {
  readonly message: Message;
  readonly told: Told;
  readonly deliveries: readonly Delivery[];
  readonly nowMs: number;
  readonly settings: { readonly repeatAfterMs: readonly number[]; readonly mostPerContact: number };
}

export function nextDelivery({
  message,
  told,
  deliveries,
  nowMs,
  settings,
}: NextDeliveryInput): Delivery | null {
  const { contact, step, asked } = told;
  const rows = deliveries
    .filter((d) => d.contact === contact.id && d.step === step && d.asked === asked)
    .sort((a, b) => a.repeat - b.repeat || a.way - b.way);
  const make = (way: number, repeat: number): Delivery => deliveryOf(message, told, way, repeat, nowMs);
  if (rows.length === 0) return make(0, 0);
  // One at a time, and never without end.
  const isWaiting = (d: Delivery): boolean => d.outcome === null && !isPutOff(d, nowMs);
  // What nobody has taken has cost nobody a text.
  const counted = asked ? rows : rows.filter((d) => d.outcome !== 'failed');
  if (rows.some(isWaiting) || counted.length >= settings.mostPerContact) return null;
  const last = rows.at(-1) as Delivery;
  const failedIn = (some: readonly Delivery[]): ReadonlySet<number> =>
    new Set(some.filter((d) => d.outcome === 'failed' || isPutOff(d, nowMs)).map((d) => d.way));
  const failed = failedIn(rows);
  const failedNow = failedIn(rows.filter((d) => d.repeat === last.repeat));
  const wayAfter = (way: number): number => contact.ways.findIndex((_, i) => i > way && !failedNow.has(i));
  // What may not have arrived goes by the next way too, where an answer is waited for.
  if (last.outcome === 'failed' || isPutOff(last, nowMs) || (last.outcome === 'uncertain' && asked)) {
    const next = contact.optedOutAtMs === null ? wayAfter(last.way) : -1;
    if (next >= 0) return make(next, last.repeat);
  }
  const first = Math.min(...rows.map((d) => d.dueAtMs));
  if (!asked) {
    const turns = isMadeUp(message) && canBeMadeUp(contact, rows) ? makeUpTurns(elapsedMs(first, nowMs)) : 0;
    return turns > last.repeat ? make(0, turns) : null;
  }
  const reached = settings.repeatAfterMs.filter((afterMs) => elapsedMs(first, nowMs) >= afterMs).length;
  const way = wayToRepeat(rows, contact, failed);
  // Those missed while nobody looked are made up for by one.
  const isOpen = rows.some((d) => d.way === way && d.outcome === null);
  return reached > last.repeat && way >= 0 && !isOpen ? make(way, reached) : null;
}

/**
 * The way that took it last; without one the first that has not failed; where all have, the first once more: what failed for
 * good may have been mended by then. -1 where there is none.
 */
function wayToRepeat(rows: readonly Delivery[], contact: Contact, failed: ReadonlySet<number>): number {
  if (contact.optedOutAtMs !== null) return -1;
  const sent = rows.findLast((d) => d.outcome === 'sent')?.way;
  const good = sent !== undefined && !failed.has(sent) && sent < contact.ways.length;
  if (good) return sent;
  const unfailed = contact.ways.findIndex((_, i) => !failed.has(i));
  return unfailed >= 0 || contact.ways.length === 0 ? unfailed : 0;
}

function deliveryOf(message: Message, told: Told, way: number, repeat: number, nowMs: number): Delivery {
  const { contact, step, asked, parts } = told;
  const to = contact.ways[way];
  const why = whyNever(contact, to);
  return {
    message: message.id,
    site: message.site,
    contact: contact.id,
    step,
    way,
    repeat,
    channel: to?.channel ?? '',
    to: to?.to ?? '',
    asked,
    parts,
    urgency: SEVERITY.stop - SEVERITY[message.verdict],
    dueAtMs: nowMs,
    notBeforeMs: null,
    validUntilMs: message.validUntilMs,
    triedAtMs: null,
    outcome: why === null ? null : 'failed',
    settledAtMs: why === null ? null : nowMs,
    detail: why,
  };
}

/** A text that is never sent has failed: it must not look as if somebody had been told. */
function whyNever({ optedOutAtMs }: Contact, way: ContactWay | undefined): string | null {
  if (optedOutAtMs !== null) return 'opted-out';
  return way === undefined ? 'no-way' : null;
}
