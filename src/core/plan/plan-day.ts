// The plan of one day: which go counts, the three times, and what each of them rests on.

import { type Finding, type FindingCode, forcesOut, SEVERITY, type Verdict } from '#core/rules/finding.ts';
import { narrowed } from '#core/rules/limit-figures.ts';
import type { RuleContext } from '#core/rules/rule.ts';
import type { SiteCalendar } from '#core/site/calendar.ts';
import type { LocalDay } from '#core/site/local-day.ts';
import { putOutMs } from '#core/site/site.ts';
import { HOUR_MS, intersect, MINUTE_MS, overlaps, type Span, subtract } from '#core/units/time.ts';
import { cutWindows, type Window } from '#core/windows/find-windows.ts';
import type { BurnTimesOfDay, DayPlan, Standing } from './plan.ts';
import { tightestIn } from './tightest-in.ts';
import { wouldChange } from './would-change.ts';

export function planDay(
  context: RuleContext,
  windows: readonly Window[],
  findings: readonly Finding[],
  day: LocalDay,
): DayPlan {
  const frame = frameOf(day, context.calendar);
  const inFrame = cutWindows(windows, frame);
  const burn = chooseBurn(inFrame, context.nowMs);
  const working = workingSpans(context, frame);
  const times = burn ? timesOf(context, burn, windows, findings) : null;
  const standing = standingOf(times, context.nowMs);
  const summary = hasTimeToLight(standing)
    ? { verdict: 'go' as const, cannotSay: false }
    : summarise(inFrame, stillAhead(working, context.nowMs), times !== null);
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

function standingOf(times: BurnTimesOfDay | null, nowMs: number): Standing {
  if (times === null) return 'none';
  if (nowMs < times.lightUpMs) return 'ahead';
  if (nowMs <= times.lightUpByMs) return 'light';
  return nowMs < times.lastChargeMs ? 'charge' : 'over';
}

const hasTimeToLight = (standing: Standing): boolean => standing === 'ahead' || standing === 'light';

/** The working time from now on; all of it where none is left, for a day that is past. */
function stillAhead(working: readonly Span[], nowMs: number): readonly Span[] {
  const ahead = working.flatMap(
    (span) => intersect(span, { fromMs: nowMs, toMs: Number.POSITIVE_INFINITY }) ?? [],
  );
  return ahead.length > 0 ? ahead : working;
}

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
function workingSpans({ site, calendar }: RuleContext, frame: Span): Span[] {
  const onShift = calendar.shifts.map((s) => intersect(s, frame)).filter((s) => s !== null);
  if (site.daylight === null) return onShift;
  const { lightUpAfterSunriseMin, outBeforeSunsetMin } = site.daylight;
  const usable = calendar.daylight.map((light) => ({
    fromMs: light.fromMs + (light.beginsAtSunrise ? lightUpAfterSunriseMin * MINUTE_MS : 0),
    toMs: light.toMs - (light.endsAtSunset ? outBeforeSunsetMin * MINUTE_MS : 0),
  }));
  return onShift.flatMap((s) => usable.map((u) => intersect(s, u)).filter((u) => u !== null));
}

interface Burn {
  readonly first: Window;
  readonly last: Window;
  /** The go windows of the burn. */
  readonly goes: readonly Window[];
  readonly pauses: readonly Window[];
}

/**
 * One burn a day: of the stretches of go broken by nothing that forces the fire out, the one with the most go; the earlier on
 * a tie; one whose last charge has passed only where no other is left. A hold between two go windows is a pause, since a
 * hold does not put the fire out.
 */
function chooseBurn(windows: readonly Window[], nowMs: number): Burn | null {
  let best: { burn: Burn; goMs: number; ahead: boolean } | null = null;
  let stretch: Window[] = [];
  const close = () => {
    const goes = stretch.filter((w) => w.verdict === 'go');
    const first = goes[0];
    const last = goes.at(-1);
    if (first && last) {
      const goMs = goes.reduce((sum, w) => sum + w.toMs - w.fromMs, 0);
      const pauses = stretch.filter(
        (w) => w.verdict !== 'go' && w.fromMs > first.fromMs && w.toMs < last.toMs,
      );
      const ahead = last.toMs > nowMs;
      const better = best === null || (ahead === best.ahead ? goMs > best.goMs : ahead);
      if (better) best = { burn: { first, last, goes, pauses }, goMs, ahead };
    }
    stretch = [];
  };
  for (const w of windows) {
    // A go window may carry no such finding; a hold may.
    if (w.verdict !== 'go' && w.findings.some((f) => forcesOut(f) && overlaps(f, w))) close();
    else stretch.push(w);
  }
  close();
  return (best as { burn: Burn } | null)?.burn ?? null;
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
    lightUpByMs: Math.max(first.fromMs, lastChargeMs - burn.kindlingMin * MINUTE_MS),
    firstChargeMs: Math.min(lastChargeMs, first.fromMs + burn.kindlingMin * MINUTE_MS),
    lastChargeMs,
    burnedDownMs: lastChargeMs + burn.burnDownMin * MINUTE_MS,
    coveredByMs: lastChargeMs + putOutMs(burn),
    pauses,
    lightUpCauses: gravestFirst(heldBefore?.findings.filter((f) => f.toMs === first.fromMs) ?? []).map((f) =>
      narrowed(context, f, { fromMs: first.fromMs - HOUR_MS, toMs: first.fromMs }),
    ),
    lastChargeCauses: gravestFirst([
      ...(endsIt?.findings.filter((f) => f.fromMs === lastChargeMs) ?? []),
      ...forcingAt(findings, lastChargeMs + putOutMs(burn)),
    ]).map((f) => narrowed(context, f, { fromMs: f.fromMs, toMs: f.fromMs + HOUR_MS })),
  };
}

/** What stands behind a burn-down hold: the findings that begin when the pit must be covered. */
const forcingAt = (findings: readonly Finding[], ms: number): Finding[] =>
  findings.filter((f) => f.fromMs === ms && forcesOut(f) && f.code !== 'burn-down-ahead');

const gravestFirst = (findings: readonly Finding[]): Finding[] =>
  findings.filter((f) => f.verdict !== 'go').sort((a, b) => SEVERITY[b.verdict] - SEVERITY[a.verdict]);

/**
 * A day without time to light: the verdict of most of the working time; a day without working time is a stop. After a
 * burn it is hold at the least, whatever go is left, and never unsayable.
 */
function summarise(
  windows: readonly Window[],
  working: readonly Span[],
  hadBurn: boolean,
): { verdict: Verdict; cannotSay: boolean } {
  let stopMs = 0;
  let knownHoldMs = 0;
  let unknownHoldMs = 0;
  for (const w of windows) {
    for (const span of working) {
      const part = intersect(w, span);
      if (part === null) continue;
      const lengthMs = part.toMs - part.fromMs;
      const knownMs = w.verdict === 'stop' ? 0 : knownPartMs(w, part);
      if (w.verdict === 'stop') stopMs += lengthMs;
      knownHoldMs += knownMs;
      unknownHoldMs += w.verdict === 'stop' ? 0 : lengthMs - knownMs;
    }
  }
  const verdict = knownHoldMs + unknownHoldMs > stopMs ? 'hold' : 'stop';
  return { verdict, cannotSay: !hadBurn && verdict === 'hold' && unknownHoldMs > knownHoldMs };
}

/** Findings that take the ground from under all others. */
const UNTRUSTED: ReadonlySet<FindingCode> = new Set<FindingCode>([
  'forecast-stale',
  'forecast-undated',
  'forecast-future',
  'input-unusable',
]);

/** How much of a hold window has a hold that is known to hold [ms]. */
function knownPartMs(window: Window, part: Span): number {
  // What a forecast says that is not to be trusted is no knowledge.
  if (window.findings.some((f) => UNTRUSTED.has(f.code))) return 0;
  const known = window.findings.filter((f) => f.verdict === 'hold' && !f.unknown);
  const open = subtract(part, known).reduce((sum, s) => sum + s.toMs - s.fromMs, 0);
  return part.toMs - part.fromMs - open;
}
