// Go windows as a calendar tells them: each keeps its name while it moves, counts its changes, and is taken back, never left out.

import type { LocalDate } from '#core/units/local-time.ts';
import type { Span } from '#core/units/time.ts';

export interface CalendarWindow extends Span {
  /** `organisation/id`. */
  readonly site: string;
  readonly date: LocalDate;
  /** From 1 within its date; never given twice. */
  readonly number: number;
  /** The same for ever, and of no other. */
  readonly uid: string;
  /** How often it has changed. */
  readonly sequence: number;
  readonly cancelled: boolean;
  readonly changedAtMs: number;
}

export interface GoOfDay extends Span {
  readonly date: LocalDate;
}

/** All windows of a site as they are to be told now; those that did not change are the same objects. */
export function stepCalendar(
  site: string,
  known: readonly CalendarWindow[],
  gos: readonly GoOfDay[],
  nowMs: number,
  newUid: () => string,
): CalendarWindow[] {
  const dates = new Set([...known, ...gos].map(({ date }) => date));
  return [...dates].sort().flatMap((date) => {
    const ofDate = ({ date: own }: { readonly date: string }) => own === date;
    return stepDay({ site, date, nowMs, newUid }, known.filter(ofDate), gos.filter(ofDate));
  });
}

interface Step {
  readonly site: string;
  readonly date: LocalDate;
  readonly nowMs: number;
  newUid(): string;
}

/** What is over is no longer judged by anybody, and stays as it was told last. */
function stepDay(step: Step, known: readonly CalendarWindow[], gos: readonly Span[]): CalendarWindow[] {
  const { nowMs } = step;
  const ahead = gos.filter(({ toMs }) => toMs > nowMs);
  const open = known.filter(({ toMs }) => toMs > nowMs);
  const taken = new Map<CalendarWindow, Span>();
  // Those that stand find theirs first, then those that were taken back; the longest overlap goes before.
  for (const cancelled of [false, true])
    pair(
      open.filter((w) => w.cancelled === cancelled),
      ahead,
      taken,
    );
  const placed = new Set(taken.values());
  const fresh = ahead.filter((go) => !placed.has(go));
  const highest = Math.max(0, ...known.map(({ number }) => number));
  return [
    ...known.map((w) => (w.toMs > nowMs ? changed(w, taken.get(w) ?? null, nowMs) : w)),
    ...fresh.map(({ fromMs, toMs }, i) => ({
      ...{ site: step.site, date: step.date, number: highest + i + 1, uid: step.newUid() },
      ...{ fromMs, toMs, sequence: 0, cancelled: false, changedAtMs: nowMs },
    })),
  ];
}

function pair(
  windows: readonly CalendarWindow[],
  gos: readonly Span[],
  taken: Map<CalendarWindow, Span>,
): void {
  const pairs = windows
    .flatMap((window) => gos.map((go) => ({ window, go, ms: overlapMs(window, go) })))
    .filter(({ ms }) => ms > 0)
    .sort((a, b) => b.ms - a.ms || a.window.number - b.window.number || a.go.fromMs - b.go.fromMs);
  const placed = new Set(taken.values());
  for (const { window, go } of pairs) {
    if (taken.has(window) || placed.has(go)) continue;
    taken.set(window, go);
    placed.add(go);
  }
}

const overlapMs = (a: Span, b: Span): number => Math.min(a.toMs, b.toMs) - Math.max(a.fromMs, b.fromMs);

function changed(window: CalendarWindow, go: Span | null, nowMs: number): CalendarWindow {
  if (go === null) return window.cancelled ? window : next(window, { cancelled: true }, nowMs);
  // A beginning that lies behind is not judged any more.
  const hasBegun = !window.cancelled && window.fromMs <= nowMs && go.fromMs <= nowMs;
  const fromMs = hasBegun ? window.fromMs : go.fromMs;
  const isSame = !window.cancelled && window.fromMs === fromMs && window.toMs === go.toMs;
  return isSame ? window : next(window, { fromMs, toMs: go.toMs, cancelled: false }, nowMs);
}

const next = (window: CalendarWindow, change: Partial<CalendarWindow>, nowMs: number): CalendarWindow => ({
  ...window,
  ...change,
  sequence: window.sequence + 1,
  changedAtMs: nowMs,
});
