// The evening text and the dawn text of a site: when they are due, and what they say. At most one of each for a local
// date: which were told comes from the store, where the key is unique.

import { diffPlans, type PlanChange } from '#core/plan/diff-plans.ts';
import type { DAY_TIMES, DaySummary } from '#core/plan/plan-summary.ts';
import { addDays, type ClockTime, clockTimeMs, type LocalDate, localDateAt } from '#core/units/local-time.ts';
import { HOUR_MS } from '#core/units/time.ts';
import type { DayTold, Message } from './message.ts';

export type DayTextKind = 'evening' | 'dawn';

export interface DayTextTimes {
  /** On the site's clock; null: none is sent. */
  readonly evening: ClockTime | null;
  readonly dawn: ClockTime | null;
  /** After this long it comes too late to be of use. */
  readonly lateMs: number;
}

/** Five past five in the afternoon, and before the crew sets out; ours: no source. */
export const DAY_TEXT_TIMES: DayTextTimes = { evening: '17:05', dawn: '04:45', lateMs: 3 * HOUR_MS };

/** What makes a text the only one of its kind. */
export interface DayTextKey {
  /** `organisation/id`. */
  readonly site: string;
  /** Local date on which it is sent. */
  readonly date: LocalDate;
  readonly kind: DayTextKind;
}

export interface DayTextDue extends DayTextKey {
  /** Date of the plan that it tells. */
  readonly about: LocalDate;
  readonly dueAtMs: number;
  readonly validUntilMs: number;
}

export const dayTextName = ({ site, date, kind }: DayTextKey): string => `${site} ${date} ${kind}`;

/** What is to be told now. A clock time that comes twice means the earlier one; one that is skipped, as much later. */
export function dayTextsDue(
  {
    site,
    timeZone,
    times,
  }: { readonly site: string; readonly timeZone: string; readonly times: DayTextTimes },
  told: ReadonlySet<string>,
  nowMs: number,
): DayTextDue[] {
  const today = localDateAt(nowMs, timeZone);
  // One that was due before midnight may still be of use after it.
  return [addDays(today, -1), today].flatMap((date) =>
    (['evening', 'dawn'] as const).flatMap((kind) => {
      const clock = times[kind];
      if (clock === null || told.has(dayTextName({ site, date, kind }))) return [];
      const dueAtMs = clockTimeMs(date, clock, timeZone);
      const validUntilMs = dueAtMs + times.lateMs;
      if (nowMs < dueAtMs || nowMs >= validUntilMs) return [];
      return [
        { site, date, kind, about: kind === 'evening' ? addDays(date, 1) : date, dueAtMs, validUntilMs },
      ];
    }),
  );
}

/** What differs from what was told last evening; null where nothing was. To the minute: nobody is told "the same" of less. */
export function sinceEvening(
  evening: DayTold | null,
  now: DaySummary,
  nowMs: number,
): readonly PlanChange[] | null {
  if (evening === null || evening.date !== now.date) return null;
  return diffPlans([evening.day], [now], nowMs).filter(
    (change) =>
      change.kind === 'verdict' || (change.kind === 'time' && movedAMinute(evening.day, now, change.time)),
  );
}

function movedAMinute(was: DaySummary, now: DaySummary, time: (typeof DAY_TIMES)[number]): boolean {
  const [wasMs, isMs] = [was.times?.[time], now.times?.[time]];
  return (
    wasMs === undefined || isMs === undefined || Math.floor(wasMs / 60_000) !== Math.floor(isMs / 60_000)
  );
}

export function dayTextMessage(
  due: DayTextDue,
  day: DaySummary,
  evening: DayTold | null,
  { nowMs, hash }: { readonly nowMs: number; readonly hash: (text: string) => string },
): Message {
  return {
    // Not of the plan: a second one of the same date and kind is the same text, and is not sent.
    id: hash(JSON.stringify(['day', due.site, due.date, due.kind])),
    kind: due.kind,
    site: due.site,
    atMs: nowMs,
    verdict: 'go',
    transitions: [],
    validUntilMs: due.validUntilMs,
    needsAnswer: false,
    day: {
      date: due.about,
      day,
      changes: due.kind === 'dawn' ? sinceEvening(evening, day, nowMs) : null,
    },
  };
}
