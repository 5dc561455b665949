// The plan that the crew goes by: the one that was told last, by a day text, at light-up, or by a notice that was answered.

import type { DaySummary } from '#core/plan/plan-summary.ts';
import { addDays, type LocalDate } from '#core/units/local-time.ts';
import type { Burn } from '#core/watch/burn.ts';
import type { BriefedPlan } from '#core/watch/watch-context.ts';
import type { MessageThread } from '#store/watch/records.ts';
import type { WatchDeps } from './watched-site.ts';

/** Null where nothing was told. */
export async function briefedPlan(
  { store }: Pick<WatchDeps, 'store'>,
  site: string,
  { today, burn, answered }: { today: LocalDate; burn: Burn | null; answered: readonly MessageThread[] },
): Promise<BriefedPlan | null> {
  const texts = await store.watch.dayTexts(site, addDays(today, -2));
  const lastText = texts.toSorted((a, b) => a.atMs - b.atMs).at(-1) ?? null;
  const litMs = burn !== null && burn.closedAtMs === null ? burn.litAtMs : null;
  const answeredMs = Math.max(...answered.map(planAnsweredMs), Number.NEGATIVE_INFINITY);
  const toldMs = Math.max(litMs ?? Number.NEGATIVE_INFINITY, answeredMs);
  if (toldMs > (lastText?.atMs ?? Number.NEGATIVE_INFINITY)) {
    const plan = await store.plans.at(site, toldMs);
    if (plan !== null) return { toldAtMs: toldMs, days: plan.summary as readonly DaySummary[] };
  }
  if (lastText === null) return null;
  // The evening text tells tomorrow, the dawn text today; days that nobody told of are compared with nothing.
  const days = texts.toSorted((a, b) => a.atMs - b.atMs).map(({ day }) => day.day);
  return { toldAtMs: lastText.atMs, days: [...new Map(days.map((day) => [day.date, day])).values()] };
}

/** The moment of a message about the plan that somebody has acknowledged. */
function planAnsweredMs({ message, answers }: MessageThread): number {
  const isOfPlan = message.transitions.some((t) => t.condition.code.startsWith('plan-'));
  return isOfPlan && answers.some(({ said }) => said === 'got-it') ? message.atMs : Number.NEGATIVE_INFINITY;
}
