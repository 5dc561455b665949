// GET /v1/sites, /v1/sites/{id} and the three answers about a site.

import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { boundsOf, type ElementLimit, type LimitSet } from '#core/score/limit.ts';
import { inUnit } from '#core/units/quantity.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import {
  hoursSchema,
  planSchema,
  problemSchema,
  siteSchema,
  sitesSchema,
  windowsSchema,
} from '#publish/wire.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { roundTo } from '#publish/wording/show.ts';
import { type Answer, type AnswerCache, answerKeyOf, makeAnswer, matches } from './answer-cache.ts';
import { forecastStateOf } from './forecast-state.ts';
import { dayQuery, noQuery, type SpanQuery, spanQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { answerAbout, JSON_TYPE, type Kind } from './site-answers.ts';

const siteParams = z.strictObject({ id: z.string().max(80) });
const problems = { 400: problemSchema, 404: problemSchema, 503: problemSchema };

const KINDS = [
  {
    kind: 'windows',
    querystring: spanQuery,
    schema: windowsSchema,
    summary: 'Go, hold and stop windows with their reasons',
  },
  {
    kind: 'hours',
    querystring: spanQuery,
    schema: hoursSchema,
    summary: 'Every hour: values, scores, room',
  },
  {
    kind: 'plan',
    querystring: dayQuery,
    schema: planSchema,
    summary: 'The three times of a day, why, and what would change them',
  },
] as const;

export function addSiteRoutes(app: FastifyInstance, desk: PlanDesk, cache: AnswerCache): void {
  app.get(
    '/v1/sites',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'All sites with the state of their forecasts',
        tags: ['sites'],
        querystring: noQuery,
        response: { 200: sitesSchema },
      },
    },
    (request, reply) => {
      const sites = desk.sites(viewerOf(request)).map((site) => ({
        id: site.id,
        name: site.name,
        at: [...site.at],
        timeZone: site.timeZone,
        forecast: forecastStateOf(site, desk.nowMs()),
      }));
      const body = { sites, demo: desk.demo, caution: wordsFor(desk.preferences.language).caution };
      return send(reply, makeAnswer(JSON.stringify(body), JSON_TYPE), undefined);
    },
  );
  app.get<{ Params: { id: string } }>(
    '/v1/sites/:id',
    {
      config: { scope: 'read' },
      schema: {
        summary: 'A site: its definition, its limits, the state of its forecast',
        tags: ['sites'],
        params: siteParams,
        querystring: noQuery,
        response: { 200: siteSchema, ...problems },
      },
    },
    (request, reply) => {
      const body = siteBody(desk, desk.site(siteKeyOrThrow(viewerOf(request), request.params.id)));
      return send(reply, makeAnswer(JSON.stringify(body), JSON_TYPE), request.headers['if-none-match']);
    },
  );
  for (const { kind, querystring, schema, summary } of KINDS) {
    app.get<{ Params: { id: string }; Querystring: SpanQuery }>(
      `/v1/sites/:id/${kind}`,
      {
        config: { scope: 'read' },
        schema: {
          summary,
          tags: ['answers'],
          params: siteParams,
          querystring,
          response: { 200: schema, ...problems },
        },
      },
      (request, reply) => {
        const answer = finished(desk, cache, request, kind);
        return send(reply, answer, request.headers['if-none-match']);
      },
    );
  }
}

type SiteRequest = FastifyRequest<{ Params: { id: string }; Querystring: SpanQuery }>;

function finished(desk: PlanDesk, cache: AnswerCache, request: SiteRequest, kind: Kind): Answer {
  const siteKey = siteKeyOrThrow(viewerOf(request), request.params.id);
  const key = answerKeyOf(siteKey, request.url);
  const kept = cache.get(key, desk.versionOf(siteKey), desk.nowMs());
  if (kept !== null) return kept;
  const answer = answerAbout(desk, desk.site(siteKey), kind, request.query);
  cache.put(key, answer);
  return answer;
}

export function send(reply: FastifyReply, answer: Answer, ifNoneMatch: string | undefined): FastifyReply {
  reply.header('etag', answer.etag).header('cache-control', 'no-cache');
  if (matches(ifNoneMatch, answer.etag)) return reply.code(304).send();
  return reply.header('content-type', answer.contentType).send(answer.bytes);
}

function siteBody(desk: PlanDesk, site: DeskSite): z.output<typeof siteSchema> {
  return {
    id: site.id,
    name: site.name,
    at: [...site.at],
    timeZone: site.timeZone,
    ...site.contact,
    limitSet: site.limits.name,
    limits: limitRows(site.limits),
    definition: { ...site.definition },
    forecast: forecastStateOf(site, desk.nowMs()),
    demo: desk.demo,
    caution: wordsFor(desk.preferences.language).caution,
  };
}

/** Limits as their owners wrote them: figures in their own units. */
function limitRows(limits: LimitSet): Record<string, unknown>[] {
  const row = (limit: ElementLimit) => {
    const [lowStop, lowHold, highHold, highStop] = boundsOf(limit).map((b) =>
      b ? { value: roundTo(inUnit(b.value, b.unit), 6), unit: b.unit } : null,
    );
    const { element, when, inclusive, source, categories, measured } = limit;
    const low = limit.atLeast ? { atLeast: { hold: lowHold, stop: lowStop } } : {};
    const high = limit.atMost ? { atMost: { hold: highHold, stop: highStop } } : {};
    const more = { ...(categories && { categories }), ...(measured && { measured }) };
    return { element, when, ...low, ...high, inclusive, source, ...more };
  };
  const clocks = limits.clock.map(({ source, ...clock }) => ({ clock, source }));
  const seasons = limits.seasons.map(({ from, to, verdict, source }) => ({
    season: { from, to },
    verdict,
    source,
  }));
  return [...limits.elements.map(row), ...clocks, ...seasons];
}
