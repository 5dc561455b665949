// Night shifts and the days on which the clock changes; each expected time is derived in the comment above it.

import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { byClock } from '../../builders/forecast.ts';
import { firstDay, inputOf, threeTimes } from '../../builders/plan.ts';
import { shiftOf, siteWith } from '../../builders/site.ts';
import { clockOf, instant } from '../../builders/time.ts';

const NEW_YORK = 'America/New_York';
const night = siteWith({ shifts: [shiftOf('20:00', '06:00')] });

describe('a shift over midnight', () => {
  // Light-up 20:00 + 10 min; shift end 06:00 on the 3rd - 90 min = 04:30; covered 06:00.
  it('belongs to the date on which it begins', () => {
    expect(threeTimes(inputOf({ site: night }))).toEqual([
      '2026-03-02 20:10',
      '2026-03-03 04:30',
      '2026-03-03 06:00',
    ]);
  });

  it('of the evening before is not the burn of this date', () => {
    const [day] = makePlan(inputOf({ site: night })).days;
    expect([clockOf(day?.frame.fromMs ?? 0), clockOf(day?.frame.toMs ?? 0)]).toEqual([
      '2026-03-02 06:00',
      '2026-03-03 06:00',
    ]);
  });

  it('gives every date its own, and no go twice', () => {
    const { days } = makePlan(inputOf({ site: night, dayCount: 3 }));
    expect(days.map((d) => clockOf(d.times?.lightUpMs ?? 0))).toEqual([
      '2026-03-02 20:10',
      '2026-03-03 20:10',
      '2026-03-04 20:10',
    ]);
    for (const [i, d] of days.entries())
      if (i > 0) expect(d.frame.fromMs).toBeGreaterThanOrEqual(days[i - 1]?.frame.toMs ?? 0);
  });

  // Wind over 15 mph from 02:00 on: 02:00 - 90 min = 00:30 on the 3rd.
  it('ends early for a stop past midnight', () => {
    const weather = { windSpeed: byClock('windSpeed', { '00:00': '7 mph', '2026-03-03 02:00': '16 mph' }) };
    expect(threeTimes(inputOf({ site: night, weather }))).toEqual([
      '2026-03-02 20:10',
      '2026-03-03 00:30',
      '2026-03-03 02:00',
    ]);
  });

  // 21:00 to 06:00 on the night of 7 to 8 March 2026: 02:00 is followed by 03:00, so 06:00 EDT is 10:00 UTC. 06:00 EDT -
  // 90 min = 04:30 EDT; the night has 8 hours on the watch.
  it('over the spring change ends on the clock and is an hour shorter', () => {
    const site = siteWith({ timeZone: NEW_YORK, shifts: [shiftOf('21:00', '06:00')] });
    expect(threeTimes(inputOf({ site, firstDate: '2026-03-07' }))).toEqual([
      '2026-03-07 21:10',
      '2026-03-08 04:30',
      '2026-03-08 06:00',
    ]);
    const { times } = firstDay(makePlan(inputOf({ site, firstDate: '2026-03-07' })));
    expect(times?.coveredByMs).toBe(instant('2026-03-08T10:00:00Z'));
    expect(((times?.coveredByMs ?? 0) - (times?.warmUpMs ?? 0)) / HOUR_MS).toBe(8);
  });

  // Shift ends at 01:30 on 1 Nov 2026, which comes twice: the earlier (EDT, 05:30 UTC) counts; 05:30 - 90 min = 04:00 UTC,
  // that is 00:00 EDT.
  it('that ends at a doubled clock time ends at the earlier', () => {
    const site = siteWith({ timeZone: NEW_YORK, shifts: [shiftOf('18:00', '01:30')] });
    const { times } = firstDay(makePlan(inputOf({ site, firstDate: '2026-10-31' })));
    expect(times?.coveredByMs).toBe(instant('2026-11-01T05:30:00Z'));
    expect(times?.lastChargeMs).toBe(instant('2026-11-01T04:00:00Z'));
  });

  // Shift ends at 03:00 EST on 1 Nov 2026 (08:00 UTC); last charge 06:30 UTC: 90 real minutes before, 01:30 EST.
  it('counts the burn-down in real minutes through the doubled hour', () => {
    const site = siteWith({ timeZone: NEW_YORK, shifts: [shiftOf('18:00', '03:00')] });
    const { times } = firstDay(makePlan(inputOf({ site, firstDate: '2026-10-31' })));
    expect(times?.lastChargeMs).toBe(instant('2026-11-01T06:30:00Z'));
    expect(times?.coveredByMs).toBe(instant('2026-11-01T08:00:00Z'));
  });
});

describe('the day of the clock change, day shift 07:00 to 17:00', () => {
  // 07:10 and 15:30 on the clock of the day, whatever it was at midnight; the offset tells the season.
  it.each([
    ['America/New_York', '2026-03-08', '-04:00', 23],
    ['America/New_York', '2026-11-01', '-05:00', 25],
    ['America/Anchorage', '2026-03-08', '-08:00', 23],
    ['America/Adak', '2026-11-01', '-10:00', 25],
    ['America/Phoenix', '2026-03-08', '-07:00', 24],
    ['America/Puerto_Rico', '2026-03-08', '-04:00', 24],
    ['Pacific/Guam', '2026-11-01', '+10:00', 24],
    ['Australia/Adelaide', '2026-04-05', '+09:30', 25],
    ['Australia/Adelaide', '2026-10-04', '+10:30', 23],
    ['Asia/Kolkata', '2026-03-08', '+05:30', 24],
    ['Australia/Lord_Howe', '2026-04-05', '+10:30', 24.5],
  ])('%s on %s', (timeZone, firstDate, offset, hours) => {
    const plan = makePlan(inputOf({ site: siteWith({ timeZone }), firstDate }));
    const { day, times } = firstDay(plan);
    expect((day.toMs - day.fromMs) / HOUR_MS).toBe(hours);
    expect(times?.lightUpMs).toBe(instant(`${firstDate}T07:10:00${offset}`));
    expect(times?.lastChargeMs).toBe(instant(`${firstDate}T15:30:00${offset}`));
    expect(times?.coveredByMs).toBe(instant(`${firstDate}T17:00:00${offset}`));
  });

  // Hours of the forecast are UTC hours; in a half-hour zone they begin at half past. Wind over 15 mph in the UTC hour
  // 08:00, that is 13:30 in India: 13:30 - 90 min = 12:00.
  it('in a half-hour zone the hours of the forecast begin at half past', () => {
    const windy = instant('2026-03-02T08:00:00Z');
    const weather = { windSpeed: (ms: number) => (ms >= windy ? 8 : 3) };
    const site = siteWith({ timeZone: 'Asia/Kolkata' });
    expect(threeTimes(inputOf({ site, weather }))?.map((t) => t.slice(11))).toEqual([
      '07:10',
      '12:00',
      '13:30',
    ]);
  });
});

describe('a site that burns round the clock', () => {
  const site = siteWith({
    shifts: [shiftOf('00:00', '00:00')],
    burn: { warmUpMin: 0, kindlingMin: 20, burnDownMin: 60, coverMin: 30, shortestRunMin: 120 },
  });

  it('is go all day in fair weather', () => {
    const day = firstDay(makePlan(inputOf({ site })));
    expect(day.verdict).toBe('go');
    expect(clockOf(day.times?.lightUpMs ?? 0)).toBe('2026-03-02 00:00');
  });

  // The next day has a stop from 01:00 on: 01:00 - 90 min = 23:30 on the 2nd.
  it('looks over midnight for what forces the fire out', () => {
    const weather = { windSpeed: byClock('windSpeed', { '00:00': '7 mph', '2026-03-03 01:00': '16 mph' }) };
    expect(threeTimes(inputOf({ site, weather }))).toEqual([
      '2026-03-02 00:00',
      '2026-03-02 23:30',
      '2026-03-03 01:00',
    ]);
  });
});
