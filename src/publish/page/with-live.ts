// What stands at the pit at this moment, held against the plan: pages of today say no go that the watch does not say.

import { SEVERITY } from '#core/rules/finding.ts';
import type { PlanAnswer } from '#publish/wire.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { msOf } from './moments.ts';
import { nowFor, type SiteView } from './site-view.ts';
import { type Mark, type Standing, standingOf } from './standing.ts';

/**
 * Today's standing of a plan, never better than what stands at the pit: of a fire that burns, and from light-up on of one that
 * could be lit. Before light-up the day's answer is the answer, and what stands now is said beside it.
 */
export function withLive(
  standing: Standing,
  live: NowAnswer | null,
  { lightUp }: Pick<PlanAnswer, 'lightUp'>,
  nowMs: number,
): Standing {
  if (live === null || live.verdict === 'go') return standing;
  const counts = live.burn !== null || (isBegun(lightUp, nowMs) && isWorseThanPlan(live));
  const mark = counts ? worseMark(standing.mark, liveMark(live)) : standing.mark;
  return mark === standing.mark ? standing : { ...standing, mark, byNow: false, byLive: true };
}

/** From light-up on a go of the day is a go to light now. */
export const isBegun = (lightUp: string | null, nowMs: number): boolean =>
  lightUp !== null && nowMs >= msOf(lightUp);

const isWorseThanPlan = ({ verdict, planVerdict }: NowAnswer): boolean =>
  SEVERITY[verdict] > SEVERITY[planVerdict];

/** Of a day, held against what stands: a hold takes the go, and a stop whatever it was. */
export const worseMark = (day: Mark, stands: Mark): Mark =>
  day === 'go' || stands === 'stop' ? stands : day;

export const liveMark = ({ verdict, unknown }: Pick<NowAnswer, 'verdict' | 'unknown'>): Mark =>
  verdict === 'hold' && unknown ? 'unsaid' : verdict;

/** Of a day as the pages of a site show it: of the plan, and of today what stands at the pit, too. */
export function standingOfView(view: SiteView, day: PlanAnswer): Standing {
  const now = nowFor(view, day);
  const ofPlan = standingOf(day, view.forecast, view.nowMs, now);
  return now === undefined ? ofPlan : withLive(ofPlan, view.live, day, view.nowMs);
}
