// The go windows of today that are not over, of each site: made once for a forecast and remembered while they stand. Of
// thousands of sites they are made in turns with whatever else there is to answer.

import { standingIn } from '#core/plan/light-up-by.ts';
import type { Plan } from '#core/plan/plan.ts';
import type { Span } from '#core/units/time.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { createRemembered, type Made } from '#publish/list/remembered.ts';
import { breather } from './in-lanes.ts';

export interface GoToday {
  /** In which may still be lit. */
  readonly windows: readonly Span[];
  readonly coveredByMs: number | null;
}

const PLAIN = {};
const MOST_KEPT = 20_000;
const NONE: GoToday = { windows: [], coveredByMs: null };

export interface GoesToday {
  /** Those of these sites that may still light today, in their order. */
  of(sites: readonly DeskSite[]): Promise<{ readonly site: DeskSite; readonly go: GoToday }[]>;
}

export function createGoesToday(desk: PlanDesk): GoesToday {
  const goOf = createRemembered(desk, MOST_KEPT, (site, _asker, nowMs) => make(desk, site, nowMs));
  return {
    async of(sites) {
      const found: { site: DeskSite; go: GoToday }[] = [];
      const breathe = breather();
      for (const site of sites) {
        const go = goOf(site, PLAIN);
        if (go.windows.length > 0) found.push({ site, go });
        await breathe();
      }
      return found;
    },
  };
}

function make(desk: PlanDesk, { key, state, today }: DeskSite, nowMs: number): Made<GoToday> {
  if (state.held === null || today === null) return { value: NONE, goodUntilMs: nowMs };
  const plan = desk.plan(key, today.date, 1);
  return {
    value: { windows: windowsOf(plan, nowMs), coveredByMs: plan.days[0]?.times?.coveredByMs ?? null },
    goodUntilMs: Math.min(plan.standsUntilMs, today.untilMs),
  };
}

function windowsOf({ windows, days, site }: Plan, nowMs: number): Span[] {
  const frame = days[0]?.frame;
  if (frame === undefined) return [];
  return windows.flatMap((window): Span[] => {
    const span = { fromMs: Math.max(window.fromMs, frame.fromMs), toMs: Math.min(window.toMs, frame.toMs) };
    if (window.verdict !== 'go' || span.fromMs >= span.toMs) return [];
    const standing = standingIn(window, site.burn, nowMs);
    return standing === 'ahead' || standing === 'light' ? [span] : [];
  });
}
