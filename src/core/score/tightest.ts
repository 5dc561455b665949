// The tightest limit of an hour, a window or a day: the least room as a fraction of its bound.

import { ELEMENTS } from '#core/series/elements.ts';
import { type Bound, boundsOf } from './limit.ts';
import { CLASS, CLASS_NAMES, type ClassName, type LimitScores } from './score-hours.ts';

export interface HourScore {
  /** Which of the site's limits. */
  readonly limitIndex: number;
  readonly hour: number;
  readonly class: ClassName;
  /** Signed room [core unit], and as a fraction of the bound. */
  readonly room: number;
  readonly roomFraction: number;
  readonly bound: Bound;
  readonly boundIndex: number;
}

/** Score of one hour under one limit; null where the value is missing. */
export function hourScore(
  scores: readonly LimitScores[],
  limitIndex: number,
  hour: number,
): HourScore | null {
  const score = scores[limitIndex];
  if (!score) return null;
  const code = score.classes[hour];
  if (code === undefined || code === CLASS.missing) return null;
  const boundIndex = score.bound[hour] as number;
  const bound = boundsOf(score.limit)[boundIndex];
  if (!bound) return null;
  const room = score.room[hour] as number;
  const roomFraction = fractionOf(room, bound.value, ELEMENTS[score.limit.element].roomScale);
  return { limitIndex, hour, class: CLASS_NAMES[code] as ClassName, room, roomFraction, bound, boundIndex };
}

/** Room as a fraction of the bound; of the element's scale where the bound is zero. */
export const fractionOf = (room: number, bound: number, scale: number): number =>
  room / (Math.abs(bound) > 1e-9 ? Math.abs(bound) : scale);

/**
 * The least room as a fraction over hours `from` … `to` (exclusive), of the limits that apply.
 * `applies` says whether a limit counts in an hour. Null where nothing has a value.
 */
export function tightestOver(
  scores: readonly LimitScores[],
  from: number,
  to: number,
  applies: (limitIndex: number, hour: number) => boolean,
): HourScore | null {
  let least = Number.POSITIVE_INFINITY;
  let which = -1;
  let when = -1;
  for (let l = 0; l < scores.length; l += 1) {
    const { limit, room, bound, classes } = scores[l] as LimitScores;
    const scale = ELEMENTS[limit.element].roomScale;
    const values = boundsOf(limit).map((b) => b?.value ?? 0);
    for (let h = Math.max(0, from); h < Math.min(to, room.length); h += 1) {
      if (classes[h] === CLASS.missing) continue;
      const fraction = fractionOf(room[h] as number, values[bound[h] as number] as number, scale);
      if (fraction < least && applies(l, h)) {
        least = fraction;
        which = l;
        when = h;
      }
    }
  }
  return which < 0 ? null : hourScore(scores, which, when);
}
