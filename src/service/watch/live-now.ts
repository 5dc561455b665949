// What stands at a site at this moment, worked out anew at every asking from what is held and kept.

import { isInForce } from '#core/notices/silence.ts';
import type { Plan } from '#core/plan/plan.ts';
import { workingDayAt } from '#core/site/working-day.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { Burn } from '#core/watch/burn.ts';
import { dayOf, isOpen } from '#core/watch/burn-plan.ts';
import { countedTaps } from '#core/watch/fold-taps.ts';
import { liveVerdict } from '#core/watch/live-verdict.ts';
import type { Observation } from '#core/watch/observation.ts';
import { windowAt } from '#core/windows/find-windows.ts';
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
    silences: (await deps.store.watch.silences([site.key], nowMs)).filter((s) => isInForce(s, nowMs)),
    notices: state.notices.filter(({ phase }) => phase !== 'quiet'),
    forecastMadeAtMs: watched.plan?.forecast.issuedAtMs ?? null,
    goodUntilMs: goodUntilMs(watched.plan, nowMs),
  };
}

/** The watch looks every minute and stations tell every few: what was true so long ago may be otherwise. Ours: no source. */
const LIVE_FOR_MS = 10 * MINUTE_MS;

function goodUntilMs(plan: Plan | null, nowMs: number): number {
  const window = plan && windowAt(plan.windows, nowMs);
  return Math.min(
    nowMs + LIVE_FOR_MS,
    plan?.standsUntilMs ?? Number.POSITIVE_INFINITY,
    window?.toMs ?? Number.POSITIVE_INFINITY,
  );
}

export async function burnRecord({ store }: Pick<WatchDeps, 'store'>, burn: Burn): Promise<BurnRecord> {
  const found = await store.watch.burn(burn.site, burn.id);
  const { taps = [], briefings = [], incidents = [] } = found ?? {};
  const counting = new Set(countedTaps(taps).map(({ id }) => id));
  const replaced = new Set(taps.filter(({ id }) => !counting.has(id)).map(({ id }) => id));
  return { burn, taps, replaced, briefings, incidents };
}

const newestOf = (observations: readonly Observation[]): Observation | null =>
  observations.reduce<Observation | null>(
    (newest, o) => (newest === null || o.observedAtMs > newest.observedAtMs ? o : newest),
    null,
  );
