// Instants are epoch milliseconds; spans are half-open. Local time lives in local-time.ts, not here.

export const MINUTE_MS = 60_000;
export const HOUR_MS = 3_600_000;
export const DAY_MS = 86_400_000;

/** Half-open span of time `[fromMs, toMs)`, epoch milliseconds. */
export interface Span {
  readonly fromMs: number;
  readonly toMs: number;
}

export const floorToHour = (ms: number): number => Math.floor(ms / HOUR_MS) * HOUR_MS;

export const ceilToHour = (ms: number): number => Math.ceil(ms / HOUR_MS) * HOUR_MS;

export const overlaps = (a: Span, b: Span): boolean => a.fromMs < b.toMs && b.fromMs < a.toMs;

/** The part that both spans share, or null where they share none. */
export function intersect(a: Span, b: Span): Span | null {
  const fromMs = Math.max(a.fromMs, b.fromMs);
  const toMs = Math.min(a.toMs, b.toMs);
  return fromMs < toMs ? { fromMs, toMs } : null;
}

/**
 * Span of something official whose times may be lacking: open where a time is not given or no number, and open to the
 * end where the end does not come after the beginning. Nothing official vanishes by a slip.
 */
export function openSpan(fromMs: number | null, toMs: number | null): Span {
  const from = fromMs === null || Number.isNaN(fromMs) ? Number.NEGATIVE_INFINITY : fromMs;
  const to = toMs === null || Number.isNaN(toMs) ? Number.POSITIVE_INFINITY : toMs;
  return { fromMs: from, toMs: to > from ? to : Number.POSITIVE_INFINITY };
}

/** Sorts and joins spans that touch or overlap; empty and reversed spans vanish. */
export function unite(spans: readonly Span[]): Span[] {
  const sorted = inOrder(spans)
    ? spans
    : spans.filter((s) => s.fromMs < s.toMs).sort((a, b) => a.fromMs - b.fromMs);
  const united: Span[] = [];
  let fromMs = Number.NaN;
  let toMs = Number.NaN;
  for (const span of sorted) {
    if (span.fromMs <= toMs) {
      if (span.toMs > toMs) toMs = span.toMs;
      continue;
    }
    if (fromMs < toMs) united.push({ fromMs, toMs });
    ({ fromMs, toMs } = span);
  }
  if (fromMs < toMs) united.push({ fromMs, toMs });
  return united;
}

/** True where no span is empty and each begins no earlier than the one before. */
function inOrder(spans: readonly Span[]): boolean {
  let beforeMs = Number.NEGATIVE_INFINITY;
  for (const span of spans) {
    if (span.fromMs < beforeMs || span.fromMs >= span.toMs) return false;
    beforeMs = span.fromMs;
  }
  return true;
}

/** What `whole` has outside of `holes` (any order, may overlap), in order of time. */
export const subtract = (whole: Span, holes: readonly Span[]): Span[] => subtractUnited(whole, unite(holes));

/** The same for holes that `unite` has put in order, where many wholes meet the same holes. */
export function subtractUnited(whole: Span, holes: readonly Span[]): Span[] {
  const left: Span[] = [];
  let { fromMs } = whole;
  for (const hole of holes) {
    if (hole.toMs <= fromMs) continue;
    if (hole.fromMs >= whole.toMs) break;
    if (hole.fromMs > fromMs) left.push({ fromMs, toMs: hole.fromMs });
    fromMs = hole.toMs;
  }
  if (fromMs < whole.toMs) left.push({ fromMs, toMs: whole.toMs });
  return left;
}
