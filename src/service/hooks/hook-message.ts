// What a subscriber is sent: an event as the log tells it, word of what was missed, or a test; plain, or as CloudEvents.

import type { LoggedEvent } from '#core/events/event.ts';
import type { Missed } from '#core/events/hook-step.ts';
import type { HookFormat } from '#core/events/subscription.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { eventAnswer } from '#publish/answers/events.ts';
import type { SayCondition } from '#publish/answers/now.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { Viewer } from '#publish/viewer.ts';

export interface HookContent {
  /** The header webhook-id, and the id of the CloudEvent. */
  readonly id: string;
  readonly type: string;
  /** RFC 3339. */
  readonly at: string;
  readonly subject: string | null;
  readonly data: Readonly<Record<string, unknown>>;
}

export interface HookBody {
  readonly contentType: string;
  readonly body: string;
}

/** Standard Webhooks 1.0.0 wants payloads under 20 kB. */
const MOST_BODY_BYTES = 20_000;

/** `source`: an absolute URI, or a path. CloudEvents 1.0.2, JSON format 1.0.2, structured mode. */
export function hookBody(format: HookFormat, source: string, content: HookContent): HookBody {
  const whole = written(format, source, content);
  if (Buffer.byteLength(whole.body) <= MOST_BODY_BYTES) return whole;
  const readAt = `/v1/events?after=${Number(content.id) - 1}&most=1`;
  return written(format, source, {
    ...content,
    data: { ...content.data, text: '', data: { leftOut: 'over 20 kB', readAt } },
  });
}

function written(format: HookFormat, source: string, { id, type, at, subject, data }: HookContent): HookBody {
  if (format === 'plain')
    return { contentType: 'application/json', body: JSON.stringify({ type, timestamp: at, data }) };
  const event = {
    specversion: '1.0',
    ...{ id, source, type, time: at },
    ...(subject === null ? {} : { subject }),
    datacontenttype: 'application/json',
    data,
  };
  return { contentType: 'application/cloudevents+json; charset=utf-8', body: JSON.stringify(event) };
}

export interface EventContents {
  readonly desk: Pick<PlanDesk, 'sites' | 'preferences'>;
  readonly say: SayCondition;
}

/** As /v1/events tells it to the same viewer. */
export function eventContent({ desk, say }: EventContents, viewer: Viewer, event: LoggedEvent): HookContent {
  const site = desk.sites(viewer).find(({ key }) => key === event.site) ?? null;
  const { language, units } = desk.preferences;
  const reader = { language, units, timeZone: site?.timeZone ?? 'UTC', day: null };
  const data = eventAnswer(event, site && seenSite(site), reader, say);
  return { id: data.id, type: data.type, at: data.at, subject: data.subject, data };
}

function seenSite({ name, at, definition }: DeskSite) {
  const { externalRef } = definition;
  return { name, at, externalRef: typeof externalRef === 'string' ? externalRef : null };
}

/** The same for the same run of them. `count` null: retention dropped some, and nobody knows how many were meant. */
export const missedContent = ({ from, to, count }: Missed, nowMs: number): HookContent => ({
  id: `missed-${from}-${to}`,
  type: 'events-missed',
  at: rfc3339(nowMs, 'UTC'),
  subject: null,
  data: { after: String(from - 1), upTo: String(to), count: count === 0 ? null : count },
});

export const testContent = (subscription: string, id: string, nowMs: number): HookContent => ({
  id: `test-${id}`,
  type: 'test',
  at: rfc3339(nowMs, 'UTC'),
  subject: subscription,
  data: { subscription, text: 'A test of this subscription. Nothing happened.' },
});
