import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readInterval } from '#sources/nws/interval.ts';

const read = (text: unknown) => {
  const span = { fromMs: Number.NaN, toMs: Number.NaN };
  return readInterval(text, span) ?? [span.fromMs, span.toMs];
};
const HOUR = 3_600_000;
const FROM = Date.UTC(2026, 2, 2, 18);

describe('an interval', () => {
  // Durations seen in recorded grids 2019 to 2026, PT1H to P8DT6H.
  it.each([
    ['PT1H', 1],
    ['PT23H', 23],
    ['P1D', 24],
    ['P1DT6H', 30],
    ['P2DT22H', 70],
    ['P4DT12H', 108],
    ['P7DT14H', 182],
    ['P8DT6H', 198],
    ['PT200H', 200],
    ['PT90M', 1.5],
    ['PT1H30M', 1.5],
    ['PT31536000S', 8760],
    ['P1DT1H1M36S', 25 + 1.6 / 60],
    ['PT0.5S', 0.5 / 3600],
    ['PT0S', 0],
  ])('of %s lasts %d h', (duration, hours) => {
    const [from, to] = read(`2026-03-02T18:00:00+00:00/${duration}`) as number[];
    expect(from).toBe(FROM);
    expect(((to ?? 0) - FROM) / HOUR).toBeCloseTo(hours, 9);
  });

  it.each([
    ['2026-03-02T18:00:00Z/PT6H', 'a start in Z'],
    ['2026-03-02T12:00:00-06:00/PT6H', 'a start with an offset'],
    ['2026-03-02T23:30:00+0530/PT6H', 'an offset without a colon'],
    ['2026-03-02T18:00Z/PT6H', 'a start without seconds'],
    ['2026-03-02T18:00:00+00:00/2026-03-03T00:00:00Z', 'an end in place of a duration'],
    ['2026-03-02T18:00:00+00:00/2026-03-02T18:00:00-06:00', 'an end with an offset'],
  ])('%s is read: %s', (text) => {
    expect(read(text)).toEqual([FROM, FROM + 6 * HOUR]);
  });

  it.each([
    ['2026-03-02T18:00:00+00:00/P1Y', 'years, months or weeks'],
    ['2026-03-02T18:00:00+00:00/P1M', 'years, months or weeks'],
    ['2026-03-02T18:00:00+00:00/P1W', 'years, months or weeks'],
    ['2026-03-02T18:00:00+00:00/P1M2DT3H', 'years, months or weeks'],
    ['2026-03-02T18:00:00+00:00/-PT1H', 'negative duration'],
    ['NOW/PT1H', 'no fixed start'],
    ['2026-03-02T18:00:00+00:00/NOW', 'no fixed end'],
    ['PT1H/2026-03-02T18:00:00+00:00', 'start not read'],
    ['2026-03-02T18:00:00/PT1H', 'start not read'],
    ['2026-02-29T18:00:00+00:00/PT1H', 'start not read'],
    ['2026-13-01T18:00:00+00:00/PT1H', 'start not read'],
    ['2026-03-02T24:00:00+00:00/PT1H', 'start not read'],
    ['2026/03/02T18:00:00+00:00/PT1H', 'start not read'],
    ['2026x03-02T18:00:00+00:00/PT1H', 'start not read'],
    ['2026-03-02T18:00:00+00:00/PT', 'duration not read'],
    ['2026-03-02T18:00:00+00:00/P', 'duration not read'],
    ['2026-03-02T18:00:00+00:00/P1H', 'duration not read'],
    ['2026-03-02T18:00:00+00:00/PT1D', 'duration not read'],
    ['2026-03-02T18:00:00+00:00/PT1M1H', 'duration not read'],
    ['2026-03-02T18:00:00+00:00/PTxH', 'duration not read'],
    ['2026-03-02T18:00:00+00:00/PT1.5H', 'duration not read'],
    ['2026-03-02T18:00:00+00:00/PT1H ', 'duration not read'],
    ['2026-03-02T18:00:00+00:00/PT1H/PT1H', 'duration not read'],
    ['2026-03-02T18:00:00+00:00/', 'end not read'],
    ['2026-03-02T18:00:00+00:00/later', 'end not read'],
    ['2026-03-02T18:00:00+00:00', 'no slash'],
    ['', 'no slash'],
    [null, 'no text'],
    [1_772_474_400, 'no text'],
    [['2026-03-02T18:00:00+00:00/PT1H'], 'no text'],
  ])('%s is refused: %s', (text, reason) => {
    expect(read(text)).toBe(reason);
  });

  it('leaves what it was given alone where it cannot be read', () => {
    const span = { fromMs: 1, toMs: 2 };
    readInterval('2026-03-02T18:00:00+00:00/P1M', span);
    expect(span).toEqual({ fromMs: 1, toMs: 2 });
  });
});

describe('the reference for intervals is Temporal', () => {
  const instants = fc
    .record({
      second: fc.integer({ min: -2_000_000_000, max: 8_000_000_000 }),
      offsetMin: fc.integer({ min: -14 * 60, max: 14 * 60 }),
      whole: fc.boolean(),
      zulu: fc.boolean(),
    })
    .map(({ second, offsetMin, whole, zulu }) => {
      const instant = Temporal.Instant.fromEpochMilliseconds(
        (whole ? Math.floor(second / 3600) * 3600 : second) * 1000,
      );
      if (zulu) return instant.toString();
      const sign = offsetMin < 0 ? '-' : '+';
      const part = (n: number) => String(Math.trunc(Math.abs(n))).padStart(2, '0');
      const offset = whole ? '+00:00' : `${sign}${part(offsetMin / 60)}:${part(offsetMin % 60)}`;
      return instant.toZonedDateTimeISO(offset).toString({ timeZoneName: 'never' });
    });
  const durations = fc
    .record({
      days: fc.option(fc.integer({ min: 0, max: 400 }), { nil: null }),
      hours: fc.option(fc.integer({ min: 0, max: 999 }), { nil: null }),
      minutes: fc.option(fc.integer({ min: 0, max: 9999 }), { nil: null }),
      seconds: fc.option(fc.integer({ min: 0, max: 99_999 }), { nil: null }),
    })
    .filter((d) => Object.values(d).some((n) => n !== null))
    .map(({ days, hours, minutes, seconds }) => {
      const time = [hours, minutes, seconds].map((n, i) => (n === null ? '' : `${n}${'HMS'[i]}`)).join('');
      return `P${days === null ? '' : `${days}D`}${time === '' ? '' : `T${time}`}`;
    });

  it('start and duration agree with it', () => {
    fc.assert(
      fc.property(instants, durations, (start, duration) => {
        const fromMs = Temporal.Instant.from(start).epochMilliseconds;
        const lengthMs = Temporal.Duration.from(duration).total('milliseconds');
        expect(read(`${start}/${duration}`)).toEqual([fromMs, fromMs + lengthMs]);
      }),
      { numRuns: 2000 },
    );
  });

  it('start and end agree with it', () => {
    fc.assert(
      fc.property(instants, instants, (start, end) => {
        const ms = [start, end].map((text) => Temporal.Instant.from(text).epochMilliseconds);
        expect(read(`${start}/${end}`)).toEqual(ms);
      }),
      { numRuns: 1000 },
    );
  });

  it('text that was tampered with is refused, or read as it reads it', () => {
    const spoilt = fc.tuple(
      instants,
      durations,
      fc.nat(40),
      fc.constantFrom(...'0123456789-+:TZPDHMSYW/. ', ''),
    );
    fc.assert(
      fc.property(spoilt, ([start, duration, place, letter]) => {
        const text = `${start}/${duration}`;
        const changed = text.slice(0, place) + letter + text.slice(place + 1);
        const ours = read(changed);
        if (typeof ours === 'string') return;
        const [left, right, ...more] = changed.split('/') as [string, string];
        expect(more).toEqual([]);
        const fromMs = Temporal.Instant.from(left).epochMilliseconds;
        const toMs = right.startsWith('P')
          ? fromMs + Math.floor(Temporal.Duration.from(right).total('milliseconds'))
          : Temporal.Instant.from(right).epochMilliseconds;
        expect(ours).toEqual([fromMs, toMs]);
      }),
      { numRuns: 5000 },
    );
  });
});
