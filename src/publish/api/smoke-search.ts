// Which burns a smoke may come from, among the sites that the viewer may see.

import type { Place } from '#core/site/site.ts';
import { bearingAndDistance } from '#core/units/direction.ts';
import { localDateAt, rfc3339 } from '#core/units/local-time.ts';
import type { Burn } from '#core/watch/burn.ts';
import {
  type BurningPit,
  type JudgedPit,
  momentsOf,
  REACH_M,
  seenAfterCoverMs,
  smokeSources,
} from '#core/watch/smoke-sources.ts';
import { smokeSourceAnswer, unplacedAnswer } from '#publish/answers/smoke.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { SmokeDesk } from '#publish/smoke-desk.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { SmokeSourcesAnswer } from '#publish/wire-smoke.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Reader } from '#publish/wording/words.ts';
import { inLanes } from './in-lanes.ts';
import { unplacedBurns } from './unplaced-burns.ts';
import { zoneOf } from './watch-period.ts';

export interface SmokeAsked {
  readonly at: Place;
  readonly atMs: number;
}

interface Found {
  readonly site: DeskSite;
  readonly burn: Burn;
  readonly pit: BurningPit;
}

/** `reader` without the zone: each burn is told in the time of its own site. */
export async function searchSmoke(
  { desk, watch }: { readonly desk: PlanDesk; readonly watch: SmokeDesk },
  viewer: Viewer,
  { at, atMs }: SmokeAsked,
  reader: Pick<Reader, 'language' | 'units'>,
): Promise<SmokeSourcesAnswer> {
  const sites = desk.sites(viewer);
  const byKey = new Map(sites.map((site) => [site.key, site]));
  const burns = await watch.burnsAt(atMs, atMs - seenAfterCoverMs(REACH_M));
  const mayBe = await inLanes(burns, async (burn) => {
    const site = byKey.get(burn.site);
    return site ? foundOf(watch, site, burn, { at, atMs }) : null;
  });
  const found = mayBe.filter((one) => one !== null);
  const { covers, cannotExclude, outside, beyond } = smokeSources(
    at,
    found.map(({ pit }) => pit),
  );
  const byId = new Map(found.map((one) => [one.pit.id, one]));
  const answers = (judged: readonly JudgedPit[]) =>
    judged.flatMap((pit) => {
      const one = byId.get(pit.id);
      if (!one) return [];
      const timeZone = zoneOf(one.site);
      return [smokeSourceAnswer(pit, one, { ...reader, timeZone, day: localDateAt(atMs, timeZone) })];
    });
  const nearest = nearestTo(at, sites);
  const timeZone = nearest === null ? 'UTC' : zoneOf(nearest.site);
  const anywhere = await inLanes(unplacedBurns(viewer, burns, byKey), async ({ site, burn: kept }) => {
    const { burn } = await watch.burnThen(kept, atMs);
    return unplacedAnswer({ site, burn }, { ...reader, timeZone, day: localDateAt(atMs, timeZone) });
  });
  return {
    at: [at.latDeg, at.lonDeg],
    time: rfc3339(atMs, timeZone),
    timeZone,
    asOf: rfc3339(desk.nowMs(), timeZone),
    covers: answers(covers),
    cannotExclude: [...answers(cannotExclude), ...anywhere],
    outside: answers(outside),
    beyond,
    reachM: Math.round(REACH_M),
    nearestSiteM: nearest && Math.round(nearest.distanceM),
    demo: desk.demo,
    caution: wordsFor(reader.language).caution,
  };
}

/** Null where it did not burn then, and was covered long before. Winds are asked only within reach. */
async function foundOf(
  watch: SmokeDesk,
  site: DeskSite,
  kept: Burn,
  { at, atMs }: SmokeAsked,
): Promise<Found | null> {
  const place = placeOf(site);
  const id = `${kept.site} ${kept.id}`;
  const { distanceM } = bearingAndDistance(place, at);
  if (distanceM > REACH_M) {
    const isOver = kept.closedAtMs !== null && kept.closedAtMs <= atMs;
    return isOver ? null : { site, burn: kept, pit: { id, place, coveredAtMs: null, smokes: [] } };
  }
  const { burn } = await watch.burnThen(kept, atMs);
  const coveredAtMs = burn.closedAtMs;
  if (coveredAtMs !== null && coveredAtMs <= atMs - seenAfterCoverMs(distanceM)) return null;
  const smokes = await watch.smokes(site.key, momentsOf(atMs, burn.litAtMs ?? burn.openedAtMs));
  return { site, burn, pit: { id, place, coveredAtMs, smokes } };
}

export function nearestTo(
  at: Place,
  sites: readonly DeskSite[],
): { readonly site: DeskSite; readonly distanceM: number } | null {
  let nearest: { site: DeskSite; distanceM: number } | null = null;
  for (const site of sites) {
    const { distanceM } = bearingAndDistance(placeOf(site), at);
    if (nearest === null || distanceM < nearest.distanceM) nearest = { site, distanceM };
  }
  return nearest;
}

const placeOf = ({ at: [latDeg, lonDeg] }: DeskSite): Place => ({ latDeg, lonDeg });
