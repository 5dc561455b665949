import { describe, expect, it } from 'vitest';
import type { BurnTap } from '#core/watch/burn.ts';
import { chargeConditions } from '#core/watch/charge-conditions.ts';
import type { Condition, ConditionCode } from '#core/watch/condition.ts';
import { coverConditions } from '#core/watch/cover-conditions.ts';
import { foldTaps } from '#core/watch/fold-taps.ts';
import { lookAgain } from '#core/watch/look-again.ts';
import { byClock } from '../../builders/forecast.ts';
import { siteWith } from '../../builders/site.ts';
import { tapOf, WHOLE_DAY } from '../../builders/tap.ts';
import { at } from '../../builders/time.ts';
import { clock, the, WATCH_DATE } from '../../builders/watch.ts';
import { type WatchText, watchContextOf } from '../../builders/watch-input.ts';

// Fair weather, shift 07:00 to 17:00: light-up 07:10, last charge 15:30, burned down 16:30, covered by 17:00.
function of(taps: readonly BurnTap[], now: string, text: WatchText = {}): Condition[] {
  const burn = foldTaps(taps, 'org/quarry-field', 180);
  if (burn === null) throw new Error('no burn');
  const context = watchContextOf({ burn, now, covered: [burn], ...text });
  return [...chargeConditions(context, burn), ...coverConditions(context, burn), ...lookAgain(context)];
}
const truth = (code: ConditionCode, ...given: Parameters<typeof of>) => the(of(...given), code).truth;
const CHARGING = WHOLE_DAY.slice(0, 2);
const BURNING_DOWN = WHOLE_DAY.slice(0, 3);

describe('the last charge', () => {
  it.each([
    ['14:59', 'false', 'false'],
    ['15:00', 'true', 'false'],
    ['15:29', 'true', 'false'],
    ['15:30', 'false', 'true'],
    ['16:45', 'false', 'true'],
  ])('at %s is soon %s, due %s', (now, soon, due) => {
    expect(truth('last-charge-soon', CHARGING, now)).toBe(soon);
    expect(truth('last-charge-due', CHARGING, now)).toBe(due);
  });

  it('tells its time, is advice before and a hold from then on', () => {
    expect(the(of(CHARGING, '15:00'), 'last-charge-soon')).toMatchObject({
      verdict: 'go',
      validUntilMs: clock('15:30'),
      figures: { what: 'lastCharge', atMs: clock('15:30') },
    });
    expect(the(of(CHARGING, '15:30'), 'last-charge-due').verdict).toBe('hold');
  });

  it('is nothing to one who no longer charges', () => {
    expect(truth('last-charge-due', BURNING_DOWN, '16:00')).toBe('false');
    expect(truth('last-charge-soon', BURNING_DOWN, '15:10')).toBe('false');
  });

  it.each([
    // Go from 07:10 to 09:30, then stop from 11:00 to 12:00, then go again.
    ['11:00', '11:30', '09:30'],
    // Stop from 10:00: the go before it is too short to be one.
    ['10:00', '10:30', '10:00'],
  ])('of a fire that a stop at %s has met is due, though the day has a second go', (stop, now, due) => {
    const windSpeed = byClock('windSpeed', { '00:00': '7 mph', [stop]: '20 mph', '12:00': '7 mph' });
    expect(the(of(CHARGING, now, { planned: { weather: { windSpeed } } }), 'last-charge-due')).toMatchObject({
      truth: 'true',
      figures: { atMs: clock(due) },
    });
  });

  it('of a fire that was lit too early is not due yet', () => {
    const early = [tapOf('lit', '06:40')];
    expect(truth('last-charge-due', early, '06:50')).toBe('false');
    expect(truth('cover-due', early, '06:50')).toBe('false');
  });

  it('on a day without any go is due at once', () => {
    const text: WatchText = { planned: { weather: { windSpeed: 20 } } };
    expect(truth('last-charge-due', CHARGING, '09:00', text)).toBe('true');
  });
});

describe('a light-up', () => {
  const lit = (when: string, text: WatchText = {}) =>
    the(of([tapOf('lit', when)], '13:00', text), 'lit-against-plan');

  it('in a go is by the plan', () => {
    expect(lit('07:10').truth).toBe('false');
    expect(lit('09:00').truth).toBe('false');
  });

  it('during hold or stop is recorded, with what it was', () => {
    expect(lit('07:05')).toMatchObject({ truth: 'true', figures: { what: 'hold', atMs: clock('07:05') } });
    expect(lit('06:00')).toMatchObject({ truth: 'true', figures: { what: 'stop' } });
  });

  it('too late for kindling is against the plan too', () => {
    expect(the(of([tapOf('lit', '15:10')], '15:20'), 'lit-against-plan')).toMatchObject({
      truth: 'true',
      figures: { what: 'lightUpBy' },
    });
    expect(the(of([tapOf('lit', '15:09')], '15:20'), 'lit-against-plan').truth).toBe('false');
  });

  it('is judged by what the crew was told, not by what is known later', () => {
    const windSpeed = byClock('windSpeed', { '00:00': '20 mph' });
    const told = watchContextOf().briefed;
    expect(lit('09:00', { planned: { weather: { windSpeed } }, briefed: told }).truth).toBe('false');
    expect(lit('09:00', { planned: { weather: { windSpeed } }, briefed: null }).truth).toBe('true');
  });

  it('is not against a plan that the crew was told and answered after it', () => {
    const windSpeed = byClock('windSpeed', { '00:00': '20 mph' });
    const later = watchContextOf({ now: '10:00', planned: { weather: { windSpeed } } }).briefed;
    const litBy = watchContextOf().briefed;
    const now = { planned: { weather: { windSpeed } }, briefed: later };
    expect(lit('09:00', { ...now, litBy }).truth).toBe('false');
    expect(lit('09:00', { ...now, litBy: later }).truth).toBe('true');
  });

  it('of which nothing was told or planned is unknown', () => {
    expect(lit('09:00', { plan: null, briefed: null }).truth).toBe('unknown');
  });

  it('that was not tapped is the first tap', () => {
    expect(the(of([tapOf('charging', '06:30')], '13:00'), 'lit-against-plan').figures.atMs).toBe(
      clock('06:30'),
    );
  });
});

describe('the cover', () => {
  it('is due once it has burned down, a hold until the time is up, then a stop', () => {
    expect(truth('cover-due', BURNING_DOWN, '15:29')).toBe('false');
    expect(the(of(BURNING_DOWN, '15:30'), 'cover-due')).toMatchObject({
      truth: 'true',
      verdict: 'hold',
      figures: { what: 'coveredBy', atMs: clock('16:00') },
    });
    expect(the(of(BURNING_DOWN, '16:00'), 'cover-due').verdict).toBe('stop');
  });

  it('of who charged on too long is due when the plan says', () => {
    const late = [...CHARGING, tapOf('burning-down', '16:10')];
    expect(truth('cover-due', late, '16:29')).toBe('false');
    expect(truth('cover-due', late, '16:30')).toBe('true');
  });

  it('of a pit put out early is due at once', () => {
    const early = [...CHARGING, tapOf('put-out-early', '11:00')];
    expect(the(of(early, '11:00'), 'cover-due')).toMatchObject({
      truth: 'true',
      verdict: 'hold',
      figures: { atMs: clock('11:30') },
    });
    expect(the(of(early, '11:30', { plan: null }), 'cover-due').verdict).toBe('stop');
  });

  it('of one that nobody has tapped as burning down is due by the plan, and unknown without', () => {
    expect(truth('cover-due', CHARGING, '16:30')).toBe('true');
    expect(truth('cover-due', CHARGING, '13:00')).toBe('false');
    expect(truth('cover-due', CHARGING, '13:00', { plan: null, briefed: null })).toBe('unknown');
  });

  // Sunset at 40.5 N, 90.1 W on 2 March 2026 is 17:52 (US Naval Observatory definition, as in daylight.test.ts).
  it('not done by sunset is a stop, but where the site may burn by night', () => {
    const byDay = siteWith({ daylight: { lightUpAfterSunriseMin: 0, outBeforeSunsetMin: 60 } });
    expect(truth('not-covered-by-dusk', BURNING_DOWN, '17:45', { site: byDay })).toBe('false');
    expect(the(of(BURNING_DOWN, '18:00', { site: byDay }), 'not-covered-by-dusk')).toMatchObject({
      truth: 'true',
      verdict: 'stop',
    });
    // Put out early, it still has to be covered.
    const early = [...CHARGING, tapOf('put-out-early', '11:00')];
    expect(truth('not-covered-by-dusk', early, '18:00', { site: byDay })).toBe('true');
    expect(truth('not-covered-by-dusk', BURNING_DOWN, '18:00')).toBe('false');
    // Before sunrise the sunset of the day before is none of this burn's.
    expect(truth('not-covered-by-dusk', [tapOf('lit', '05:00')], '05:30', { site: byDay })).toBe('false');
  });
});

describe('a covered pit', () => {
  const looked = (coveredAt: number, nowMs: number, timeZone = 'America/Chicago') => {
    const context = watchContextOf({ site: siteWith({ timeZone }) });
    const burn = { ...foldTapsOf(coveredAt) };
    return lookAgain({ ...context, covered: [burn], nowMs }).map((c) => `${c.subject} ${c.truth}`);
  };
  const foldTapsOf = (closedAtMs: number) => {
    const burn = foldTaps(WHOLE_DAY, 'org/quarry-field', 180);
    if (burn === null) throw new Error('no burn');
    return { ...burn, closedAtMs };
  };

  it('is looked at by its own days, whatever was covered or lit since', () => {
    const [first, second] = [at(`${WATCH_DATE} 16:00`), at('2026-03-03 16:00')].map(foldTapsOf);
    const lit = foldTaps([tapOf('lit', '09:00')], 'org/quarry-field', 180);
    if (!first || !second || !lit) throw new Error('no burn');
    const covered = [second, lit, first];
    const on = (text: string) =>
      lookAgain({ ...watchContextOf(), covered, nowMs: at(text) }).flatMap((c) =>
        c.truth === 'true' ? `${c.subject} ${c.figures.wasMs === first.closedAtMs}` : [],
      );
    const days = ['2026-03-03', '2026-03-04', '2026-03-05', '2026-03-06', '2026-03-09', '2026-03-10'];
    expect(days.map((day) => on(`${day} 08:00`))).toEqual([
      ['1 true'],
      ['1 false'],
      ['3 true'],
      ['3 false'],
      ['7 true'],
      ['7 false'],
    ]);
  });

  it('is none where the light-up was withdrawn', () => {
    const withdrawn = { ...foldTapsOf(at(`${WATCH_DATE} 16:00`)), state: 'lit' as const };
    expect(lookAgain({ ...watchContextOf(), covered: [withdrawn], nowMs: at('2026-03-03 08:00') })).toEqual(
      [],
    );
  });

  it('is looked at again on days 1, 3 and 7, from 08:00 to the end of the date', () => {
    const covered = at(`${WATCH_DATE} 16:00`);
    expect(looked(covered, at('2026-03-03 07:59'))).toEqual(['1 false', '3 false', '7 false']);
    expect(looked(covered, at('2026-03-03 08:00'))).toEqual(['1 true', '3 false', '7 false']);
    expect(looked(covered, at('2026-03-03 23:59'))).toEqual(['1 true', '3 false', '7 false']);
    expect(looked(covered, at('2026-03-04 08:00'))).toEqual(['1 false', '3 false', '7 false']);
    expect(looked(covered, at('2026-03-05 12:00'))).toEqual(['1 false', '3 true', '7 false']);
  });

  it('by the clock of the site, also over a change of clocks (8 March 2026)', () => {
    const covered = at(`${WATCH_DATE} 16:00`);
    // Day 7 is 9 March, in summer time: 08:00 is 13:00 UTC.
    expect(looked(covered, at('2026-03-09 07:59'))[2]).toBe('7 false');
    expect(looked(covered, at('2026-03-09 08:00'))[2]).toBe('7 true');
    expect(at('2026-03-09 08:00') - at('2026-03-03 08:00')).toBe(6 * 86_400_000 - 3_600_000);
  });

  it('counts its days from the date of the cover at the site', () => {
    const justBefore = at('2026-03-02 23:59');
    expect(looked(justBefore, at('2026-03-03 08:00'))[0]).toBe('1 true');
    expect(looked(justBefore + 60_000, at('2026-03-03 08:00'))[0]).toBe('1 false');
  });

  it('an open burn is not looked at again', () => {
    expect(of(CHARGING, '13:00').filter((c) => c.code === 'look-again')).toEqual([]);
  });
});
