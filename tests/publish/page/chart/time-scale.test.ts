import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { startOfDayMs } from '#core/units/local-time.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { hourAxis, ticksOf } from '#publish/page/chart/axis.ts';
import { openSpan, timeScale } from '#publish/page/chart/time-scale.ts';
import { textOf } from '#publish/page/html.ts';

const EASTERN = 'America/New_York';
/** A whole local day. */
const day = (date: string, next: string, zone = EASTERN) => ({
  fromMs: startOfDayMs(date, zone),
  toMs: startOfDayMs(next, zone),
});

describe('a moment on the axis', () => {
  const span = { fromMs: 0, toMs: 10 * HOUR_MS };

  it('lies in proportion to time, and on the edge where it is outside', () => {
    const { x } = timeScale(span);
    expect([0, 2.5, 5, 10].map((h) => x(h * HOUR_MS))).toEqual([0, 25, 50, 100]);
    expect([x(-HOUR_MS), x(11 * HOUR_MS)]).toEqual([0, 100]);
  });

  it('never lies left of an earlier one', () => {
    const hour = fc.double({ min: -2, max: 12, noNaN: true });
    fc.assert(
      fc.property(hour, hour, (a, b) => {
        const { x } = timeScale(span);
        expect(x(Math.min(a, b) * HOUR_MS)).toBeLessThanOrEqual(x(Math.max(a, b) * HOUR_MS));
      }),
    );
  });
});

describe('what is drawn of a day', () => {
  const whole = { fromMs: 0, toMs: 24 * HOUR_MS };
  const hours = (from: number, to: number) => ({ fromMs: from * HOUR_MS, toMs: to * HOUR_MS });

  it('goes from an hour before the first open time to an hour after the last', () => {
    expect(openSpan(whole, [hours(0, 7.25), hours(17.5, 24)])).toEqual(hours(6, 19));
    expect(openSpan(whole, [hours(0, 7), hours(11, 12), hours(17, 24)])).toEqual(hours(6, 18));
  });

  it('stays within the day, and is all of it where nothing is open', () => {
    expect(openSpan(whole, [hours(0, 0.5)])).toEqual(hours(0, 24));
    expect(openSpan(whole, [])).toEqual(whole);
    expect(openSpan(whole, [whole])).toEqual(whole);
  });
});

describe('the hours of the axis', () => {
  const named = (date: string, next: string, zone = EASTERN) =>
    ticksOf(timeScale(day(date, next, zone)), zone).flatMap(({ name }) => name ?? []);
  const NAMES = ['12 am', '3 am', '6 am', '9 am', '12 pm', '3 pm', '6 pm', '9 pm', '12 am'];

  it.each([
    ['2026-03-08', '2026-03-09', 24],
    ['2026-06-10', '2026-06-11', 25],
    ['2026-11-01', '2026-11-02', 26],
  ])('of %s have a tick at each whole hour, both ends included: %i', (date, next, ticks) => {
    expect(ticksOf(timeScale(day(date, next)), EASTERN)).toHaveLength(ticks);
    expect(named(date, next)).toEqual(NAMES);
  });

  it('go by the clock of the site where it stands at the half hour, and where it changes by half an hour', () => {
    expect(named('2026-06-10', '2026-06-11', 'Asia/Kolkata')).toEqual(NAMES);
    // Lord Howe Island turns its clocks by half an hour, here from 2:00 am on 2026-10-04 (IANA time zone database).
    const changed = ticksOf(
      timeScale(day('2026-10-04', '2026-10-05', 'Australia/Lord_Howe')),
      'Australia/Lord_Howe',
    );
    expect(changed.flatMap(({ name }) => name ?? [])).toEqual(NAMES);
    expect(
      changed.every(
        ({ ms }) => new Date(ms).getUTCMinutes() === (ms < Date.UTC(2026, 9, 3, 15, 30) ? 30 : 0),
      ),
    ).toBe(true);
  });

  it('lie where their moments lie', () => {
    const scale = timeScale(day('2026-11-01', '2026-11-02'));
    const six = ticksOf(scale, EASTERN).find(({ name }) => name === '6 am');
    // Seven hours into a day of twenty-five.
    expect(six?.x).toBe(28);
    expect(textOf(hourAxis(ticksOf(scale, EASTERN), 20))).toContain(
      '<text class="hr" x="28%" y="20">6 am</text>',
    );
  });
});
