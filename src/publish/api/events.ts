// GET /v1/events: what happened, in its order, from a position on. Whoever remembers where it read to misses nothing.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { EVENT_KINDS, type EventKind, type LoggedEvent } from '#core/events/event.ts';
import { type EventSite, eventAnswer } from '#publish/answers/events.ts';
import type { SayCondition } from '#publish/answers/now.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { EventDesk, EventsSeen } from '#publish/event-desk.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import type { Viewer } from '#publish/viewer.ts';
import { problemSchema } from '#publish/wire.ts';
import { type EventAnswer, type EventsAnswer, eventsSchema } from '#publish/wire-events.ts';
import { type ReaderQuery, readerQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { zoneOf } from './watch-period.ts';

const MOST = 1000;

const kindsText = z
  .string()
  .max(400)
  .transform((text, context): EventKind[] => {
    const kinds = text.split(',');
    const unknown = kinds.find((kind) => !EVENT_KINDS.includes(kind as EventKind));
    if (unknown === undefined) return kinds as EventKind[];
    context.addIssue({
      code: 'custom',
      message: `no type "${unknown}"; there are: ${EVENT_KINDS.join(', ')}`,
    });
    return z.NEVER;
  });

export const positionText = z.string().regex(/^\d{1,15}$/, 'expected the id of an event, or 0');

/** Which events, and how they are told. */
export const followedQuery = readerQuery.extend({
  site: z.string().max(80).optional(),
  types: kindsText.optional().describe('of these types only, with commas between'),
});

const eventsQuery = followedQuery.extend({
  after: positionText
    .optional()
    .describe('id of the last event that you have; the oldest that is kept where it is left out'),
  most: z.coerce.number().int().min(1).max(MOST).default(100),
});

type EventsQuery = z.output<typeof eventsQuery>;
export type FollowedQuery = z.output<typeof followedQuery>;

export interface EventParts {
  readonly desk: PlanDesk;
  readonly events: EventDesk;
  readonly say: SayCondition;
}

export function addEventRoutes(app: FastifyInstance, parts: EventParts): void {
  app.get<{ Querystring: EventsQuery }>(
    '/v1/events',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'What happened, in its order: changed windows and verdicts, taps, notices, orders',
        tags: ['events'],
        querystring: eventsQuery,
        response: { 200: eventsSchema, 400: problemSchema, 404: problemSchema, 503: problemSchema },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const { after, most, site, types } = request.query;
      const seen = await parts.events.after(viewer, {
        after: after === undefined ? null : Number(after),
        most,
        siteKey: site === undefined ? null : siteKeyOrThrow(viewer, site),
        kinds: types ?? null,
      });
      reply.header('cache-control', 'no-store');
      if (seen.more) reply.header('link', `<${nextUrl(request.url, seen.next)}>; rel="next"`);
      return reply.send(eventsAnswer(parts, viewer, request.query, seen));
    },
  );
}

function nextUrl(url: string, next: number): string {
  const [path = '', query = ''] = url.split('?');
  const params = new URLSearchParams(query);
  params.set('after', String(next));
  return `${path}?${params.toString()}`;
}

const eventsAnswer = (
  parts: EventParts,
  viewer: Viewer,
  query: EventsQuery,
  { events, next, more, missingUpTo }: EventsSeen,
): EventsAnswer => ({
  events: eventAnswers(parts, viewer, query, events),
  next: String(next),
  more,
  missingUpTo: missingUpTo === null ? null : String(missingUpTo),
  demo: parts.desk.demo,
});

/** Events as every way out tells them. */
export function eventAnswers(
  { desk, say }: Pick<EventParts, 'desk' | 'say'>,
  viewer: Viewer,
  { lang, units }: ReaderQuery,
  events: readonly LoggedEvent[],
): EventAnswer[] {
  const sites = new Map(desk.sites(viewer).map((site) => [site.key, site]));
  const { preferences } = desk;
  return events.map((event) => {
    const site = event.site === null ? undefined : sites.get(event.site);
    const timeZone = site ? zoneOf(site) : 'UTC';
    const language = lang ?? preferences.language;
    const reader = { language, units: units ?? preferences.units, timeZone, day: null };
    return eventAnswer(event, site ? eventSite(site) : null, reader, say);
  });
}

function eventSite({ name, at, definition }: DeskSite): EventSite {
  const { externalRef } = definition;
  return { name, at, externalRef: typeof externalRef === 'string' ? externalRef : null };
}
