// Which of many reasons a page tells, and in which order. Each thing is told once, by its gravest figure.

import { FOLLOWING, MINOR, SHUT } from '#core/rules/codes-that-follow.ts';
import type { PlanAnswer, Reason, WindowsAnswer } from '#publish/wire.ts';
import { msOf } from './moments.ts';

const GRAVITY: Readonly<Record<Reason['verdict'], number>> = { go: 0, hold: 1, stop: 2 };

export interface Stretch {
  readonly fromMs: number;
  readonly toMs: number;
}

/** Dark and off-shift time, in order, joined where it touches. */
export function shutTimes(windows: WindowsAnswer['windows']): Stretch[] {
  const found = windows.flatMap((w) => w.reasons.filter((r) => SHUT.has(r.code)));
  const sorted = found
    .map((r) => ({ fromMs: msOf(r.from), toMs: msOf(r.to) }))
    .sort((a, b) => a.fromMs - b.fromMs);
  const joined: { fromMs: number; toMs: number }[] = [];
  for (const stretch of sorted) {
    const last = joined.at(-1);
    if (last && stretch.fromMs <= last.toMs) last.toMs = Math.max(last.toMs, stretch.toMs);
    else joined.push(stretch);
  }
  return joined;
}

/** What the reason is about; two reasons about the same differ in figures only. */
const topicOf = (r: Reason): string =>
  r.element === undefined ? r.text : [r.code, r.element, r.side, r.source].join('|');

/** One reason per topic, the gravest of each, gravest first. */
export function toldOnce(reasons: readonly Reason[]): Reason[] {
  const sorted = [...reasons].sort(
    (a, b) => GRAVITY[b.verdict] - GRAVITY[a.verdict] || (a.roomFraction ?? 0) - (b.roomFraction ?? 0),
  );
  const seen = new Set<string>();
  return sorted.filter((r) => {
    const isNew = !seen.has(topicOf(r)) && !seen.has(r.text);
    seen.add(topicOf(r)).add(r.text);
    return isNew;
  });
}

/** What holds at `nowMs` within its window, gravest first. */
export const reasonsNow = (now: WindowsAnswer['windows'][number] | null, nowMs: number): Reason[] =>
  toldOnce(
    now?.reasons.filter((r) => r.verdict !== 'go' && msOf(r.from) <= nowMs && nowMs < msOf(r.to)) ?? [],
  );

/** Why a day has no go: what bars it, then what breaks limits in the working time; the clock's own reasons if no other. */
export function whyNoGo(
  plan: PlanAnswer,
  windows: WindowsAnswer['windows'],
): { barring: Reason[]; others: Reason[] } {
  const barring = toldOnce(ofTheDay(plan.wouldChange.barredBy)).filter((r) => !FOLLOWING.has(r.code));
  if (barring.some((r) => r.code === 'off-shift')) return { barring, others: [] };
  const told = new Set(barring.map((r) => r.text));
  const shut = shutTimes(windows);
  const all = windows.flatMap((w) => w.reasons).filter((r) => r.verdict !== 'go' && !told.has(r.text));
  const weighty = all.filter((r) => !MINOR.has(r.code) && !liesWithin(r, shut));
  const kept = weighty.length > 0 || barring.length > 0 ? weighty : all;
  const others = toldOnce(kept).sort(
    (a, b) => GRAVITY[b.verdict] - GRAVITY[a.verdict] || openMs(b, shut) - openMs(a, shut),
  );
  return { barring, others };
}

/** How much of the time in which somebody may burn at all a reason takes [ms]. */
function openMs(r: Reason, shut: readonly Stretch[]): number {
  const [fromMs, toMs] = [msOf(r.from), msOf(r.to)];
  const lost = shut.reduce(
    (sum, s) => sum + Math.max(0, Math.min(toMs, s.toMs) - Math.max(fromMs, s.fromMs)),
    0,
  );
  return toMs - fromMs - lost;
}

const liesWithin = (r: Reason, stretches: readonly Stretch[]): boolean =>
  stretches.some((s) => s.fromMs <= msOf(r.from) && msOf(r.to) <= s.toMs);

/** Where nobody is on shift, the weather is no reason; neither is the dark that every day brings. */
function ofTheDay(reasons: readonly Reason[]): Reason[] {
  const isOff = reasons.some((r) => r.code === 'off-shift');
  return reasons.filter((r) => !isOff || BANS.has(r.code)).sort((a, b) => rankOf(a) - rankOf(b));
}

const BANS = new Set(['off-shift', 'official-alert', 'local-order', 'authority-stop', 'season-ban']);
/** What an authority says stands before everything. */
const rankOf = (r: Reason): number => Number(!BANS.has(r.code)) + Number(r.code !== 'authority-stop');

/** The one sentence for a day without a go, from the plan alone. */
export function firstReason(plan: PlanAnswer): string | null {
  const barring = ofTheDay(plan.wouldChange.barredBy);
  const unknown = plan.cannotSay ? barring.find((r) => r.unknown) : undefined;
  const once = toldOnce(barring);
  const bars = unknown ?? once.find((r) => !FOLLOWING.has(r.code));
  const follows = once.find((r) => !MINOR.has(r.code)) ?? once[0];
  const tightest = plan.tightest === null || plan.tightest.class === 'go' ? null : plan.tightest.text;
  return bars?.text ?? tightest ?? follows?.text ?? plan.wouldChange.moves[0]?.text ?? null;
}

/** Advice: what was found that bars nothing. */
export const adviceOf = (windows: WindowsAnswer['windows']): Reason[] =>
  toldOnce(windows.flatMap((w) => w.reasons.filter((r) => r.verdict === 'go' && r.code !== 'within-limits')));

/** True where a hold rests on nothing but ignorance. */
export const heldUnknown = (reasons: readonly Reason[]): boolean =>
  reasons.filter((r) => r.verdict === 'hold').every((r) => r.unknown);
