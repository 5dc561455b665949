// GET / and GET /sites.csv: the list of sites, and the whole of it as a file. What it goes by is made anew in the background
// where plans have changed, so that whoever asks does not wait for thousands of them.

import type { FastifyInstance } from 'fastify';
import { localDateAt } from '#core/units/local-time.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { csvHeaders, csvText } from '#publish/list/csv.ts';
import { CSV_COLUMNS, csvRow, type PlanCells, planCells } from '#publish/list/csv-row.ts';
import { createFacts, type Listed } from '#publish/list/facts.ts';
import { filtered } from '#publish/list/filter.ts';
import { sorted } from '#publish/list/needs.ts';
import { type Asker, createRemembered, inSlices } from '#publish/list/remembered.ts';
import { makeSiteRow, type SiteRow } from '#publish/list/site-row.ts';
import { homePage } from '#publish/page/home-page.ts';
import { thisMachine, type Viewer } from '#publish/viewer.ts';
import { forecastStateOf } from './forecast-state.ts';
import { homeView } from './home-view.ts';
import { createListLive } from './list-live.ts';
import { filterOf, type ListQuery, listFileQuery, listQuery } from './list-query.ts';
import { viewerOf } from './request-viewer.ts';
import type { WatchingParts } from './watch.ts';

interface ListParts {
  readonly desk: PlanDesk;
  /** Null: nothing is watched. */
  readonly watching: WatchingParts | null;
}

/** Some pages of them. */
const MOST_ROWS = 1000;
const MOST_CELLS = 20_000;
/** The forecasts of a service come in one by one; a list is renewed by what came since. */
const RENEW_EVERY_MS = 10_000;

export function addSiteList(pages: FastifyInstance, parts: ListParts): void {
  const { desk, watching } = parts;
  const facts = createFacts(desk, watching?.desk ?? null);
  const rowOf = createRemembered<SiteRow>(desk, MOST_ROWS, (...asked) => makeSiteRow(desk, ...asked));
  const liveOf = createListLive(watching, () => desk.nowMs());
  const fileOf = createFile(parts, facts);
  pages.get<{ Querystring: ListQuery }>(
    '/',
    { config: { scope: 'read' }, schema: { hide: true, querystring: listQuery } },
    async (request, reply) => {
      const listed = await facts(viewerOf(request));
      const view = await homeView({ desk, watching, rowOf, liveOf }, listed, request.query);
      return reply.type('text/html; charset=utf-8').send(homePage(view));
    },
  );
  pages.get<{ Querystring: ListQuery }>(
    '/sites.csv',
    { config: { scope: 'read' }, schema: { hide: true, querystring: listFileQuery } },
    async (request, reply) => {
      const text = await fileOf(viewerOf(request), request.query);
      const date = localDateAt(desk.nowMs(), 'UTC');
      return reply.headers(csvHeaders(`sites-${filterOf(request.query).day}-${date}`)).send(text);
    },
  );
  keepRenewed(pages, () => facts(thisMachine(desk.organisation)));
}

function createFile(
  { desk, watching }: ListParts,
  facts: (viewer: Viewer) => Promise<Listed>,
): (viewer: Viewer, query: ListQuery) => Promise<string> {
  const cellsOf = createRemembered<PlanCells>(desk, MOST_CELLS, (site, asker, nowMs) => {
    const { value, goodUntilMs } = makeSiteRow(desk, site, asker, nowMs);
    return { value: planCells(value), goodUntilMs };
  });
  return async (viewer, query) => {
    const { all } = await facts(viewer);
    const filter = filterOf(query);
    const found = sorted(filtered(all, filter));
    const told = watching && (await watching.desk.crewTold(found.map(({ site }) => site.key)));
    const rows = await inSlices(found, (one) => {
      const { site } = one;
      const forecast = forecastStateOf(site, desk.nowMs());
      const cells = isPlain(desk, query) ? one.cells : cellsOf(site, query);
      return csvRow(one, cells, told?.get(site.key) ?? null, forecast, filter.day);
    });
    return csvText(CSV_COLUMNS, rows);
  };
}

/** As the service is set up: that much is known of every site. */
const isPlain = ({ preferences }: PlanDesk, { units, lang }: Asker): boolean =>
  (units ?? preferences.units) === preferences.units &&
  (lang ?? preferences.language) === preferences.language;

/** While the service listens; whoever only asks it in a test, asks for all of it himself. */
function keepRenewed(app: FastifyInstance, renew: () => Promise<unknown>): void {
  let timer: ReturnType<typeof setInterval> | null = null;
  let running = false;
  const again = async (): Promise<void> => {
    if (running) return;
    running = true;
    // A store that does not answer is told to whoever asks.
    await renew().catch(() => undefined);
    running = false;
  };
  app.addHook('onListen', (done) => {
    timer = setInterval(() => void again(), RENEW_EVERY_MS);
    timer.unref();
    void again();
    done();
  });
  app.addHook('preClose', (done) => {
    if (timer !== null) clearInterval(timer);
    done();
  });
}
