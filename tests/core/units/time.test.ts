import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ceilToHour,
  floorToHour,
  HOUR_MS,
  intersect,
  openSpan,
  overlaps,
  type Span,
  subtract,
  unite,
} from '#core/units/time.ts';

const span = (fromMs: number, toMs: number): Span => ({ fromMs, toMs });
const spans = fc.array(
  fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 60 })).map(([a, b]) => span(a, b)),
  { maxLength: 12 },
);
const covers = (all: readonly Span[], t: number): boolean => all.some((s) => s.fromMs <= t && t < s.toMs);

describe('half-open spans', () => {
  it('that only touch do not overlap and share nothing', () => {
    expect(overlaps(span(0, 5), span(5, 9))).toBe(false);
    expect(intersect(span(0, 5), span(5, 9))).toBeNull();
    expect(intersect(span(0, 6), span(5, 9))).toEqual(span(5, 6));
  });

  it('that touch are united; empty and reversed ones vanish', () => {
    expect(unite([span(5, 9), span(0, 5), span(12, 12), span(20, 15)])).toEqual([span(0, 9)]);
  });

  it('united cover what they covered before, in order and apart', () => {
    fc.assert(
      fc.property(spans, (given) => {
        const united = unite(given);
        for (let t = 0; t <= 60; t += 1) expect(covers(united, t)).toBe(covers(given, t));
        for (let i = 1; i < united.length; i += 1)
          expect(united[i]?.fromMs).toBeGreaterThan(united[i - 1]?.toMs ?? Number.NaN);
      }),
    );
  });

  it('taken away leave exactly what they did not cover', () => {
    fc.assert(
      fc.property(
        spans,
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: 31, max: 60 }),
        (holes, fromMs, toMs) => {
          const left = subtract(span(fromMs, toMs), holes);
          for (let t = 0; t <= 60; t += 1)
            expect(covers(left, t)).toBe(t >= fromMs && t < toMs && !covers(holes, t));
        },
      ),
    );
  });
});

describe('whole hours', () => {
  it('are found below and above, before 1970 too', () => {
    expect([floorToHour(HOUR_MS + 1), floorToHour(HOUR_MS), floorToHour(-1)]).toEqual([
      HOUR_MS,
      HOUR_MS,
      -HOUR_MS,
    ]);
    expect([ceilToHour(HOUR_MS + 1), ceilToHour(HOUR_MS)]).toEqual([2 * HOUR_MS, HOUR_MS]);
  });
});

describe('a span that may be open', () => {
  it('has no beginning or no end where none is given', () => {
    expect(openSpan(null, 5)).toEqual(span(Number.NEGATIVE_INFINITY, 5));
    expect(openSpan(5, null)).toEqual(span(5, Number.POSITIVE_INFINITY));
    expect(openSpan(5, 9)).toEqual(span(5, 9));
  });

  it('is open too where what is given cannot be trusted: it never vanishes by a slip', () => {
    expect(openSpan(5, 5)).toEqual(span(5, Number.POSITIVE_INFINITY));
    expect(openSpan(9, 5)).toEqual(span(9, Number.POSITIVE_INFINITY));
    expect(openSpan(5, Number.NaN)).toEqual(span(5, Number.POSITIVE_INFINITY));
    expect(openSpan(Number.NaN, Number.NaN)).toEqual(
      span(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY),
    );
  });
});
