// Scores → findings: runs of hours in one class of one limit, and the positive word that every limit was met.

import { CLASS, type LimitScores } from '#core/score/score-hours.ts';
import { intersect, type Span, subtractUnited, unite } from '#core/units/time.ts';
import { type Finding, finding } from './finding.ts';
import { limitFigures } from './limit-figures.ts';
import { hoursSpan, judgedHours, type RuleContext, spansOfWhen } from './rule.ts';

/**
 * `over-limit` and `under-limit` (hold or stop) per run of hours with the same broken bound, with the figures of the
 * worst hour; `within-limits` (go) where every limit that applies was judged and met. Nothing is go without it.
 */
export function withinLimits(context: RuleContext): readonly Finding[] {
  const findings: Finding[] = [];
  const { first, beyond } = judgedHours(context);
  for (let l = 0; l < context.scores.length; l += 1) {
    const scores = context.scores[l] as LimitScores;
    const whenSpans = spansOfWhen(scores.limit.when, context.calendar);
    for (const run of brokenRuns(scores, first, beyond)) {
      const figures = limitFigures(context, l, run.worst);
      const span = hoursSpan(context.series, run.from, run.to);
      const verdict = scores.classes[run.worst] === CLASS.stop ? 'stop' : 'hold';
      const code = figures.side === 'atMost' ? 'over-limit' : 'under-limit';
      for (const part of clip(span, whenSpans)) findings.push(finding(code, verdict, part, figures));
    }
  }
  for (const span of metSpans(context, first, beyond))
    findings.push(finding('within-limits', 'go', span, {}));
  return findings;
}

interface Run {
  readonly from: number;
  readonly to: number;
  /** The hour with the least room. */
  readonly worst: number;
}

function brokenRuns(scores: LimitScores, first: number, beyond: number): Run[] {
  const { classes, bound, room } = scores;
  const runs: Run[] = [];
  let h = first;
  while (h < beyond) {
    const name = classes[h];
    if (name !== CLASS.hold && name !== CLASS.stop) {
      h += 1;
      continue;
    }
    const from = h;
    let worst = h;
    while (h < beyond && classes[h] === name && bound[h] === bound[from]) {
      if ((room[h] as number) < (room[worst] as number)) worst = h;
      h += 1;
    }
    runs.push({ from, to: h, worst });
  }
  return runs;
}

/** Spans in which every limit that applies is in class go. None where there are no limits at all. */
function metSpans(context: RuleContext, first: number, beyond: number): Span[] {
  const always = context.scores.filter((s) => s.limit.when === 'always');
  const sometimes = context.scores.filter((s) => s.limit.when !== 'always');
  if (context.scores.length === 0) return [];
  const met = runsInGo(context, always, first, beyond);
  // What no limit judges is never met: limits for the day alone leave the night unjudged.
  const judged = always.length > 0 ? met : met.flatMap((run) => clip(run, judgedSpans(context)));
  const whole = hoursSpan(context.series, first, beyond);
  const broken = sometimes.flatMap((s) => {
    const notGo = subtractUnited(whole, runsInGo(context, [s], first, beyond));
    return notGo.flatMap((span) => clip(span, spansOfWhen(s.limit.when, context.calendar)));
  });
  const holes = unite(broken);
  return holes.length === 0 ? judged : judged.flatMap((run) => subtractUnited(run, holes));
}

/** When some limit for the day or for the night applies. */
const judgedSpans = ({ scores, calendar }: RuleContext): Span[] =>
  unite(scores.flatMap((s) => spansOfWhen(s.limit.when, calendar) ?? []));

/** Runs of hours in which all the limits given are in class go. */
function runsInGo(
  context: RuleContext,
  scores: readonly LimitScores[],
  first: number,
  beyond: number,
): Span[] {
  const inGo = (hour: number): boolean => {
    for (const { classes } of scores) if (classes[hour] !== CLASS.go) return false;
    return true;
  };
  const spans: Span[] = [];
  let from = first;
  for (let h = first; h <= beyond; h += 1) {
    if (h < beyond && inGo(h)) continue;
    if (h > from) spans.push(hoursSpan(context.series, from, h));
    from = h + 1;
  }
  return spans;
}

function clip(span: Span, within: readonly Span[] | null): Span[] {
  if (within === null) return [span];
  return within.map((w) => intersect(span, w)).filter((s) => s !== null);
}
