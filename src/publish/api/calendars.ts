// Go windows as calendars: /v1/windows.ics, /v1/sites/{id}/windows.ics, and /v1/calendar/{feed} for calendars on telephones and
// desks, which can show no key but in the address. Such a key is made for that alone, and is good for nothing else.

import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { ServiceError } from '#errors.ts';
import type { Access } from '#publish/access/caller.ts';
import { viewerOfKey } from '#publish/access/viewer-of-key.ts';
import { CALENDAR_TYPE } from '#publish/calendar/icalendar.ts';
import { windowsCalendar } from '#publish/calendar/windows-calendar.ts';
import type { CalendarDesk } from '#publish/calendar-desk.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import type { Viewer } from '#publish/viewer.ts';
import { problemSchema } from '#publish/wire.ts';
import { CALENDAR_EXAMPLE } from '#publish/wire-examples.ts';
import { isForCalendars } from '#store/api-key.ts';
import { makeAnswer, matches } from './answer-cache.ts';
import { viewerOf } from './request-viewer.ts';
import { zoneOf } from './watch-period.ts';

const calendarQuery = z.strictObject({ lang: z.enum(['en', 'es'], 'expected en or es').optional() });
type CalendarQuery = z.output<typeof calendarQuery>;

const calendarSchema = z.string().meta({ examples: [CALENDAR_EXAMPLE] });
const problems = { 400: problemSchema, 503: problemSchema };
const DESCRIPTION = `iCalendar (RFC 5545), an event for each go window of the days ahead and of the last two weeks. The UID stays \
while the window moves, SEQUENCE rises with each change, and one that is no go any more stays as CANCELLED. Calendars read it \
seldom: it is a look ahead and no warning.`;

export interface CalendarParts {
  readonly desk: PlanDesk;
  readonly calendar: CalendarDesk;
  readonly access: Access;
}

export function addCalendarRoutes(app: FastifyInstance, parts: CalendarParts): void {
  const { desk } = parts;
  const about = { description: DESCRIPTION, tags: ['calendars'], produces: [CALENDAR_TYPE] };
  app.get<{ Querystring: CalendarQuery }>(
    '/v1/windows.ics',
    {
      config: { scope: 'read' },
      schema: {
        ...{ summary: 'Go windows of all sites as a calendar', ...about },
        ...{ querystring: calendarQuery, response: { 200: calendarSchema, ...problems } },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      return send(parts, request, reply, desk.sites(viewer), viewer.organisation);
    },
  );
  app.get<{ Params: { id: string }; Querystring: CalendarQuery }>(
    '/v1/sites/:id/windows.ics',
    {
      config: { scope: 'read' },
      schema: {
        ...{ summary: 'Go windows of a site as a calendar', ...about },
        params: z.strictObject({ id: z.string().max(80) }),
        ...{ querystring: calendarQuery, response: { 200: calendarSchema, 404: problemSchema, ...problems } },
      },
    },
    async (request, reply) => {
      const site = desk.site(siteKeyOrThrow(viewerOf(request), request.params.id));
      return send(parts, request, reply, [site], site.name);
    },
  );
  app.get<{ Params: { feed: string }; Querystring: CalendarQuery }>(
    '/v1/calendar/:feed',
    {
      config: { scope: 'open' },
      schema: {
        ...{ summary: 'The same under an address that is its own key', ...about },
        params: z.strictObject({
          feed: z.string().max(400).describe('a key of "pitward key new --calendar"; it opens nothing else'),
        }),
        ...{ querystring: calendarQuery, response: { 200: calendarSchema, 404: problemSchema, ...problems } },
      },
    },
    async (request, reply) => {
      const viewer = feedViewer(parts, request.params.feed);
      // Nobody is told the address by a link that is followed, or by what lies between.
      reply.header('referrer-policy', 'no-referrer');
      return send(parts, request, reply, desk.sites(viewer), viewer.name);
    },
  );
}

/** Unknown, ended and made for something else are told alike. */
function feedViewer({ access, desk }: CalendarParts, feed: string): Viewer {
  const nowMs = desk.nowMs();
  const key = access.kind === 'keys' ? access.ring.find(feed, nowMs) : null;
  if (access.kind !== 'keys' || key === null || !isForCalendars(key.scopes))
    throw new ServiceError('not_found', 'no calendar at this address, or no longer');
  access.used(key.prefix, nowMs);
  return viewerOfKey(key);
}

async function send(
  { desk, calendar }: CalendarParts,
  request: FastifyRequest<{ Querystring: CalendarQuery }>,
  reply: FastifyReply,
  sites: readonly DeskSite[],
  of: string,
): Promise<FastifyReply> {
  const seen = await calendar.of(sites);
  const told = seen.flatMap(({ site, burn, windows }) =>
    windows.map((window) => ({
      site: { name: site.name, at: site.at, timeZone: zoneOf(site), burn },
      window,
    })),
  );
  const language = request.query.lang ?? desk.preferences.language;
  const { etag, bytes } = makeAnswer(windowsCalendar(told, { language, demo: desk.demo, of }), CALENDAR_TYPE);
  reply.header('etag', etag).header('cache-control', 'private, no-cache');
  if (matches(request.headers['if-none-match'], etag)) return reply.code(304).send();
  return reply.type(CALENDAR_TYPE).send(bytes);
}
