// What the viewer may see of the sites → features for a map.

import { rfc3339 } from '#core/units/local-time.ts';
import type { Burn } from '#core/watch/burn.ts';
import { isOpen } from '#core/watch/burn-plan.ts';
import { NO_SMOKE, type Smoke } from '#core/watch/smoke.ts';
import { noticeAnswer } from '#publish/answers/now.ts';
import { smokeAnswer } from '#publish/answers/smoke.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { areaOf, feature, placeOf, pointAt } from '#publish/geo/geojson.ts';
import { smokeRing } from '#publish/geo/smoke-ring.ts';
import { createFacts, type ListedSite } from '#publish/list/facts.ts';
import { createRemembered, inSlices } from '#publish/list/remembered.ts';
import { makeSiteRow, type SiteRow } from '#publish/list/site-row.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { NoticeMapAnswer, SiteMapAnswer, SmokeMapAnswer } from '#publish/wire-geo.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { forecastStateOf } from './forecast-state.ts';
import { inLanes } from './in-lanes.ts';
import { readerOf } from './live-of.ts';
import type { ReaderQuery } from './query.ts';
import { unplacedBurns } from './unplaced-burns.ts';
import type { WatchingParts } from './watch.ts';
import { zoneOf } from './watch-period.ts';

export interface MapQuery extends ReaderQuery {
  readonly reachM?: number;
}

const MOST_ROWS = 20_000;
const DRAWN_M = 10_000;

type Answering<A> = (viewer: Viewer, query: MapQuery) => Promise<A>;

export interface Maps {
  readonly sites: Answering<SiteMapAnswer>;
  readonly smoke: Answering<SmokeMapAnswer>;
  readonly notices: Answering<NoticeMapAnswer>;
}

export function createMaps(desk: PlanDesk, watching: WatchingParts): Maps {
  const facts = createFacts(desk, watching.desk);
  const rowOf = createRemembered<SiteRow>(desk, MOST_ROWS, (...asked) => makeSiteRow(desk, ...asked));
  return {
    async sites(viewer, query) {
      const { all } = await facts(viewer);
      return collected(
        desk,
        query,
        await inSlices(all, (one) => siteFeature(desk, one, rowOf(one.site, query))),
      );
    },
    async smoke(viewer, query) {
      const nowMs = desk.nowMs();
      const sites = new Map(desk.sites(viewer).map((site) => [site.key, site]));
      const burns = (await watching.desk.burnsAt(nowMs, nowMs)).filter(isOpen);
      const placed = await inLanes(burns, async (burn) => {
        const site = sites.get(burn.site);
        if (site === undefined) return null;
        const [smoke = NO_SMOKE] = await watching.desk.smokes(site.key, [nowMs]);
        return smokeFeature(desk, query, site, burn, smoke);
      });
      const unplaced = unplacedBurns(viewer, burns, sites).map(({ site, burn }) =>
        feature(burn.id, null, {
          site,
          name: site,
          burn: burn.id,
          state: burn.state,
          smoke: null,
          reachM: null,
        }),
      );
      return collected(desk, query, [...placed.filter((one) => one !== null), ...unplaced]);
    },
    async notices(viewer, query) {
      const sites = new Map(desk.sites(viewer).map((site) => [site.key, site]));
      const notices = await watching.desk.notices(viewer, null);
      const features = notices.flatMap((notice) => {
        const site = sites.get(notice.site);
        if (site === undefined) return [];
        const told = noticeAnswer(notice, readerOf(desk, query, zoneOf(site), null), watching.say);
        return [feature(`${site.id} ${told.id}`, pointAt(site.at), { ...told, name: site.name })];
      });
      return collected(desk, query, features);
    },
  };
}

/** Its own members stand beside those of the standard (6.1). */
function collected<F>(desk: PlanDesk, query: ReaderQuery, features: F[]) {
  return {
    type: 'FeatureCollection' as const,
    features,
    asOf: rfc3339(desk.nowMs(), 'UTC'),
    demo: desk.demo,
    caution: wordsFor(query.lang ?? desk.preferences.language).caution,
  };
}

function siteFeature(desk: PlanDesk, { site, marks, burn }: ListedSite, { today }: SiteRow) {
  const { externalRef } = site.definition;
  const isUnsaid = marks.today === 'unsaid';
  return feature(site.id, pointAt(site.at), {
    site: site.id,
    name: site.name,
    timeZone: site.timeZone,
    externalRef: typeof externalRef === 'string' ? externalRef : null,
    day: today?.day ?? null,
    verdict: marks.today === 'unsaid' ? ('hold' as const) : marks.today,
    unknown: isUnsaid,
    lightUp: today?.lightUp ?? null,
    lightUpBy: today?.lightUpBy ?? null,
    lastCharge: today?.lastCharge ?? null,
    coveredBy: today?.coveredBy ?? null,
    burn: burn?.state ?? null,
    forecast: forecastStateOf(site, desk.nowMs()),
  });
}

function smokeFeature(
  desk: PlanDesk,
  { reachM = DRAWN_M, ...query }: MapQuery,
  site: DeskSite,
  burn: Burn,
  smoke: Smoke,
) {
  const isSector = smoke.kind === 'toward';
  return feature(burn.id, isSector ? areaOf(smokeRing(placeOf(site.at), smoke, reachM)) : pointAt(site.at), {
    ...{ site: site.id, name: site.name, burn: burn.id, state: burn.state },
    smoke: smokeAnswer(smoke, readerOf(desk, query, zoneOf(site), null)),
    reachM: isSector ? reachM : null,
  });
}
