// One limit over the hours that are drawn: what each hour is under it, and the hour that leaves the least room.

import { HOUR_MS, overlaps, type Span } from '#core/units/time.ts';
import type { HoursAnswer } from '#publish/wire.ts';
import { msOf } from './moments.ts';
import type { SiteView } from './site-view.ts';

export type Limit = HoursAnswer['limits'][number];
type Score = HoursAnswer['hours'][number]['scores'][number];

export interface LimitHour extends Span {
  /** As band, lanes and table call it. */
  readonly name: string;
  readonly score: Score;
  /** Null: within the limit, or the limit does not apply. */
  readonly beyond: { readonly verdict: 'hold' | 'stop'; readonly side: 'atLeast' | 'atMost' } | null;
}

export interface LaneFacts {
  readonly limit: Limit;
  readonly hours: readonly LimitHour[];
  /** While wood goes in; on a day without a burn, in its open time. Null where nothing has a value there. */
  readonly least: LimitHour | null;
}

/** Hours that count for the room: those of the burn, else those that are open, else all. */
export interface Focus {
  readonly span: Span;
  readonly shut: readonly Span[];
}

export function laneFacts(
  { hours, plan }: SiteView,
  names: readonly string[],
  { span, shut }: Focus,
): LaneFacts[] {
  const shown = hours.hours.flatMap((hour, i) => {
    const fromMs = msOf(hour.from);
    const at = { fromMs, toMs: fromMs + HOUR_MS, name: names[i] ?? '' };
    return overlaps(at, span) ? [{ ...at, hour }] : [];
  });
  const loading = loadingOf(plan);
  const open = shown.filter((h) => !shut.some((s) => s.fromMs <= h.fromMs && h.toMs <= s.toMs));
  const isOpen = new Set((open.length > 0 ? open : shown).map(({ fromMs }) => fromMs));
  return hours.limits.map((limit, l) => {
    const own = shown.flatMap(({ hour, ...at }): LimitHour[] => {
      const score = hour.scores[l];
      return score === undefined ? [] : [{ ...at, score, beyond: beyondOf(score, limit) }];
    });
    const counted = own.filter((h) => (loading === null ? isOpen.has(h.fromMs) : overlaps(h, loading)));
    return { limit, hours: own, least: leastOf(counted) };
  });
}

/** From light-up to the last charge; null where there is no burn. */
export const loadingOf = ({ lightUp, lastCharge }: SiteView['plan']): Span | null =>
  lightUp === null || lastCharge === null ? null : { fromMs: msOf(lightUp), toMs: msOf(lastCharge) };

function beyondOf({ class: found, applies, bound, value }: Score, limit: Limit): LimitHour['beyond'] {
  if (!applies || (found !== 'hold' && found !== 'stop')) return null;
  const isMost = limit.atMost?.[found] === bound;
  const isLeast = limit.atLeast?.[found] === bound;
  const isAbove = isMost && isLeast ? (value ?? 0) >= (bound ?? 0) : isMost;
  return { verdict: found, side: isAbove ? 'atMost' : 'atLeast' };
}

function leastOf(hours: readonly LimitHour[]): LimitHour | null {
  let least: LimitHour | null = null;
  for (const hour of hours) {
    const { applies, room } = hour.score;
    if (applies && room !== null && room < (least?.score.room ?? Number.POSITIVE_INFINITY)) least = hour;
  }
  return least;
}

/** First what ends the charging, then what holds until light-up, or what bars a day; then by the room there is. */
export function inOrder(facts: readonly LaneFacts[], { causes, wouldChange }: SiteView['plan']): LaneFacts[] {
  const deciding = [...causes.lastCharge, ...causes.lightUp, ...wouldChange.moves, ...wouldChange.barredBy];
  const place = ({ limit }: LaneFacts): number => {
    // A missing element is nobody's figure.
    const found = deciding.findIndex(
      (r) => r.element === limit.element && (r.source ?? limit.source) === limit.source,
    );
    return found < 0 ? deciding.length : found;
  };
  const room = ({ least }: LaneFacts): number => least?.score.roomFraction ?? Number.POSITIVE_INFINITY;
  return [...facts].sort((a, b) => place(a) - place(b) || room(a) - room(b) || a.limit.limit - b.limit.limit);
}
