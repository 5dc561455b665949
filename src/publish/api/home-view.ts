// The list of sites: a hundred at a time, those first where a fire burns, something stands, or there is no fresh forecast.

import type { z } from 'zod';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { HomeView } from '#publish/page/home-page.ts';
import type { Viewer } from '#publish/viewer.ts';
import { forecastStateOf, freshnessOf } from './forecast-state.ts';
import type { HomeRow } from './home-rows.ts';
import { liveOf } from './live-of.ts';
import type { homeQuery, ReaderQuery } from './query.ts';
import { queryText } from './query-text.ts';
import { wantedBy } from './site-answers.ts';
import type { WatchingParts } from './watch.ts';

export type HomeQuery = z.output<typeof homeQuery>;

const SITES_PER_PAGE = 100;

interface HomeParts {
  readonly desk: PlanDesk;
  readonly watching: WatchingParts | null;
}

export async function homeView(
  { desk, watching }: HomeParts,
  rowOf: (site: DeskSite, query: ReaderQuery) => HomeRow,
  viewer: Viewer,
  query: HomeQuery,
): Promise<HomeView> {
  const { units, language } = wantedBy(desk, query, 'UTC', null, null).reader;
  const all = desk.sites(viewer);
  const pages = Math.max(1, Math.ceil(all.length / SITES_PER_PAGE));
  const page = Math.min(query.page ?? 1, pages);
  const shown = pages === 1 ? all : await pageOf(all, page, desk.nowMs(), watching);
  const sites = await Promise.all(
    shown.map(async (site) => {
      const { id, name, timeZone, today } = site;
      const wanted = timeZone === null ? null : wantedBy(desk, query, timeZone, today?.date ?? null, null);
      const live = wanted && (await liveOf(watching, site, wanted));
      return {
        ...rowOf(site, query),
        live,
        id,
        name,
        timeZone,
        forecast: forecastStateOf(site, desk.nowMs()),
      };
    }),
  );
  return { sites, page, pages, demo: desk.demo, reader: { units, language }, query: queryText(query) };
}

/** Told by what is known without planning each: within a page the plans decide too. */
async function pageOf(
  all: readonly DeskSite[],
  page: number,
  nowMs: number,
  watching: WatchingParts | null,
): Promise<readonly DeskSite[]> {
  const urgent = await watching?.desk.urgent();
  const need = (site: DeskSite): number => {
    if (urgent?.burning.has(site.key)) return 3;
    if (urgent?.standing.has(site.key)) return 2;
    const freshness = freshnessOf(site.state, site, nowMs);
    return freshness === 'none' || freshness === 'stale' || site.state.fault !== null ? 1 : 0;
  };
  const ranked = all.map((site) => ({ site, need: need(site) }));
  ranked.sort((a, b) => b.need - a.need || (a.site.name < b.site.name ? -1 : 1));
  return ranked.slice((page - 1) * SITES_PER_PAGE, page * SITES_PER_PAGE).map(({ site }) => site);
}
