import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { clockHours } from '#core/rules/clock-hours.ts';
import type { ClockLimit } from '#core/score/limit.ts';
import { one, told } from '../../builders/findings.ts';
import { PLAIN_LIMITS } from '../../builders/limits.ts';
import { contextOf, inputOf, verdictAt } from '../../builders/plan.ts';
import { shiftOf, siteWith } from '../../builders/site.ts';
import { at, instant } from '../../builders/time.ts';

const clockOf = (limit: Partial<ClockLimit>): ClockLimit => ({
  lightFrom: null,
  lastChargeBy: null,
  outBy: null,
  source: 'permit 26-014',
  ...limit,
});
const foundFor = (limit: Partial<ClockLimit>, firstDate = '2026-03-02', timeZone = 'America/Chicago') =>
  clockHours(
    contextOf(
      inputOf({
        site: siteWith({ timeZone }),
        limits: { ...PLAIN_LIMITS, clock: [clockOf(limit)] },
        firstDate,
      }),
    ),
  );

describe('hours on the clock', () => {
  it('hold before light-up, hold after the last charge, stop after out-by, every day', () => {
    const findings = foundFor({ lightFrom: '08:00', lastChargeBy: '15:00', outBy: '17:00' });
    expect(told(findings, '2026-03-02')).toEqual([
      'hold clock-before 00:00-08:00',
      'hold clock-charge 15:00-2026-03-03 00:00',
      'stop clock-out 17:00-2026-03-03 00:00',
    ]);
    expect(one(findings, 'clock-out').figures).toEqual({ clock: '17:00', source: 'permit 26-014' });
  });

  it('at the minute itself: 08:00 may light, 15:00 may no longer charge (North Carolina, 08:00 to 18:00; A.2)', () => {
    const limits = { ...PLAIN_LIMITS, clock: [clockOf({ lightFrom: '08:00', lastChargeBy: '15:00' })] };
    const plan = makePlan(inputOf({ limits }));
    const minutes = ['07:59', '08:00', '14:59', '15:00'].map((clock) =>
      verdictAt(plan, at(`2026-03-02 ${clock}`)),
    );
    expect(minutes).toEqual(['hold', 'go', 'go', 'hold']);
  });

  it('of midnight hold nothing before and stop all day after', () => {
    expect(told(foundFor({ lightFrom: '00:00' }), '2026-03-02')).toEqual([]);
    expect(told(foundFor({ outBy: '00:00' }), '2026-03-02')).toEqual([
      'stop clock-out 00:00-2026-03-03 00:00',
    ]);
  });

  it('of several limits all count', () => {
    const limits = {
      ...PLAIN_LIMITS,
      clock: [clockOf({ lightFrom: '08:00' }), clockOf({ lightFrom: '09:00', source: 'county' })],
    };
    expect(verdictAt(makePlan(inputOf({ limits })), at('2026-03-02 08:30'))).toBe('hold');
  });

  it('that name an end and no beginning do not open the night after it: out by 17:00 is out until somebody may light', () => {
    const limits = { ...PLAIN_LIMITS, clock: [clockOf({ outBy: '17:00' })] };
    const site = siteWith({ shifts: [shiftOf('18:00', '06:00')] });
    expect(verdictAt(makePlan(inputOf({ site, limits })), at('2026-03-03 01:00'))).not.toBe('go');
  });
});

describe('hours on the clock on days when it changes', () => {
  const zone = 'America/New_York';

  it('a doubled beginning is the later, a doubled end the earlier one', () => {
    const findings = foundFor(
      { lightFrom: '01:30', lastChargeBy: '01:15', outBy: '01:45' },
      '2024-11-03',
      zone,
    );
    const day = at('2024-11-03 00:00', zone);
    expect(one(findings, 'clock-before', day).toMs).toBe(instant('2024-11-03T01:30:00-05:00'));
    expect(one(findings, 'clock-charge', instant('2024-11-03T01:15:00-04:00')).toMs).toBe(
      instant('2024-11-04T00:00:00-05:00'),
    );
    expect(one(findings, 'clock-out', instant('2024-11-03T01:45:00-04:00')).verdict).toBe('stop');
  });

  it('a skipped one moves forward', () => {
    const day = at('2024-03-10 00:00', zone);
    expect(one(foundFor({ lightFrom: '02:30' }, '2024-03-10', zone), 'clock-before', day).toMs).toBe(
      instant('2024-03-10T03:30:00-04:00'),
    );
  });

  it.each([
    ['America/New_York', '2026-03-08', '2026-03-08T08:00:00-04:00'],
    ['America/New_York', '2026-11-01', '2026-11-01T08:00:00-05:00'],
    ['America/Anchorage', '2026-03-08', '2026-03-08T08:00:00-08:00'],
    ['America/Adak', '2026-11-01', '2026-11-01T08:00:00-10:00'],
    ['America/Phoenix', '2026-03-08', '2026-03-08T08:00:00-07:00'],
    ['Pacific/Guam', '2026-03-08', '2026-03-08T08:00:00+10:00'],
    ['America/Puerto_Rico', '2026-11-01', '2026-11-01T08:00:00-04:00'],
    ['Australia/Adelaide', '2026-04-05', '2026-04-05T08:00:00+09:30'],
    ['Asia/Kolkata', '2026-03-08', '2026-03-08T08:00:00+05:30'],
  ])('08:00 in %s on %s is %s', (timeZone, date, text) => {
    const day = at(`${date} 00:00`, timeZone);
    expect(one(foundFor({ lightFrom: '08:00' }, date, timeZone), 'clock-before', day).toMs).toBe(
      instant(text),
    );
  });
});
