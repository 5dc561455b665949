// GET and POST /demo/play: the simulated shift. Only the demonstration has it; elsewhere the address is not there.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { PlanDesk } from '#publish/desk.ts';
import { playPage } from '#publish/page/play-page.ts';
import { MOST_SEED, type PlayDesk } from '#publish/play-desk.ts';
import { formPageHeaders } from './form-page-headers.ts';
import { tellFaultsAsPages } from './page-faults.ts';
import { pageQuery } from './query.ts';
import { readerChoices } from './reader-choices.ts';
import { takeForms } from './take-forms.ts';

const HTML = 'text/html; charset=utf-8';
const FIRST_SEED = 1;
const seed = z.coerce.number('expected a whole number').int().min(1).max(MOST_SEED);
const playQuery = pageQuery.omit({ day: true }).extend({ seed: seed.optional() });
const playBody = z.strictObject({ seed });
type PlayQuery = z.output<typeof playQuery>;

/** `headers`: of every page. */
export function addPlayRoutes(
  app: FastifyInstance,
  desk: PlanDesk,
  play: PlayDesk,
  headers: Readonly<Record<string, string>>,
): void {
  app.register((pages, _options, done) => {
    takeForms(pages);
    tellFaultsAsPages(pages, desk);
    pages.addHook('onSend', async (_request, reply) => {
      reply.header('cache-control', 'no-store').headers(formPageHeaders(headers));
    });
    pages.get<{ Querystring: PlayQuery }>(
      '/demo/play',
      { config: { scope: 'read' }, schema: { hide: true, querystring: playQuery } },
      async ({ query }, reply) => reply.type(HTML).send(pageOf(desk, play, query)),
    );
    pages.post<{ Querystring: PlayQuery; Body: z.output<typeof playBody> }>(
      '/demo/play',
      { config: { scope: 'read' }, schema: { hide: true, querystring: playQuery, body: playBody } },
      async ({ query, body }, reply) => {
        const { seed: wanted } = body;
        await play.play(wanted);
        const choices = new URLSearchParams({ ...readerChoices(query), seed: String(wanted) });
        return reply.code(303).header('location', `/demo/play?${choices}`).send();
      },
    );
    done();
  });
}

function pageOf({ preferences }: PlanDesk, play: PlayDesk, query: PlayQuery): string {
  const wanted = query.seed ?? FIRST_SEED;
  return playPage({
    seed: wanted,
    day: play.played(wanted),
    reader: { units: query.units ?? preferences.units, language: query.lang ?? preferences.language },
    query: { ...readerChoices(query), ...(query.seed === undefined ? {} : { seed: String(query.seed) }) },
  });
}
