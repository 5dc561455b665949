// Silences: with a hard end, a reason and an author. They keep a text from going out, never a verdict from being shown.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { Role } from '#core/notices/contact.ts';
import { silenceAnswer } from '#publish/answers/watch.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import { mayDo, type Viewer } from '#publish/viewer.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import { silenceSchema, silencesSchema } from '#publish/wire-watch.ts';
import { onceHeaders } from './once-headers.ts';
import { onceKeyOf } from './once-key-of.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { zoneOf } from './watch-period.ts';

export const MOST_SILENT_MIN = 240;

const problems = { 400: problemSchema, 403: problemSchema, 404: problemSchema, 503: problemSchema };

const silenceBody = z.strictObject({
  site: z.string().max(80),
  code: z.string().max(60).optional().describe('of the conditions; all of the site where it is left out'),
  minutes: z.int().min(1).max(MOST_SILENT_MIN),
  reason: z.string().trim().min(3).max(300),
});

/** Only who may run the service speaks as the office: a stop that was observed is silenced by nobody else. */
const roleOf = (viewer: Viewer): Role => (mayDo(viewer, 'admin') ? 'office' : 'crew');

export function addSilenceRoutes(app: FastifyInstance, desk: PlanDesk, watch: WatchDesk): void {
  const zone = (siteKey: string): string => zoneOf(desk.site(siteKey));
  app.get(
    '/v1/silences',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'Silences that have not ended',
        tags: ['notices'],
        querystring: noQuery,
        response: { 200: silencesSchema, 503: problemSchema },
      },
    },
    async (request, reply) => {
      const found = await watch.silences(viewerOf(request));
      return reply
        .header('cache-control', 'no-store')
        .send({ silences: found.map((s) => silenceAnswer(s, zone(s.site))) });
    },
  );
  app.post<{ Body: z.output<typeof silenceBody> }>(
    '/v1/silences',
    {
      config: { scope: 'notify' },
      schema: {
        summary: 'No texts about a site, or about one thing there, for at most four hours',
        tags: ['notices'],
        headers: onceHeaders,
        body: silenceBody,
        response: { 201: silenceSchema, ...problems, 422: problemSchema },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const { site, code, minutes, reason } = request.body;
      const key = siteKeyOrThrow(viewer, site);
      const { silence, already } = await watch.silence(key, {
        code: code ?? null,
        minutes,
        reason,
        by: viewer.name,
        role: roleOf(viewer),
        key: onceKeyOf(request),
      });
      if (already) reply.header('idempotency-replayed', 'true');
      return reply.code(201).send(silenceAnswer(silence, zone(key)));
    },
  );
  app.delete<{ Params: { silence: string } }>(
    '/v1/silences/:silence',
    {
      config: { scope: 'notify' },
      schema: {
        summary: 'Ends a silence now; it stays on record',
        tags: ['notices'],
        params: z.strictObject({ silence: z.string().max(80) }),
        response: { 200: silenceSchema, ...problems },
      },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const ended = await watch.endSilence(viewer, request.params.silence, viewer.name);
      return reply.send(silenceAnswer(ended, zone(ended.site)));
    },
  );
}
