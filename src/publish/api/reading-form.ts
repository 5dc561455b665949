// POST /sites/{id}/readings: the form for hand-held meters. Kept and back to the page, or the page again with what is wrong.

import type { FastifyInstance, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { ReadingFormView } from '#publish/page/reading-form.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import { mayDo } from '#publish/viewer.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';
import { pageQuery } from './query.ts';
import { readerChoices } from './reader-choices.ts';
import { viewerOf } from './request-viewer.ts';
import { takeForms } from './take-forms.ts';

/** What a form carries beside its page: what was typed and what is wrong with it, or that it was kept. */
export type FormState = Pick<ReadingFormView, 'typed' | 'faults' | 'kept'>;

export const NEW_FORM: FormState = { typed: {}, faults: [], kept: false };

const formQuery = pageQuery.omit({ day: true });
type FormQuery = z.output<typeof formQuery>;

const text = z.string().max(60).optional();
const formBody = z.strictObject({
  station: text,
  time: text,
  windSpeed: text,
  windGust: text,
  speedUnit: text,
  blows: text,
  windDirection: text,
  reference: text,
  relativeHumidity: text,
});

interface Parts {
  readonly desk: PlanDesk;
  readonly watch: WatchDesk;
  /** The page of the site with the form as it is to be seen. */
  page(site: DeskSite, request: FastifyRequest<{ Querystring: FormQuery }>, form: FormState): Promise<string>;
}

export function addReadingForm(pages: FastifyInstance, { desk, watch, page }: Parts): void {
  takeForms(pages);
  pages.post<{ Params: { id: string }; Querystring: FormQuery; Body: z.output<typeof formBody> }>(
    '/sites/:id/readings',
    {
      config: { scope: 'observe' },
      schema: {
        hide: true,
        params: z.object({ id: z.string().max(80) }),
        querystring: formQuery,
        body: formBody,
      },
    },
    async (request, reply) => {
      const key = siteKeyOrThrow(viewerOf(request), request.params.id);
      const site = desk.site(key);
      const given = Object.entries(request.body).filter((entry): entry is [string, string] => !!entry[1]);
      const typed = Object.fromEntries(given);
      const faults = await watch.observeForm(key, typed);
      if (faults.length > 0) {
        const html = await page(site, request, { typed, faults, kept: false });
        return reply.code(400).type('text/html; charset=utf-8').send(html);
      }
      const query = new URLSearchParams({ ...readerChoices(request.query), kept: '1' });
      return reply.code(303).header('location', `/sites/${site.id}?${query}#reading`).send();
    },
  );
}

/** Null where whoever asks may not enter readings. */
export function readingFormOf(
  watch: WatchDesk,
  { key, id }: DeskSite,
  request: FastifyRequest,
  form: FormState,
): ReadingFormView | null {
  return mayDo(viewerOf(request), 'observe') ? { site: id, meters: watch.meters(key), ...form } : null;
}
