import { describe, expect, it } from 'vitest';
import { localDaysFrom } from '#core/site/local-day.ts';
import { shiftsOn, type WorkedShift } from '#core/site/shift.ts';
import type { Shift } from '#core/site/site.ts';
import { shiftOf } from '../../builders/site.ts';
import { clockOf, instant } from '../../builders/time.ts';

const NEW_YORK = 'America/New_York';
/** Shifts that begin on `count` days from `date` on. */
const worked = (shifts: readonly Shift[], date: string, count = 1, zone = NEW_YORK): WorkedShift[] => {
  const days = localDaysFrom(date, count + 1, zone);
  return shiftsOn(shifts, days, zone).filter((s) => s.fromMs < (days[count]?.fromMs ?? 0));
};
const told = (spans: readonly { fromMs: number; toMs: number }[], zone = NEW_YORK): string[] =>
  spans.map(({ fromMs, toMs }) => `${clockOf(fromMs, zone)} to ${clockOf(toMs, zone)}`);

describe('shifts', () => {
  it('are worked on their days only', () => {
    const weekdays = shiftOf('07:00', '17:00', ['mon', 'tue', 'wed', 'thu', 'fri']);
    // 2026-03-05 is a Thursday.
    expect(worked([weekdays], '2026-03-05', 5).map((w) => w.date)).toEqual([
      '2026-03-05',
      '2026-03-06',
      '2026-03-09',
    ]);
  });

  it('are not worked on holidays', () => {
    const dates = worked([shiftOf('07:00', '17:00', undefined, ['2026-03-03'])], '2026-03-02', 3).map(
      (w) => w.date,
    );
    expect(dates).toEqual(['2026-03-02', '2026-03-04']);
  });

  it('that end before they begin run over midnight and belong to the date on which they began', () => {
    const night = worked([shiftOf('20:00', '04:00')], '2026-03-02');
    expect(told(night)).toEqual(['2026-03-02 20:00 to 2026-03-03 04:00']);
    expect(night[0]?.date).toBe('2026-03-02');
  });

  it('that end as they begin last a whole day', () => {
    expect(told(worked([shiftOf('07:00', '07:00')], '2026-03-02'))).toEqual([
      '2026-03-02 07:00 to 2026-03-03 07:00',
    ]);
  });

  it('over midnight into a holiday are worked to their end; the one that begins on it is not', () => {
    const nights = worked([shiftOf('20:00', '04:00', undefined, ['2026-03-03'])], '2026-03-02', 2);
    expect(told(nights)).toEqual(['2026-03-02 20:00 to 2026-03-03 04:00']);
  });

  it('of two crews come in order of time', () => {
    expect(told(worked([shiftOf('15:00', '23:00'), shiftOf('07:00', '15:00')], '2026-03-02'))).toEqual([
      '2026-03-02 07:00 to 2026-03-02 15:00',
      '2026-03-02 15:00 to 2026-03-02 23:00',
    ]);
  });
});

describe('shifts on the days when the clock changes', () => {
  const span = (from: string, to: string, date: string, zone = NEW_YORK) =>
    worked([shiftOf(from, to)], date, 1, zone)[0];

  it('over the night of the spring change are an hour shorter, of the autumn change an hour longer', () => {
    const hours = (date: string) => {
      const night = span('20:00', '06:00', date);
      return night ? (night.toMs - night.fromMs) / 3_600_000 : 0;
    };
    expect([hours('2026-03-06'), hours('2026-03-07'), hours('2026-10-31')]).toEqual([10, 9, 11]);
  });

  it('by day begin and end on the clock: 07:00 is 07:00 after either change', () => {
    expect(span('07:00', '17:00', '2026-03-08')?.fromMs).toBe(instant('2026-03-08T07:00:00-04:00'));
    expect(span('07:00', '17:00', '2026-11-01')?.toMs).toBe(instant('2026-11-01T17:00:00-05:00'));
    expect(span('07:00', '17:00', '2026-03-08', 'America/Adak')?.fromMs).toBe(
      instant('2026-03-08T07:00:00-09:00'),
    );
    expect(span('07:00', '17:00', '2026-04-05', 'Australia/Adelaide')?.fromMs).toBe(
      instant('2026-04-05T07:00:00+09:30'),
    );
  });

  it('begin at the later and end at the earlier of a doubled clock time, so that nobody is expected too long', () => {
    expect(span('01:30', '09:00', '2024-11-03')?.fromMs).toBe(instant('2024-11-03T01:30:00-05:00'));
    expect(span('20:00', '01:30', '2024-11-02')?.toMs).toBe(instant('2024-11-03T01:30:00-04:00'));
  });

  it('within the doubled hour vanish where they would end before they begin', () => {
    expect(span('01:30', '01:45', '2024-11-03')).toBeUndefined();
  });

  it('that begin at a skipped clock time begin after the gap', () => {
    expect(span('02:30', '09:00', '2024-03-10')?.fromMs).toBe(instant('2024-03-10T03:30:00-04:00'));
  });

  it('know no change in Arizona, Puerto Rico and Guam, and half-hour zones keep theirs', () => {
    for (const zone of ['America/Phoenix', 'America/Puerto_Rico', 'Pacific/Guam', 'Asia/Kolkata']) {
      expect(told(worked([shiftOf('07:00', '17:00')], '2026-03-08', 1, zone), zone), zone).toEqual([
        '2026-03-08 07:00 to 2026-03-08 17:00',
      ]);
    }
    expect(span('07:00', '17:00', '2026-03-08', 'Asia/Kolkata')?.fromMs).toBe(
      instant('2026-03-08T01:30:00Z'),
    );
  });
});
