// The plan that the crew goes by: the one that was told last, by a day text, at light-up, or by a notice that was answered;
// and the one that it went by when it lit.

import { answersOfPart } from '#core/notices/answers-of-part.ts';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import { workingDayAt } from '#core/site/working-day.ts';
import { addDays, type LocalDate } from '#core/units/local-time.ts';
import type { Burn } from '#core/watch/burn.ts';
import { isOpen } from '#core/watch/burn-plan.ts';
import type { BriefedPlan } from '#core/watch/watch-context.ts';
import type { KeptDayText, MessageThread } from '#store/watch/records.ts';
import type { WatchDeps, WatchedSite } from './watched-site.ts';

export interface Briefed {
  /** Null where nothing was told. */
  readonly briefed: BriefedPlan | null;
  /** What was told before the open burn was lit; null where nothing was, or no burn is open. */
  readonly litBy: BriefedPlan | null;
}

interface BriefedBy {
  readonly today: LocalDate;
  readonly burn: Burn | null;
  /** Messages of the last day, with what was said to them. */
  readonly answered: readonly MessageThread[];
}

export async function briefedPlan(
  { store }: Pick<WatchDeps, 'store'>,
  watched: Pick<WatchedSite, 'key' | 'site'>,
  { today, burn, answered }: BriefedBy,
): Promise<Briefed> {
  const kept = await store.watch.dayTexts(watched.key, addDays(today, -2));
  const texts = kept.toSorted((a, b) => a.atMs - b.atMs);
  const litMs = isOpen(burn) ? (burn.litAtMs ?? Number.NEGATIVE_INFINITY) : Number.NEGATIVE_INFINITY;
  const toldBy = (said: readonly KeptDayText[], toldMs: number) => told({ store }, watched, said, toldMs);
  const before = texts.filter(({ atMs }) => atMs <= litMs);
  const litBy = litMs > Number.NEGATIVE_INFINITY ? await toldBy(before, litMs) : null;
  const toldMs = Math.max(litMs, ...answered.map(planAnsweredMs));
  const isOfLightUp = toldMs === litMs && before.length === texts.length && litBy !== null;
  return { briefed: isOfLightUp ? litBy : await toldBy(texts, toldMs), litBy };
}

/** The newest of texts, the oldest first, and of the plan of a moment. */
async function told(
  { store }: Pick<WatchDeps, 'store'>,
  { key, site }: Pick<WatchedSite, 'key' | 'site'>,
  texts: readonly KeptDayText[],
  toldMs: number,
): Promise<BriefedPlan | null> {
  const lastText = texts.at(-1) ?? null;
  const textDates = new Set(texts.map(({ day }) => day.date));
  if (toldMs > (lastText?.atMs ?? Number.NEGATIVE_INFINITY)) {
    const plan = await store.plans.at(key, toldMs);
    const { date } = workingDayAt(site.shifts, toldMs, site.timeZone);
    const days = (plan?.summary ?? []) as readonly DaySummary[];
    // Of a later day only what a text had told of it: the others are compared with nothing.
    if (plan !== null)
      return { toldAtMs: toldMs, days: days.filter((d) => d.date <= date || textDates.has(d.date)) };
  }
  if (lastText === null) return null;
  // The evening text tells tomorrow, the dawn text today; days that nobody told of are compared with nothing.
  const days = texts.map(({ day }) => day.day);
  return { toldAtMs: lastText.atMs, days: [...new Map(days.map((day) => [day.date, day])).values()] };
}

/** The moment of a message about the plan that somebody has acknowledged. */
function planAnsweredMs(thread: MessageThread): number {
  const isAnswered = thread.message.transitions.some(
    (t, part) =>
      t.condition.code.startsWith('plan-') &&
      answersOfPart(thread, part).some(({ said }) => said === 'got-it'),
  );
  return isAnswered ? thread.message.atMs : Number.NEGATIVE_INFINITY;
}
