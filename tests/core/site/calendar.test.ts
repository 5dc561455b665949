import { describe, expect, it } from 'vitest';
import { makeCalendar } from '#core/site/calendar.ts';
import { daylightOver } from '#core/site/daylight.ts';
import { putOutMs } from '#core/site/site.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { PLAIN_SITE, shiftOf, siteWith } from '../../builders/site.ts';
import { clockOf } from '../../builders/time.ts';

describe('a calendar', () => {
  it('has its local days end to end, the short and the long one too', () => {
    const calendar = makeCalendar(siteWith({ timeZone: 'America/New_York' }), '2026-03-07', 3);
    expect(calendar.days.map((d) => (d.toMs - d.fromMs) / HOUR_MS)).toEqual([24, 23, 24]);
    expect(calendar.days.map((d) => d.date)).toEqual(['2026-03-07', '2026-03-08', '2026-03-09']);
    for (const [i, day] of calendar.days.entries())
      if (i > 0) expect(day.fromMs).toBe(calendar.days[i - 1]?.toMs);
    expect(calendar.span).toEqual({ fromMs: calendar.days[0]?.fromMs, toMs: calendar.days[2]?.toMs });
  });

  it('includes the shift that the day before sends over midnight', () => {
    const calendar = makeCalendar(siteWith({ shifts: [shiftOf('20:00', '04:00')] }), '2026-03-02', 1);
    expect(calendar.shifts.map((s) => s.date)).toEqual(['2026-03-01', '2026-03-02']);
    expect(calendar.shifts.map((s) => clockOf(s.toMs))).toEqual(['2026-03-02 04:00', '2026-03-03 04:00']);
  });

  it('of a day has the daylight of that day', () => {
    const calendar = makeCalendar(PLAIN_SITE, '2026-03-02', 1);
    expect(calendar.daylight.length).toBe(1);
    expect(clockOf(calendar.daylight[0]?.fromMs ?? 0)).toMatch(/^2026-03-02 06:/);
  });
});

describe('the daylight of a calendar', () => {
  it('is to the minute and never longer than the sun: sunrise at the next full minute, sunset at the one before', () => {
    const calendar = makeCalendar(PLAIN_SITE, '2026-03-02', 30);
    const exact = daylightOver(PLAIN_SITE.place, calendar.span);
    expect(calendar.daylight.length).toBe(exact.length);
    for (const [i, light] of calendar.daylight.entries()) {
      const sun = exact[i] ?? { fromMs: Number.NaN, toMs: Number.NaN };
      expect([light.fromMs % MINUTE_MS, light.toMs % MINUTE_MS]).toEqual([0, 0]);
      expect(light.fromMs - sun.fromMs).toBeGreaterThanOrEqual(0);
      expect(sun.toMs - light.toMs).toBeGreaterThanOrEqual(0);
      expect(Math.max(light.fromMs - sun.fromMs, sun.toMs - light.toMs)).toBeLessThan(MINUTE_MS);
    }
  });
});

describe('putting a fire out', () => {
  it('takes burn-down and cover together', () => expect(putOutMs(PLAIN_SITE.burn)).toBe(90 * 60_000));
});
