import { describe, expect, it } from 'vitest';
import {
  addDays,
  clockPartsAt,
  clockTimeMs,
  dayNameOf,
  daysBetween,
  isLocalDate,
  isTimeZone,
  localDateAt,
  parseInstantMs,
  rfc3339,
  startOfDayMs,
} from '#core/units/local-time.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { instant } from '../../builders/time.ts';

const hoursOf = (date: string, zone: string): number =>
  (startOfDayMs(addDays(date, 1), zone) - startOfDayMs(date, zone)) / HOUR_MS;

describe('the length of a local day', () => {
  // US clock changes: second Sunday of March and first of November (Energy Policy Act of 2005; docs/sources.md H, J.8
  // rows 136 and 137). Arizona, Hawaii, Puerto Rico and Guam keep one time all year.
  it.each([
    ['America/New_York', '2024-03-10', 23],
    ['America/New_York', '2024-11-03', 25],
    ['America/New_York', '2026-03-08', 23],
    ['America/New_York', '2026-11-01', 25],
    ['America/Anchorage', '2026-03-08', 23],
    ['America/Adak', '2026-11-01', 25],
    ['America/Phoenix', '2026-03-08', 24],
    ['America/Phoenix', '2026-11-01', 24],
    ['America/Puerto_Rico', '2026-03-08', 24],
    ['Pacific/Guam', '2026-11-01', 24],
    ['Pacific/Honolulu', '2026-03-08', 24],
    ['Asia/Kolkata', '2026-03-08', 24],
    ['Australia/Adelaide', '2026-04-05', 25], // first Sunday of April, from memory
    ['Australia/Adelaide', '2026-10-04', 23], // first Sunday of October, from memory
    ['Australia/Lord_Howe', '2026-04-05', 24.5], // half an hour of summer time, from memory
  ])('%s on %s has %d hours', (zone, date, hours) => {
    expect(hoursOf(date, zone)).toBe(hours);
  });

  it('the same instant is another date on the two sides of the date line', () => {
    const ms = instant('2026-03-02T12:30:00Z');
    expect(localDateAt(ms, 'Pacific/Guam')).toBe('2026-03-02');
    expect(localDateAt(ms + 2 * HOUR_MS, 'Pacific/Guam')).toBe('2026-03-03');
    expect(localDateAt(ms + 2 * HOUR_MS, 'Pacific/Pago_Pago')).toBe('2026-03-02');
  });
});

describe('a clock time on a date', () => {
  it('that the spring change skips moves forward by the gap (RFC 5545, 3.3.5)', () => {
    const ms = clockTimeMs('2024-03-10', '02:30', 'America/New_York');
    expect(ms).toBe(instant('2024-03-10T03:30:00-04:00'));
    expect(clockTimeMs('2024-03-10', '02:30', 'America/New_York', 'later')).toBe(ms);
  });

  it('that the autumn change doubles is the earlier or the later as asked (J.8 row 137)', () => {
    expect(clockTimeMs('2024-11-03', '01:30', 'America/New_York')).toBe(instant('2024-11-03T01:30:00-04:00'));
    expect(clockTimeMs('2024-11-03', '01:30', 'America/New_York', 'later')).toBe(
      instant('2024-11-03T01:30:00-05:00'),
    );
  });

  it('that occurs once is the same either way', () => {
    for (const zone of ['America/Adak', 'Asia/Kolkata', 'Pacific/Guam']) {
      expect(clockTimeMs('2026-05-05', '08:15', zone, 'later')).toBe(
        clockTimeMs('2026-05-05', '08:15', zone, 'earlier'),
      );
    }
  });

  it('of a half-hour zone is 5:30 ahead of UTC in India', () => {
    expect(clockTimeMs('2026-03-02', '08:00', 'Asia/Kolkata')).toBe(instant('2026-03-02T02:30:00Z'));
    expect(clockPartsAt(instant('2026-03-02T02:45:00Z'), 'Asia/Kolkata')).toEqual({
      date: '2026-03-02',
      hour: 8,
      minute: 15,
    });
  });

  it('at midnight of a day that begins at one is its first instant', () => {
    // Havana skips the midnight of its spring change; second Sunday of March, from memory.
    expect(startOfDayMs('2026-03-08', 'America/Havana')).toBe(
      clockTimeMs('2026-03-08', '00:00', 'America/Havana'),
    );
    expect(clockPartsAt(startOfDayMs('2026-03-08', 'America/Havana'), 'America/Havana').hour).toBe(1);
  });
});

describe('dates', () => {
  it('know their day of the week, over the turn of the year too', () => {
    expect(['2026-03-02', '2026-03-08', '2024-02-29', '2027-01-01'].map(dayNameOf)).toEqual([
      'mon',
      'sun',
      'thu',
      'fri',
    ]);
  });

  it('count on over months and leap days', () => {
    expect([addDays('2024-02-28', 1), addDays('2026-12-31', 1), addDays('2026-03-01', -1)]).toEqual([
      '2024-02-29',
      '2027-01-01',
      '2026-02-28',
    ]);
    expect([daysBetween('2026-02-27', '2026-03-02'), daysBetween('2026-03-02', '2026-02-27')]).toEqual([
      3, -3,
    ]);
    expect(daysBetween('2026-01-01', '2026-12-31')).toBe(364);
  });

  it.each([
    '2026-02-29',
    '2026-13-01',
    '2026-3-2',
    '20260302',
    '2026-03-02T00:00',
    '',
    'tomorrow',
    '2026-03-02[u-ca=hebrew]',
  ])('%s is no date', (text) => expect(isLocalDate(text)).toBe(false));

  it('2024-02-29 is one', () => expect(isLocalDate('2024-02-29')).toBe(true));
});

describe('zone names', () => {
  it.each(['America/Chicago', 'UTC', 'Pacific/Guam', 'Asia/Kolkata'])('%s is known', (zone) =>
    expect(isTimeZone(zone)).toBe(true),
  );

  it.each(['', 'America/Nowhere', 'Chicago', 'local', '2026-03-02T00:00Z[America/Chicago]'])(
    '%s is no zone',
    (zone) => {
      expect(isTimeZone(zone)).toBe(false);
    },
  );

  it.each(['-06:00', '+0530'])(
    'a bare offset %s is no zone: it would be an hour wrong for half of the year',
    (zone) => {
      expect(isTimeZone(zone)).toBe(false);
    },
  );
});

describe('instants as text', () => {
  it('carry the offset of their zone and season', () => {
    expect(rfc3339(instant('2026-07-01T12:00:00Z'), 'America/New_York')).toBe('2026-07-01T08:00:00-04:00');
    expect(rfc3339(instant('2026-12-01T12:00:00Z'), 'America/New_York')).toBe('2026-12-01T07:00:00-05:00');
    expect(rfc3339(instant('2026-12-01T12:00:00Z') + 999, 'Asia/Kolkata')).toBe('2026-12-01T17:30:00+05:30');
  });

  it.each(['2026-03-02T12:00:00', '2026-03-02', 'now', '', '2026-03-02T25:00:00Z', '2026-02-30T00:00:00Z'])(
    '%s names no instant',
    (text) => {
      expect(parseInstantMs(text)).toBeNull();
    },
  );

  it('with different offsets are the same instant', () => {
    expect(parseInstantMs('2026-03-02T18:00:00+00:00')).toBe(parseInstantMs('2026-03-02T12:00:00-06:00'));
  });
});
