// An event → what it says, in one line. What its data does not tell is not said.

import type { LoggedEvent } from '#core/events/event.ts';
import type { EndedSubscription } from '#core/events/subscription-event.ts';
import type { Transition } from '#core/notices/notice.ts';
import type { PlanChange } from '#core/plan/diff-plans.ts';
import type { BurnTap } from '#core/watch/burn.ts';
import type { BurnIncident } from '#core/watch/burn-incident.ts';
import type { Condition } from '#core/watch/condition.ts';
import { eventWords } from './event-words.ts';
import { wordsFor } from './say.ts';
import { dateText, momentText } from './show.ts';
import type { Reader } from './words.ts';

type Say = (siteKey: string, condition: Condition, reader: Reader) => string;

export function sayEvent(event: LoggedEvent, reader: Reader, say: Say): string {
  const words = eventWords(reader.language);
  switch (event.kind) {
    case 'forecast-stale':
      return words.stale;
    case 'forecast-fresh':
      return words.fresh;
    case 'verdict-changed':
    case 'window-changed':
    case 'reason-changed':
      return sayChanges((event.data as { changes?: readonly PlanChange[] }).changes ?? [], reader);
    case 'notice-raised':
    case 'notice-updated':
    case 'notice-ended': {
      const { kind, site, condition } = event.data as Transition;
      return `${words.notices[kind]}${say(site, condition, reader)}`;
    }
    case 'burn-incident': {
      const { reference, by } = event.data as BurnIncident;
      return words.incident(reference, by);
    }
    case 'order-added':
    case 'order-changed':
    case 'order-lifted':
      return sayOrder(event, reader);
    case 'subscription-ended': {
      const { description, why } = event.data as EndedSubscription;
      return words.subscriptionEnded(description || event.subject, why);
    }
    default:
      return sayTap(event.data as BurnTap, reader);
  }
}

function sayChanges(changes: readonly PlanChange[], reader: Reader): string {
  return [...Map.groupBy(changes, ({ date }) => date)]
    .map(([date, some]) => {
      const said = some.map((change) => sayChange(change, { ...reader, day: date }));
      return `${dateText(date, reader.language)}: ${[...new Set(said)].join(' ')}`;
    })
    .join(' ');
}

function sayChange(change: PlanChange, reader: Reader): string {
  const words = eventWords(reader.language);
  const { verdicts } = wordsFor(reader.language);
  switch (change.kind) {
    case 'verdict':
      return `${verdicts[change.from]} → ${verdicts[change.to]}.`;
    case 'time': {
      const at = (ms: number | null): string =>
        ms === null ? words.none : momentText(ms, reader.timeZone, reader.language, reader.day);
      return words.moved(words.times[change.time], at(change.fromMs), at(change.toMs));
    }
    case 'windows':
      return words.windows(change.goMin);
    case 'reason':
      return words.otherReasons;
  }
}

function sayTap({ tap, tappedAtMs, by, corrects, withdraws }: BurnTap, reader: Reader): string {
  const words = eventWords(reader.language);
  const at = momentText(tappedAtMs, reader.timeZone, reader.language, reader.day);
  if (withdraws) return words.withdrawn(words.taps[tap], by);
  return corrects === null ? words.tapped(words.taps[tap], at, by) : words.corrected(words.taps[tap], at, by);
}

const WHAT: Readonly<Partial<Record<LoggedEvent['kind'], 'added' | 'lifted'>>> = {
  'order-added': 'added',
  'order-lifted': 'lifted',
};

function sayOrder({ kind, subject, data }: LoggedEvent, reader: Reader): string {
  const { body, before, by } = data as { body: Order | null; before?: Order | null; by: string };
  const order = body ?? before;
  const issuer = typeof order?.issuer === 'string' ? ` (${order.issuer})` : '';
  return eventWords(reader.language).order(
    WHAT[kind] ?? 'changed',
    `${typeof order?.name === 'string' ? order.name : subject}${issuer}`,
    by,
  );
}

interface Order {
  readonly name?: unknown;
  readonly issuer?: unknown;
}
