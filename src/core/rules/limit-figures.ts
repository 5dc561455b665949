// The figures of one limit in one hour, as findings and answers show them.

import { boundsOf } from '#core/score/limit.ts';
import type { LimitScores } from '#core/score/score-hours.ts';
import { fractionOf } from '#core/score/tightest.ts';
import { ventilationCategory } from '#core/score/ventilation-category.ts';
import { ELEMENTS } from '#core/series/elements.ts';
import type { HourlySeries } from '#core/series/hourly-series.ts';
import { HOUR_MS, type Span } from '#core/units/time.ts';
import type { Finding, LimitFigures } from './finding.ts';

export interface Scored {
  readonly series: HourlySeries;
  readonly scores: readonly LimitScores[];
}

/** Figures of limit `limitIndex` in hour `hour`, which must have a value. */
export function limitFigures({ series, scores }: Scored, limitIndex: number, hour: number): LimitFigures {
  const score = scores[limitIndex];
  const boundIndex = score?.bound[hour] ?? 0;
  const bound = score ? boundsOf(score.limit)[boundIndex] : null;
  if (!score || !bound) throw new Error(`limit ${limitIndex} has no bound ${boundIndex} in hour ${hour}`);
  const { limit } = score;
  const column = series.columns[limit.element];
  const value = column.values[hour] as number;
  const room = score.room[hour] as number;
  return {
    limitIndex,
    element: limit.element,
    value,
    bound: bound.value,
    boundUnit: bound.unit,
    side: boundIndex < 2 ? 'atLeast' : 'atMost',
    room,
    roomFraction: fractionOf(room, bound.value, ELEMENTS[limit.element].roomScale),
    atMs: series.startMs + hour * HOUR_MS,
    derived: column.derived?.[hour] === 1,
    source: limit.source,
    category: limit.categories ? ventilationCategory(value, limit.categories) : null,
  };
}

/**
 * The same finding with the figures of its worst hour within `span`, for answers about a part of its time; as it was
 * where it is no finding on a limit or does not touch the span.
 */
export function narrowed(scored: Scored, finding: Finding, span: Span): Finding {
  if (finding.code !== 'over-limit' && finding.code !== 'under-limit') return finding;
  const { limitIndex } = finding.figures;
  const room = scored.scores[limitIndex]?.room ?? new Float64Array();
  const hourOf = (ms: number) => (ms - scored.series.startMs) / HOUR_MS;
  const from = Math.max(0, Math.floor(hourOf(Math.max(span.fromMs, finding.fromMs))));
  const to = Math.min(room.length, Math.ceil(hourOf(Math.min(span.toMs, finding.toMs))));
  let worst = -1;
  for (let h = from; h < to; h += 1) {
    if (worst < 0 || (room[h] as number) < (room[worst] as number)) worst = h;
  }
  return worst < 0 ? finding : { ...finding, figures: limitFigures(scored, limitIndex, worst) };
}
