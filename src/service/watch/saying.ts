// Puts messages into words for one person, and into one sentence for lists.

import type { Contact } from '#core/notices/contact.ts';
import type { Message } from '#core/notices/message.ts';
import { summariseDays } from '#core/plan/plan-summary.ts';
import { sameDay } from '#core/plan/same-day.ts';
import type { Condition } from '#core/watch/condition.ts';
import type { Said, SayMessage, SiteNow } from '#jobs/watch/send-deps.ts';
import type { WatchedSite } from '#jobs/watch/watched-site.ts';
import type { JsonValue } from '#notify/channel.ts';
import { pushSubscription } from '#notify/push-subscription.ts';
import { dayFigures } from '#publish/wording/texts/day-figures.ts';
import { renderText } from '#publish/wording/texts/render-text.ts';
import { type StationWords, sayCondition } from '#publish/wording/texts/say-condition.ts';
import type { DayFigures, RenderedText, TextRequest } from '#publish/wording/texts/text-request.ts';
import type { Reader } from '#publish/wording/words.ts';
import type { KeptDelivery, MessageThread } from '#store/watch/records.ts';
import type { LinkTokens } from './link-tokens.ts';
import type { SendTally } from './send-tally.ts';
import type { StationShelf } from './station-shelf.ts';

export interface SayingOptions {
  readonly tokens: LinkTokens;
  readonly publicUrl: string | null;
  readonly stations: Pick<StationShelf, 'of'>;
  readonly demo: boolean;
  readonly tally: Pick<SendTally, 'unworded'>;
}

export interface Saying {
  readonly message: SayMessage;
  /** The words for one person, before anything is sent. */
  words(message: Message, contact: Contact, watched: WatchedSite, now: SiteNow): string;
  sentence(thread: MessageThread, watched: WatchedSite | null): string;
  condition(siteKey: string, condition: Condition, reader: Reader, nowMs: number): string;
}

export function createSaying(options: SayingOptions): Saying {
  const stationsOf = (siteKey: string): StationWords => {
    const stationOf = (id: string) => options.stations.of(siteKey).find((s) => s.id === id) ?? null;
    return { stationOf, stationName: (id) => stationOf(id)?.name ?? id };
  };
  const requestOf = (
    message: Message,
    contact: Pick<Contact, 'language' | 'units' | 'role'> & { readonly id: string | null },
    delivery: Pick<KeptDelivery, 'parts' | 'asked' | 'repeat' | 'step' | 'to'> | null,
    watched: WatchedSite | null,
    now: SiteNow,
  ): TextRequest => ({
    message,
    parts: delivery?.parts ?? null,
    site: { name: nameOf(watched, message, options.demo), timeZone: watched?.site.timeZone ?? 'UTC' },
    reader: { language: contact.language, units: contact.units, role: contact.role },
    standing: now.standing,
    burning: message.kind === 'notice' ? now.burnOpen : message.needsAnswer || message.kind === 'burn',
    asked: delivery?.asked ?? false,
    repeat: delivery?.repeat ?? 0,
    escalated: (delivery?.step ?? 0) > 0,
    day: figuresOf(message, watched),
    silences: now.silences,
    ...stationsOf(message.site),
    contactName: aboutWhom(message, watched),
    answersBy: delivery !== null && isPush(delivery) ? 'link' : 'digit',
    answerUrl:
      options.publicUrl !== null && contact.id !== null && delivery?.asked === true
        ? `${options.publicUrl}/a/${options.tokens.make(message.id, contact.id)}`
        : null,
  });
  return {
    message(message, delivery, contact, watched, now): Said {
      const request = requestOf(message, contact, delivery, watched, now);
      const rendered = renderText(request);
      if (rendered.fault !== null) options.tally.unworded();
      return {
        subject: rendered.subject,
        ...formsOf(rendered, delivery),
        link: request.answerUrl,
        event: eventOf(message),
      };
    },
    words: (message, contact, watched, now) =>
      renderText(requestOf(message, { ...contact, id: null }, null, watched, now)).text,
    sentence({ message, deliveries }, watched) {
      const said = deliveries.find((delivery) => delivery.said !== null)?.said;
      if (said) return said;
      const office = { id: null, language: 'en', units: 'us', role: 'office' } as const;
      const now = { burnOpen: message.needsAnswer, standing: null, silences: [] };
      return renderText(requestOf(message, office, null, watched, now)).text;
    },
    condition: (siteKey, condition, reader, nowMs) =>
      sayCondition(condition, reader, stationsOf(siteKey), nowMs),
  };
}

/** What is sent there cannot be answered with a digit. */
const isPush = ({ to }: Pick<KeptDelivery, 'to'>): boolean => pushSubscription(to) !== null;

/** Mail has room for the long form, a push for the link; whatever else is a telephone's. */
function formsOf(
  { text, linked, body, html }: RenderedText,
  delivery: Pick<KeptDelivery, 'to'>,
): Pick<Said, 'text' | 'html'> {
  const { to } = delivery;
  if (isPush(delivery)) return { text: linked, html: null };
  return to.includes('@') && !to.startsWith('http') ? { text: body, html } : { text, html: null };
}

const nameOf = (watched: WatchedSite | null, { site }: Message, demo: boolean): string => {
  const name = watched?.site.name ?? site.slice(site.indexOf('/') + 1);
  return demo ? `DEMO ${name}` : name;
};

function figuresOf(message: Message, watched: WatchedSite | null): DayFigures | null {
  if (message.kind !== 'evening' && message.kind !== 'dawn') return null;
  const plan = watched?.plan ?? null;
  const day = plan?.days.find(({ day: { date } }) => date === message.day.date);
  const summary = plan && summariseDays(plan).find(({ date }) => date === message.day.date);
  // Figures of another plan would not go with what the text says of the day.
  return plan && day && summary && sameDay(summary, message.day.day) ? dayFigures(plan, day) : null;
}

function aboutWhom(message: Message, watched: WatchedSite | null): string | null {
  if (message.kind !== 'office' || message.matter.contact === null) return null;
  const { contact } = message.matter;
  return watched?.contacts.find(({ id }) => id === contact)?.name ?? contact;
}

/** For programs; only such as take an event look at it. */
function eventOf(message: Message): Said['event'] {
  const { id, site, atMs, kind, verdict, validUntilMs, transitions, needsAnswer } = message;
  const data = {
    id,
    site: site.slice(site.indexOf('/') + 1),
    kind,
    verdict,
    validUntil: new Date(validUntilMs).toISOString(),
    needsAnswer,
    ...(message.kind === 'burn' ? { burn: message.tap } : {}),
    conditions: transitions.map(({ kind: what, condition, verdict: stands, number, episode }) => ({
      what,
      code: condition.code,
      subject: condition.subject,
      verdict: stands,
      basis: condition.basis,
      figures: condition.figures,
      episode,
      number,
    })),
  };
  return { type: `${kind}.${verdict}`, atMs, data: data as unknown as JsonValue };
}
