// What would change a day: the move of a value that would end its go, or the moves that its nearest hour needs.

import { FOLLOWING, SHUT } from '#core/rules/codes-that-follow.ts';
import type { Finding } from '#core/rules/finding.ts';
import type { RuleContext } from '#core/rules/rule.ts';
import { boundsOf } from '#core/score/limit.ts';
import { CLASS, type LimitScores } from '#core/score/score-hours.ts';
import { fractionOf, type HourScore, hourScore } from '#core/score/tightest.ts';
import { ELEMENTS } from '#core/series/elements.ts';
import { HOUR_MS, overlaps, type Span } from '#core/units/time.ts';
import { type Window, windowAt } from '#core/windows/find-windows.ts';
import type { Move, WouldChange } from './plan.ts';
import { appliesIn } from './tightest-in.ts';

export interface DayFacts {
  readonly windows: readonly Window[];
  readonly working: readonly Span[];
  readonly goSpan: Span;
  readonly isGo: boolean;
  readonly tightest: HourScore | null;
  /** Light-up, or the beginning of a day without one. */
  readonly lightUpMs: number;
}

/** Bars nothing of itself. */
const isMinor = ({ code }: Finding): boolean => FOLLOWING.has(code) || SHUT.has(code);

export function wouldChange(context: RuleContext, day: DayFacts): WouldChange {
  const moves = day.isGo ? moveThatEnds(context, day) : movesThatAreNeeded(context, day);
  return {
    moves,
    barredBy: day.isGo ? [] : barringFindings(day, moves.length === 0),
    next: nextChange(context, day),
  };
}

function moveThatEnds({ scores }: RuleContext, { tightest }: DayFacts): Move[] {
  if (tightest === null) return [];
  const limit = scores[tightest.limitIndex]?.limit;
  const bounds = limit ? boundsOf(limit) : [];
  const isHold = tightest.boundIndex === 1 || tightest.boundIndex === 2;
  const towards = isHold || bounds[tightest.boundIndex] === null ? 'hold' : 'stop';
  return [{ score: tightest, moveBy: Math.abs(tightest.room), towards }];
}

/** The hour of the working time whose broken limits lie nearest to go, and all that it needs. */
function movesThatAreNeeded(context: RuleContext, { working }: DayFacts): Move[] {
  let best: { moves: Move[]; farthest: number } | null = null;
  for (const hour of hoursWithin(context, working)) {
    const moves = movesOf(context, hour);
    if (moves === null || moves.length === 0) continue;
    const farthest = Math.max(...moves.map((m) => moveFraction(context, m)));
    if (best === null || farthest < best.farthest) best = { moves, farthest };
  }
  return best?.moves ?? [];
}

function movesOf(context: RuleContext, hour: number): Move[] | null {
  const { scores } = context;
  const moves: Move[] = [];
  for (let l = 0; l < scores.length; l += 1) {
    const { classes, limit, room } = scores[l] as LimitScores;
    if (!appliesIn(context, l, hour)) continue;
    if (classes[hour] === CLASS.missing) return null;
    if (classes[hour] === CLASS.go) continue;
    const score = hourScore(scores, l, hour);
    if (score === null) continue;
    const [lowStop, lowHold, highHold, highStop] = boundsOf(limit);
    const goBound = score.boundIndex < 2 ? (lowHold ?? lowStop) : (highHold ?? highStop);
    const gap = goBound ? Math.abs(goBound.value - score.bound.value) : 0;
    moves.push({ score, moveBy: Math.abs(room[hour] as number) + gap, towards: 'go' });
  }
  return moves;
}

function moveFraction({ scores }: RuleContext, move: Move): number {
  const element = scores[move.score.limitIndex]?.limit.element;
  return fractionOf(move.moveBy, move.score.bound.value, element ? ELEMENTS[element].roomScale : 1);
}

function hoursWithin({ series }: RuleContext, spans: readonly Span[]): number[] {
  const hours: number[] = [];
  for (const span of spans) {
    const from = Math.max(0, Math.floor((span.fromMs - series.startMs) / HOUR_MS));
    const to = Math.min(series.hours, Math.ceil((span.toMs - series.startMs) / HOUR_MS));
    for (let h = from; h < to; h += 1) hours.push(h);
  }
  return hours;
}

/** What bars the day; where nothing else does and no value needs to move, also what only follows, such as a short run. */
function barringFindings(day: DayFacts, alsoMinor: boolean): Finding[] {
  const barring = touching(day, false);
  return barring.length > 0 || !alsoMinor ? barring : touching(day, true);
}

function touching({ windows, working }: DayFacts, minor: boolean): Finding[] {
  const seen = new Set<Finding>();
  for (const w of windows) {
    for (const f of w.findings) {
      if (f.verdict === 'go') continue;
      const bars = working.length === 0 ? f.verdict === 'stop' : working.some((span) => overlaps(span, f));
      if (bars && (minor || working.length === 0 || !isMinor(f))) seen.add(f);
    }
  }
  return [...seen];
}

/** From now, or from where the day's answer begins: the light-up, or the beginning of a day without one. */
function nextChange({ nowMs }: RuleContext, { windows, lightUpMs }: DayFacts): WouldChange['next'] {
  const fromMs = Math.max(nowMs, lightUpMs);
  const current = windowAt(windows, fromMs);
  if (current === null) return null;
  const next = windows.find((w) => w.fromMs >= current.toMs && w.verdict !== current.verdict);
  return next
    ? { atMs: next.fromMs, from: current.verdict, to: next.verdict, findings: next.findings }
    : null;
}
