// The pages for people: /, /sites/{id} and /docs. Server-written; the page functions only turn answers into HTML.

import type { FastifyInstance, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { isInForce } from '#core/notices/silence.ts';
import { addDays, type LocalDate, rfc3339 } from '#core/units/local-time.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { HistoryDesk } from '#publish/history-desk.ts';
import type { DayTextView } from '#publish/page/day-text.ts';
import { docsPage } from '#publish/page/docs-page.ts';
import { type SiteView, sitePage } from '#publish/page/site-page.ts';
import { unmeasuredText } from '#publish/page/unmeasured.ts';
import type { PhoneFiles } from '#publish/served/phone-files.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import { addBoard } from './board.ts';
import { createDayParts } from './day-parts.ts';
import { forecastStateOf } from './forecast-state.ts';
import { addGlance } from './glance.ts';
import type { GroundParts } from './ground.ts';
import { createHeadersFor } from './headers-for.ts';
import { addHistoryPage } from './history.ts';
import { liveOf } from './live-of.ts';
import { tidied } from './openapi.ts';
import { tellFaultsAsPages } from './page-faults.ts';
import { pageQuery } from './query.ts';
import { queryText } from './query-text.ts';
import { readerTag } from './reader-tag.ts';
import { addReadingForm, type FormState, NEW_FORM, readingFormOf } from './reading-form.ts';
import { viewerOf } from './request-viewer.ts';
import { addSheet } from './sheet.ts';
import { placedOf, wantedBy } from './site-answers.ts';
import { addSiteList } from './site-list.ts';
import type { WatchingParts } from './watch.ts';

type PageQuery = z.output<typeof pageQuery>;
/** `kept`: a reading was, just now. */
const siteQuery = pageQuery.extend({ kept: z.literal('1').optional() });
type SiteQuery = z.output<typeof siteQuery>;

const HTML = 'text/html; charset=utf-8';

export interface PagesParts {
  readonly desk: PlanDesk;
  /** Null: nothing is watched. */
  readonly watching: WatchingParts | null;
  readonly canPlay: boolean;
  /** Null: past days are not shown. */
  readonly history: HistoryDesk | null;
  /** The scripts of the pages. */
  readonly files: () => PhoneFiles;
  /** Null: the operator has supplied no map tiles. */
  readonly ground: GroundParts | null;
}

interface AllParts extends PagesParts {
  readonly partsOf: ReturnType<typeof createDayParts>;
}

/** `headers`: of every page. */
export function addPageRoutes(
  app: FastifyInstance,
  given: PagesParts,
  headers: Readonly<Record<string, string>>,
): void {
  const { desk } = given;
  const parts: AllParts = { ...given, partsOf: createDayParts(desk) };
  app.register((pages, _options, done) => {
    const headersFor = createHeadersFor(headers);
    tellFaultsAsPages(pages, desk);
    pages.addHook('onSend', async (_request, reply, payload) => {
      // With no-cache a browser may still go back to a page without asking: an old go, or that of whoever was signed in.
      reply.header('cache-control', 'no-store').headers(headersFor(String(payload)));
    });
    addSiteList(pages, parts);
    addSheet(pages, { desk, view: (site, request) => siteViewOf(parts, site, request, NEW_FORM) });
    if (parts.history) addHistoryPage(pages, { ...parts, history: parts.history });
    pages.get<{ Params: { id: string }; Querystring: SiteQuery }>(
      '/sites/:id',
      {
        config: { scope: 'read' },
        schema: { hide: true, querystring: siteQuery, params: z.object({ id: z.string().max(80) }) },
      },
      async (request, reply) => {
        const site = desk.site(siteKeyOrThrow(viewerOf(request), request.params.id));
        const form = { ...NEW_FORM, kept: request.query.kept !== undefined };
        return reply.type(HTML).send(await siteHtml(parts, site, request, form));
      },
    );
    if (parts.watching) {
      addReadingForm(pages, {
        desk,
        watch: parts.watching.desk,
        page: (site, request, form) => siteHtml(parts, site, request, form),
      });
      addGlance(pages, { desk, watching: parts.watching, scripts: () => [parts.files().glance] });
    }
    if (parts.watching) addBoard(pages, desk, parts.watching, parts.ground);
    pages.get('/docs', { config: { scope: 'read' }, schema: { hide: true } }, async (_request, reply) =>
      reply.type(HTML).send(docsPage(tidied(app.swagger()), desk.demo)),
    );
    done();
  });
}

const siteHtml = async (...asked: Parameters<typeof siteViewOf>): Promise<string> =>
  sitePage(await siteViewOf(...asked));

async function siteViewOf(
  { desk, watching, canPlay, history, files, partsOf }: AllParts,
  site: DeskSite,
  request: FastifyRequest<{ Querystring: PageQuery }>,
  form: FormState,
): Promise<SiteView> {
  const { kept: _kept, ...query } = request.query as SiteQuery;
  const { timeZone } = placedOf(site);
  const nowMs = desk.nowMs();
  const { asked, today, weekPlan, ...parts } = partsOf(site, query);
  const wanted = (day: string) => wantedBy(desk, query, timeZone, day, site.madeFrom);
  const nowWindow = windowAt(weekPlan.windows, nowMs);
  const now = nowWindow && windowsAnswer(weekPlan, nowWindow, wanted(today)).windows[0];
  const live = await liveOf(watching, site, wanted(today));
  const viewer = viewerOf(request);
  const silences = watching === null ? [] : await watching.desk.silences(viewer);
  return {
    forecast: forecastStateOf(site, nowMs),
    nowMs,
    now: now ?? null,
    live,
    silences: silences.filter((s) => s.site === site.key && isInForce(s, nowMs)),
    // What was wrong is said, though the pit was covered meanwhile.
    reading:
      watching && (live?.burn || unmeasuredText(live) !== null || form.faults.length > 0)
        ? readingFormOf(watching.desk, site, request, form)
        : null,
    canPlay,
    hasSheet: true,
    hasHistory: history !== null && asked <= today,
    ...parts,
    text: await textAbout(watching, site, asked, timeZone),
    reader: { units: wanted(asked).reader.units, language: wanted(asked).reader.language },
    dayLabel: dayLabelOf(asked, today),
    query: queryText(query),
    phone: { reader: readerTag(viewer), scripts: [files().day] },
  };
}

function dayLabelOf(asked: LocalDate, today: LocalDate): 'today' | 'tomorrow' | null {
  if (asked === today) return 'today';
  return asked === addDays(today, 1) ? 'tomorrow' : null;
}

async function textAbout(
  watching: WatchingParts | null,
  { key }: DeskSite,
  day: LocalDate,
  timeZone: string,
): Promise<DayTextView | null> {
  const seen = watching && (await watching.desk.dayText(key, day));
  return seen && { kind: seen.kind, state: seen.state, at: rfc3339(seen.atMs, timeZone), texts: seen.texts };
}
