// Go windows for calendars: what the plan says now against what was told last, which is kept before it is told.

import { randomUUID } from 'node:crypto';
import { type CalendarWindow, type GoOfDay, stepCalendar } from '#core/plan/calendar-windows.ts';
import { DAY_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import type { CalendarDesk, CalendarSeen } from '#publish/calendar-desk.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { createRemembered, inSlices, type Made } from '#publish/list/remembered.ts';
import type { CalendarRecords } from '#store/store.ts';
import { KEPT_DAYS } from './planner.ts';

/** What is over stands in the calendar for so long. */
const SHOWN_MS = 14 * DAY_MS;
const MOST_KEPT = 20_000;
const TRIES = 4;
const PLAIN = {};

interface Ahead extends Pick<CalendarSeen, 'burn'> {
  readonly gos: readonly GoOfDay[];
}

/** Nobody knows anything: there is no go. */
const NOTHING: Ahead = { gos: [], burn: null };

export function createCalendarDesk(desk: PlanDesk, records: CalendarRecords): CalendarDesk {
  const aheadOf = createRemembered<Ahead>(desk, MOST_KEPT, (site, _asker, nowMs) => make(desk, site, nowMs));
  return {
    async of(sites) {
      for (let tries = 1; tries <= TRIES; tries += 1) {
        const nowMs = desk.nowMs();
        const known = Map.groupBy(
          await records.windows(
            sites.map(({ key }) => key),
            nowMs - SHOWN_MS,
          ),
          ({ site }) => site,
        );
        const seen = await inSlices(sites, (site) => {
          const { gos, burn } = aheadOf(site, PLAIN);
          const told = known.get(site.key) ?? [];
          return { site, burn, told, windows: stepCalendar(site.key, told, gos, nowMs, randomUUID) };
        });
        const changed = seen.flatMap(({ told, windows }) => changesIn(told, windows));
        if (changed.length === 0 || (await records.keep(changed))) return seen;
      }
      throw new ServiceError('changed_meanwhile', 'others were told of other windows at the same moment', {
        retryable: true,
      });
    },
  };
}

function changesIn(told: readonly CalendarWindow[], windows: readonly CalendarWindow[]): CalendarWindow[] {
  const same = new Set(told);
  return windows.filter((window) => !same.has(window));
}

function make(desk: PlanDesk, { key, state, today }: DeskSite, nowMs: number): Made<Ahead> {
  if (state.held === null || today === null) return { value: NOTHING, goodUntilMs: nowMs };
  const plan = desk.plan(key, today.date, KEPT_DAYS);
  const gos = plan.days.flatMap(({ day, frame }) =>
    plan.windows.flatMap((window): GoOfDay[] => {
      const [fromMs, toMs] = [Math.max(window.fromMs, frame.fromMs), Math.min(window.toMs, frame.toMs)];
      return window.verdict === 'go' && fromMs < toMs ? [{ date: day.date, fromMs, toMs }] : [];
    }),
  );
  return {
    value: { gos, burn: plan.site.burn },
    goodUntilMs: Math.min(plan.standsUntilMs, today.untilMs),
  };
}
