// The figures of one limit in one hour, as findings and answers show them.

import { boundsOf } from '#core/score/limit.ts';
import type { LimitScores } from '#core/score/score-hours.ts';
import { fractionOf } from '#core/score/tightest.ts';
import { ventilationCategory } from '#core/score/ventilation-category.ts';
import { ELEMENTS } from '#core/series/elements.ts';
import type { HourlySeries } from '#core/series/hourly-series.ts';
import { HOUR_MS } from '#core/units/time.ts';
import type { LimitFigures } from './finding.ts';

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
