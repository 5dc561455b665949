// GET /sites/{id}/sheet and sheet.pdf: the day sheet that the crew has on paper.

import type { FastifyInstance, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { placesWithinReach } from '#core/rules/protected-places.ts';
import type { Site } from '#core/site/site.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { type Sheet, type SheetSite, sheetOf } from '#publish/page/sheet/sheet.ts';
import { type SheetPageView, sheetPage } from '#publish/page/sheet/sheet-page.ts';
import type { SiteView } from '#publish/page/site-view.ts';
import { sheetPdf } from '#publish/sheet/sheet-pdf.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import { sheetWords } from '#publish/wording/sheet-words.ts';
import { pageQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';

const params = z.object({ id: z.string().max(80) });
const pdfQuery = pageQuery.extend({ paper: z.enum(['letter', 'a4'], 'expected letter or a4').optional() });

type SheetQuery = z.output<typeof pageQuery>;
type Asked = { Params: { id: string }; Querystring: SheetQuery };
type AskedPdf = { Params: { id: string }; Querystring: z.output<typeof pdfQuery> };

interface SheetParts {
  readonly desk: PlanDesk;
  /** The view of the page of the day. */
  view(site: DeskSite, request: FastifyRequest<{ Querystring: SheetQuery }>): Promise<SiteView>;
}

export function addSheet(pages: FastifyInstance, { desk, view }: SheetParts): void {
  const sheetFor = async (
    request: FastifyRequest<Asked>,
  ): Promise<{ site: DeskSite; sheet: Sheet; of: SiteView }> => {
    const site = desk.site(siteKeyOrThrow(viewerOf(request), request.params.id));
    const of = await view(site, request);
    const { site: built } = desk.plan(site.key, of.plan.day, 1);
    return { site, of, sheet: sheetOf(of, sheetSite(site, built)) };
  };
  pages.get<Asked>(
    '/sites/:id/sheet',
    { config: { scope: 'read' }, schema: { hide: true, params, querystring: pageQuery } },
    async (request, reply) => {
      const { site, sheet, of } = await sheetFor(request);
      return reply.type('text/html; charset=utf-8').send(sheetPage(pageView(site, sheet, of)));
    },
  );
  pages.get<AskedPdf>(
    '/sites/:id/sheet.pdf',
    { config: { scope: 'read' }, schema: { hide: true, params, querystring: pdfQuery } },
    async (request, reply) => {
      const { site, sheet, of } = await sheetFor(request);
      const { paper } = request.query;
      const bytes = await sheetPdf(sheet, {
        paper: paper ?? (of.reader.units === 'si' ? 'a4' : 'letter'),
        title: `${sheetWords(sheet.language).title}: ${sheet.site}, ${sheet.day}`,
        madeAt: new Date(of.nowMs),
      });
      return reply
        .type('application/pdf')
        .header('content-disposition', `inline; filename="${site.id}-${of.plan.day}.pdf"`)
        .send(bytes);
    },
  );
}

const sheetSite = ({ at, holdAfterMin }: DeskSite, built: Site): SheetSite => ({
  at,
  holdAfterMin,
  places: placesWithinReach(built).map((p) => ({
    name: p.name,
    fromDeg: p.fromBearingDeg,
    toDeg: p.toBearingDeg,
    distanceM: p.distanceM,
  })),
});

const pageView = (
  { id }: DeskSite,
  sheet: Sheet,
  { plan, nowMs, reader, query }: SiteView,
): SheetPageView => ({
  sheet,
  id,
  date: plan.day,
  zone: { timeZone: plan.timeZone, atMs: nowMs },
  demo: plan.demo,
  units: reader.units,
  query,
});
