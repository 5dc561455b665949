// GET /v1/sites/{id}/burns.csv and windows.csv: what the JSON routes say, as tables (RFC 4180).

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { burnAnswer } from '#publish/answers/watch.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { CSV_TYPE, csvHeaders } from '#publish/list/csv.ts';
import { burnsCsv, windowsCsv } from '#publish/list/site-csv.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';
import { problemSchema, type WindowsAnswer } from '#publish/wire.ts';
import { BURNS_EXAMPLE, WINDOWS_EXAMPLE } from '#publish/wire-examples.ts';
import { type SpanQuery, spanQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { answerAbout } from './site-answers.ts';
import { type PeriodQuery, periodOf, periodQuery, zoneOf } from './watch-period.ts';

const about = {
  params: z.strictObject({ id: z.string().max(80) }),
  produces: [CSV_TYPE],
};

const responses = (example: string) => ({
  200: z.string().meta({ examples: [example] }),
  ...{ 400: problemSchema, 404: problemSchema, 503: problemSchema },
});

export function addSiteCsv(app: FastifyInstance, desk: PlanDesk, watch: WatchDesk): void {
  app.get<{ Params: { id: string }; Querystring: PeriodQuery }>(
    '/v1/sites/:id/burns.csv',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'Burns that were open in a span of time, as a table',
        tags: ['burns'],
        querystring: periodQuery,
        response: responses(BURNS_EXAMPLE),
        ...about,
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const key = siteKeyOrThrow(viewerOf(request), id);
      const zone = zoneOf(desk.site(key));
      const { fromMs, toMs } = periodOf(request.query, desk.nowMs());
      const burns = (await watch.burns(key, fromMs, toMs)).map((record) => burnAnswer(record, zone));
      return reply
        .headers(csvHeaders(`${id}-burns`))
        .header('cache-control', 'no-store')
        .send(burnsCsv(burns));
    },
  );
  app.get<{ Params: { id: string }; Querystring: SpanQuery }>(
    '/v1/sites/:id/windows.csv',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'Go, hold and stop windows with the gravest reason, as a table',
        tags: ['answers'],
        querystring: spanQuery,
        response: responses(WINDOWS_EXAMPLE),
        ...about,
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const site = desk.site(siteKeyOrThrow(viewerOf(request), id));
      // The very answer of the JSON route, so that the two cannot differ.
      const { bytes } = answerAbout(desk, site, 'windows', request.query);
      const answer = JSON.parse(bytes.toString('utf8')) as WindowsAnswer;
      return reply
        .headers(csvHeaders(`${id}-windows`))
        .header('cache-control', 'no-store')
        .send(windowsCsv(answer));
    },
  );
}
