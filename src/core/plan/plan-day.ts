// The plan of one day: which go counts, the three times, and what each of them rests on.

import { type Finding, finding, forcesOut, SEVERITY } from '#core/rules/finding.ts';
import { narrowed } from '#core/rules/limit-figures.ts';
import type { RuleContext } from '#core/rules/rule.ts';
import type { SiteCalendar } from '#core/site/calendar.ts';
import type { LocalDay } from '#core/site/local-day.ts';
import { putOutMs } from '#core/site/site.ts';
import { HOUR_MS, intersect, MINUTE_MS, type Span } from '#core/units/time.ts';
import { cutWindows, type Window, windowAt } from '#core/windows/find-windows.ts';
import { type Burn, chooseBurn } from './choose-burn.ts';
import { lightUpByMs, standingIn } from './light-up-by.ts';
import type { BurnTimesOfDay, DayPlan, Standing } from './plan.ts';
import { tightestIn } from './tightest-in.ts';
import { verdictWithoutLight } from './verdict-without-light.ts';
import { wouldChange } from './would-change.ts';

/** The days asked for, each with its plan. */
export function planDays(
  context: RuleContext,
  windows: readonly Window[],
  findings: readonly Finding[],
  days: readonly LocalDay[],
): DayPlan[] {
  const usable = usableDaylight(context);
  return days.map((day) => planDay(context, windows, findings, day, usable));
}

function planDay(
  context: RuleContext,
  windows: readonly Window[],
  findings: readonly Finding[],
  day: LocalDay,
  usable: readonly Span[] | null,
): DayPlan {
  const frame = frameOf(day, context.calendar);
  const inFrame = cutWindows(windows, frame);
  const burn = chooseBurn(inFrame, windows, {
    nowMs: context.nowMs,
    latestMs: latestEndMs(context, day, frame),
  });
  const working = workingSpans(context, frame, usable);
  const times = burn ? timesOf(context, burn, windows, findings) : null;
  const now = windowAt(burn ? [...inFrame, burn.last] : inFrame, context.nowMs);
  const standing = standingOf(context, times, now);
  const summary =
    standing === 'ahead' || standing === 'light'
      ? { verdict: 'go' as const, cannotSay: false }
      : verdictWithoutLight(inFrame, working, now, times !== null);
  const over = burn ? burn.goes : orElse(working, frame);
  const tightest = tightestIn(context, over);
  return {
    day,
    frame,
    ...summary,
    standing,
    times,
    tightest,
    wouldChange: wouldChange(context, {
      windows: inFrame,
      working,
      goSpan: over[0] ?? frame,
      isGo: burn !== null,
      lightUpMs: burn?.first.fromMs ?? frame.fromMs,
      tightest,
    }),
  };
}

/** Where the day stands: by the burn as a whole, and within it by the window of this moment. */
function standingOf(
  { site, nowMs }: RuleContext,
  times: BurnTimesOfDay | null,
  now: Window | null,
): Standing {
  if (times === null) return 'none';
  if (nowMs < times.lightUpMs) return 'ahead';
  if (nowMs >= times.lastChargeMs) return 'over';
  if (now?.verdict !== 'go') return 'pause';
  return standingIn(now, site.burn, nowMs);
}

/**
 * How far a go that outlasts the day is followed: to the end of the next day, less burn-down and cover, since every plan
 * judges that far, however many days are asked for.
 */
const latestEndMs = ({ site, calendar }: RuleContext, day: LocalDay, frame: Span): number => {
  const next = calendar.days.find((d) => d.fromMs === day.toMs);
  return Math.max(frame.toMs, (next?.toMs ?? 0) - putOutMs(site.burn));
};

/** The working time, or the whole frame where there is none. */
const orElse = (working: readonly Span[], frame: Span): readonly Span[] =>
  working.length > 0 ? working : [frame];

/** The day, without the morning of a shift that began the day before, and with its own shift past midnight. */
function frameOf(day: LocalDay, calendar: SiteCalendar): Span {
  let { fromMs, toMs } = day;
  for (const worked of calendar.shifts) {
    if (worked.date < day.date && worked.toMs > fromMs && worked.fromMs < fromMs) fromMs = worked.toMs;
    if (worked.date === day.date && worked.toMs > toMs) toMs = worked.toMs;
  }
  return { fromMs, toMs: Math.max(fromMs, toMs) };
}

/** The time in which a burn could be at all: on shift and, where the site burns by day only, in daylight's margins. */
function workingSpans({ calendar }: RuleContext, frame: Span, usable: readonly Span[] | null): Span[] {
  const working: Span[] = [];
  for (const shift of calendar.shifts) {
    const onShift = intersect(shift, frame);
    if (onShift === null) continue;
    if (usable === null) working.push(onShift);
    else for (const light of usable) working.push(...orNone(intersect(onShift, light)));
  }
  return working;
}

const orNone = (span: Span | null): Span[] => (span === null ? [] : [span]);

/** Daylight within its margins; null where the site burns by night too. */
function usableDaylight({ site, calendar }: RuleContext): Span[] | null {
  if (site.daylight === null) return null;
  const { lightUpAfterSunriseMin, outBeforeSunsetMin } = site.daylight;
  return calendar.daylight.map((light) => ({
    fromMs: light.fromMs + (light.beginsAtSunrise ? lightUpAfterSunriseMin * MINUTE_MS : 0),
    toMs: light.toMs - (light.endsAtSunset ? outBeforeSunsetMin * MINUTE_MS : 0),
  }));
}

function timesOf(
  context: RuleContext,
  { first, last, pauses }: Burn,
  windows: readonly Window[],
  findings: readonly Finding[],
): BurnTimesOfDay {
  const { burn } = context.site;
  const lastChargeMs = last.toMs;
  const heldBefore = windows.find((w) => w.toMs === first.fromMs && w.verdict !== 'go');
  const endsIt = windows.find((w) => w.fromMs === lastChargeMs && w.verdict !== 'go');
  return {
    warmUpMs: first.fromMs - burn.warmUpMin * MINUTE_MS,
    lightUpMs: first.fromMs,
    lightUpByMs: lightUpByMs(last, burn),
    firstChargeMs: Math.min(lastChargeMs, first.fromMs + burn.kindlingMin * MINUTE_MS),
    lastChargeMs,
    burnedDownMs: lastChargeMs + burn.burnDownMin * MINUTE_MS,
    coveredByMs: lastChargeMs + putOutMs(burn),
    pauses,
    lightUpCauses: gravestFirst(heldBefore?.findings.filter((f) => f.toMs === first.fromMs) ?? []).map((f) =>
      narrowed(context, f, { fromMs: first.fromMs - HOUR_MS, toMs: first.fromMs }),
    ),
    lastChargeCauses: orPlanEnds(
      lastChargeMs,
      gravestFirst([
        ...(endsIt?.findings.filter((f) => f.fromMs === lastChargeMs) ?? []),
        ...forcingAt(findings, lastChargeMs + putOutMs(burn)),
      ]).map((f) => narrowed(context, f, { fromMs: f.fromMs, toMs: f.fromMs + HOUR_MS })),
    ),
  };
}

/** A charge ends for a cause: where nothing ends the go, it is that this plan looks no farther. */
const orPlanEnds = (lastChargeMs: number, causes: Finding[]): Finding[] =>
  causes.length > 0
    ? causes
    : [finding('plan-ends', 'go', { fromMs: lastChargeMs, toMs: lastChargeMs + MINUTE_MS }, {})];

/** What stands behind a burn-down hold: the findings that begin when the pit must be covered. */
const forcingAt = (findings: readonly Finding[], ms: number): Finding[] =>
  findings.filter((f) => f.fromMs === ms && forcesOut(f) && f.code !== 'burn-down-ahead');

const gravestFirst = (findings: readonly Finding[]): Finding[] =>
  findings.filter((f) => f.verdict !== 'go').sort((a, b) => SEVERITY[b.verdict] - SEVERITY[a.verdict]);
