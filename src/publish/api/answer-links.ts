// Personal links of texts and mails, and texts that come back from a gateway.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { MINUTE_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { answerPage } from '#publish/page/answer-page.ts';
import { seesWhole } from '#publish/viewer.ts';
import type { MessageSeen, WatchDesk } from '#publish/watch-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import { formPageHeaders } from './form-page-headers.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { takeForms } from './take-forms.ts';
import { zoneOf } from './watch-period.ts';

const HTML = 'text/html; charset=utf-8';
const linkParams = z.strictObject({ token: z.string().max(400) });
const linkBody = z.strictObject({ answer: z.enum(['got-it', 'cannot']) });

/** `headers`: of every page. */
export function addAnswerLinks(
  app: FastifyInstance,
  desk: PlanDesk,
  watch: WatchDesk,
  headers: Readonly<Record<string, string>>,
): void {
  app.register((pages, _options, done) => {
    takeForms(pages);
    pages.get<{ Params: { token: string } }>(
      '/a/:token',
      { config: { scope: 'open' }, schema: { hide: true, params: linkParams } },
      async (request, reply) => {
        const linked = await watch.linked(request.params.token);
        if (linked === null) throw notThere();
        return reply
          .headers({ ...formPageHeaders(headers), 'cache-control': 'no-store' })
          .type(HTML)
          .send(pageOf(desk, linked.message, linked.contact));
      },
    );
    pages.post<{ Params: { token: string }; Body: z.output<typeof linkBody> }>(
      '/a/:token',
      { config: { scope: 'open' }, schema: { hide: true, params: linkParams, body: linkBody } },
      async (request, reply) => {
        const message = await watch.answerLinked(request.params.token, request.body.answer);
        if (message === null) throw notThere();
        return reply.code(303).header('location', `/a/${request.params.token}`).send();
      },
    );
    done();
  });
}

const notThere = (): ServiceError => new ServiceError('not_found', 'no such link');

function pageOf(desk: PlanDesk, message: MessageSeen, contact: string): string {
  const site = desk.site(message.site);
  const said = message.answers.findLast((answer) => answer.contact === contact)?.answer ?? null;
  return answerPage({
    site: site.name,
    verdict: message.verdict,
    text: message.text,
    atMs: message.atMs,
    validUntilMs: message.validUntilMs,
    timeZone: zoneOf(site),
    nowMs: desk.nowMs(),
    said,
    demo: desk.demo,
    language: desk.preferences.language,
  });
}

const word = z.string().trim().min(1).max(200);

const notWhole = (): ServiceError =>
  new ServiceError('forbidden', 'what comes in over a channel is told by whoever runs the service');

/** The names that gateways give to what they send; the first that is there counts. */
const inboundBody = z
  .object({
    id: word
      .optional()
      .describe('the same for a repeat of the same text; without one those of a minute are one'),
    messageId: word.optional(),
    from: word.optional().describe('the number of whoever wrote, with + and country code'),
    sender: word.optional(),
    text: z.string().max(2000).optional(),
    message: z.string().max(2000).optional(),
    body: z.string().max(2000).optional(),
  })
  .loose();

/** A channel carries texts of people of all organisations, so that only whoever runs it may say what came in. */
export function addInboundRoute(app: FastifyInstance, desk: PlanDesk, watch: WatchDesk): void {
  app.register((routes, _options, done) => {
    takeForms(routes);
    routes.post<{ Params: { channel: string }; Body: z.output<typeof inboundBody> }>(
      '/v1/inbound/:channel',
      {
        config: { scope: 'notify' },
        schema: {
          summary: 'A text that a gateway has received: an answer, an opt-out word, or neither',
          tags: ['notices'],
          params: z.strictObject({ channel: z.string().max(80) }),
          querystring: noQuery,
          body: inboundBody,
          response: {
            200: z.object({ taken: z.string().describe('what it was taken for') }),
            400: problemSchema,
            503: problemSchema,
          },
        },
      },
      async (request) => {
        if (!seesWhole(viewerOf(request), desk.organisation)) throw notWhole();
        const { id, messageId, from, sender, text, message, body } = request.body;
        const said = text ?? message ?? body;
        const who = from ?? sender;
        if (said === undefined || who === undefined) {
          const path = who === undefined ? 'from' : 'text';
          throw new ServiceError('bad_body', `${path}: expected who wrote, and what`, {
            facts: { faults: [{ path, message: 'is lacking' }] },
          });
        }
        const number = /^\d/.test(who) ? `+${who}` : who;
        const minute = Math.floor(desk.nowMs() / MINUTE_MS);
        // Without a name of its own the same text of one minute is one that was sent again, a later one another.
        const named = id ?? messageId ?? `${who} ${minute} ${said}`;
        return watch.inbound(request.params.channel, named, number, said);
      },
    );
    done();
  });
}
