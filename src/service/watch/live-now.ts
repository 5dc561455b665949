// What stands at a site at this moment, worked out anew at every asking from what is held and kept.

import { workingDayAt } from '#core/site/working-day.ts';
import type { Burn } from '#core/watch/burn.ts';
import { dayOf, isOpen } from '#core/watch/burn-plan.ts';
import { countedTaps } from '#core/watch/fold-taps.ts';
import { liveVerdict } from '#core/watch/live-verdict.ts';
import type { Observation } from '#core/watch/observation.ts';
import { ServiceError } from '#errors.ts';
import { judgeConditions } from '#jobs/watch/look-at-site.ts';
import { readGround } from '#jobs/watch/watch-site.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import type { DeskSite } from '#publish/desk.ts';
import type { BurnRecord, LiveNow } from '#publish/watch-desk.ts';

export async function liveNow(deps: WatchDeps, site: DeskSite): Promise<LiveNow> {
  const ground = await readGround(deps, site.key);
  if (ground === null) {
    throw new ServiceError('no_forecast', `no forecast for ${site.id} yet, and so no time zone`, {
      retryable: true,
    });
  }
  const { watched, burn, state, observations, nowMs } = ground;
  const conditions = judgeConditions(ground);
  const live = liveVerdict(watched.plan, burn, conditions, nowMs);
  const today = workingDayAt(watched.site.shifts, nowMs, watched.site.timeZone).date;
  return {
    site,
    asOfMs: nowMs,
    verdict: live.verdict,
    unknown: live.cannotSay,
    planVerdict: live.planVerdict,
    tooLateUntilMs: live.tooLateUntilMs,
    findings: live.findings,
    day: dayOf(watched.plan, today),
    burn: isOpen(burn) ? await burnRecord(deps, burn) : null,
    observation: newestOf(observations),
    conditions: live.conditions,
    notices: state.notices.filter(({ phase }) => phase !== 'quiet'),
  };
}

export async function burnRecord({ store }: Pick<WatchDeps, 'store'>, burn: Burn): Promise<BurnRecord> {
  const found = await store.watch.burn(burn.site, burn.id);
  const { taps = [], briefings = [] } = found ?? {};
  const counting = new Set(countedTaps(taps).map(({ id }) => id));
  const replaced = new Set(taps.filter(({ id }) => !counting.has(id)).map(({ id }) => id));
  return { burn, taps, replaced, briefings };
}

const newestOf = (observations: readonly Observation[]): Observation | null =>
  observations.reduce<Observation | null>(
    (newest, o) => (newest === null || o.observedAtMs > newest.observedAtMs ? o : newest),
    null,
  );
