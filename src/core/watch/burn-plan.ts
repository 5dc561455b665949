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

/** True while wood may still be given. */
export const isCharging = (burn: Burn | null): boolean => burn?.state === 'lit' || burn?.state === 'charging';

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

/** due: the moment is there, or no charge is planned at all. unknown: no plan says, and none did. */
export type LastCharge =
  | { readonly kind: 'at' | 'due'; readonly atMs: number; readonly by: 'plan' | 'last-good-plan' }
  | { readonly kind: 'not-yet' }
  | { readonly kind: 'unknown' };

/**
 * The last charge of the fire that burns. A day whose go comes back later plans a second fire; this one's last charge is then
 * the end of the go in which it burned, or the stop that it met. Without a plan, or with one that has nothing to go by, it is
 * the earlier of what the crew was told and what the last plan said that had.
 */
export function lastChargeOf(context: WatchContext, burn: Burn): LastCharge {
  const { date, nowMs, plan } = context;
  if (plan === null || !planSays(context)) {
    const toldMs = briefedDay(context)?.times?.lastCharge ?? Number.POSITIVE_INFINITY;
    const atMs = Math.min(toldMs, saidBeforeMs(context, burn));
    return Number.isFinite(atMs) ? atOrDue(atMs, nowMs, 'last-good-plan') : { kind: 'unknown' };
  }
  const times = dayOf(plan, date)?.times ?? null;
  if (times !== null && times.lightUpMs <= nowMs) {
    return atOrDue(times.lastChargeMs, nowMs, 'plan');
  }
  const litMs = litMsOf(burn);
  const ended = plan.windows.findLast((w) => w.verdict === 'go' && w.toMs <= nowMs && w.toMs > litMs);
  if (ended) return { kind: 'due', atMs: ended.toMs, by: 'plan' };
  const stopped = plan.windows.find((w) => w.verdict === 'stop' && w.fromMs > litMs && w.fromMs <= nowMs);
  if (stopped) return { kind: 'due', atMs: stopped.fromMs, by: 'plan' };
  return times === null ? { kind: 'due', atMs: litMs, by: 'plan' } : { kind: 'not-yet' };
}

const litMsOf = ({ litAtMs, openedAtMs }: Burn): number => litAtMs ?? openedAtMs;

const atOrDue = (atMs: number, nowMs: number, by: 'plan' | 'last-good-plan'): LastCharge => ({
  kind: atMs <= nowMs ? 'due' : 'at',
  atMs,
  by,
});

/** What the evaluation before this one went by, if it was of this fire; infinite where it had nothing either. */
function saidBeforeMs({ before }: WatchContext, burn: Burn): number {
  const said = before.find((c) => c.code === 'last-charge-due')?.figures.atMs ?? null;
  return said !== null && said >= litMsOf(burn) ? said : Number.POSITIVE_INFINITY;
}
