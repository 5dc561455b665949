// What the list goes by: of every site that the viewer may see its digest, its fire, what stands, and what was told in the
// evening.

import { forecastStateOf, freshnessOf } from '#publish/api/forecast-state.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { ListDesk, ListedNow } from '#publish/list-desk.ts';
import type { Viewer } from '#publish/viewer.ts';
import { type PlanCells, planCells } from './csv-row.ts';
import { type Judged, judged } from './needs.ts';
import { type Asker, createRemembered, inSlices } from './remembered.ts';
import { digestOf, type SiteDigest } from './site-digest.ts';
import { makeSiteRow } from './site-row.ts';

/** Of as many sites as one service watches, with room. */
const MOST_DIGESTS = 20_000;
const PLAIN: Asker = {};

/** Of one site, in the words and units of the service. */
interface Kept {
  readonly digest: SiteDigest;
  readonly cells: PlanCells;
}

export interface ListedSite extends Judged {
  readonly cells: PlanCells;
}

export interface Listed {
  readonly all: readonly ListedSite[];
  /** Null where nothing is watched. */
  readonly now: ListedNow | null;
}

export function createFacts(desk: PlanDesk, watch: ListDesk | null): (viewer: Viewer) => Promise<Listed> {
  const keptOf = createRemembered<Kept>(desk, MOST_DIGESTS, (site, _asker, nowMs) => {
    const { value, goodUntilMs } = makeSiteRow(desk, site, PLAIN, nowMs);
    const digest = digestOf(value, forecastStateOf(site, nowMs));
    return { value: { digest, cells: planCells(value) }, goodUntilMs };
  });
  return async (viewer) => {
    const now = watch && (await watch.listed());
    const sites = desk.sites(viewer);
    return { now, all: await inSlices(sites, (site) => factsOf(desk, site, keptOf(site, PLAIN), now)) };
  };
}

function factsOf(desk: PlanDesk, site: DeskSite, { digest, cells }: Kept, now: ListedNow | null): ListedSite {
  const nowMs = desk.nowMs();
  const found = judged(
    {
      site,
      digest,
      freshness: freshnessOf(site.state, site, nowMs),
      burn: now?.burns.get(site.key) ?? null,
      stood: now?.stood(site.key) ?? null,
      notices: now?.notices.get(site.key) ?? [],
      evening: now?.evenings.get(site.key) ?? null,
      undelivered: now?.undelivered.get(site.key) ?? [],
    },
    nowMs,
  );
  return { ...found, cells };
}
