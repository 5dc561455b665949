// What the plan says of the burn that is open: its day, and the last charge of this fire, not of one later that day.

import type { DayPlan, Plan } from '#core/plan/plan.ts';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import type { Verdict } from '#core/rules/finding.ts';
import { workingDayAt } from '#core/site/working-day.ts';
import { addDays, type LocalDate } from '#core/units/local-time.ts';
import type { Burn } from './burn.ts';
import { planSays } from './plan-says.ts';
import type { BriefedPlan, WatchContext, WatchInput } from './watch-context.ts';

/** True while it must be watched. */
export const isOpen = (burn: Burn | null): burn is Burn & { readonly closedAtMs: null } =>
  burn !== null && burn.closedAtMs === null;

/**
 * The date to whose plan the burn belongs; where none is open today's, or tomorrow's when today's work is over and the crew
 * has been told of tomorrow.
 */
export function burnDate({ briefed, burn, nowMs, plan, site }: WatchInput): LocalDate {
  const ms = isOpen(burn) ? burn.openedAtMs : nowMs;
  const { date } = workingDayAt(site.shifts, ms, site.timeZone);
  if (isOpen(burn) || plan === null) return date;
  const isOver = plan.calendar.shifts.every((shift) => shift.date !== date || shift.toMs <= nowMs);
  const tomorrow = addDays(date, 1);
  return isOver && dayIn(briefed, tomorrow) !== null ? tomorrow : date;
}

export const dayOf = (plan: Plan | null, date: LocalDate): DayPlan | null =>
  plan?.days.find((d) => d.day.date === date) ?? null;

export const dayIn = (told: BriefedPlan | null, date: LocalDate): DaySummary | null =>
  told?.days.find((d) => d.date === date) ?? null;

export const briefedDay = ({ briefed, date }: WatchContext): DaySummary | null => dayIn(briefed, date);

/** A verdict of what was told; null where nothing was told of that moment. */
export const briefedVerdict = (day: DaySummary | null, ms: number): Verdict | null =>
  day?.windows.find(([, fromMs, toMs]) => fromMs <= ms && ms < toMs)?.[0] ?? null;

/** due: the moment is there, or no charge is planned at all. unknown: there is no plan to say. */
export type LastCharge =
  | { readonly kind: 'at'; readonly atMs: number }
  | { readonly kind: 'due'; readonly atMs: number }
  | { readonly kind: 'not-yet' }
  | { readonly kind: 'unknown' };

/**
 * The last charge of the fire that burns. A day whose go comes back later plans a second fire; this one's last charge is then
 * the end of the go in which it burned, or the stop that it met. Without a plan, or with one that has nothing to go by, what the crew was told is due when it is due.
 */
export function lastChargeOf(context: WatchContext, burn: Burn): LastCharge {
  const { date, nowMs, plan } = context;
  if (plan === null || !planSays(context)) {
    const toldMs = briefedDay(context)?.times?.lastCharge ?? Number.POSITIVE_INFINITY;
    return toldMs <= nowMs ? { kind: 'due', atMs: toldMs } : { kind: 'unknown' };
  }
  const times = dayOf(plan, date)?.times ?? null;
  if (times !== null && times.lightUpMs <= nowMs) {
    return { kind: times.lastChargeMs <= nowMs ? 'due' : 'at', atMs: times.lastChargeMs };
  }
  const litMs = burn.litAtMs ?? burn.openedAtMs;
  const ended = plan.windows.findLast((w) => w.verdict === 'go' && w.toMs <= nowMs && w.toMs > litMs);
  if (ended) return { kind: 'due', atMs: ended.toMs };
  const stopped = plan.windows.find((w) => w.verdict === 'stop' && w.fromMs > litMs && w.fromMs <= nowMs);
  if (stopped) return { kind: 'due', atMs: stopped.fromMs };
  return times === null ? { kind: 'due', atMs: litMs } : { kind: 'not-yet' };
}
