// Whole days, worked out by hand: the comment above each derives its times. All on the invented plain site unless said.

import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import type { Site } from '#core/site/site.ts';
import { alertOf, alertsSeen } from '../../builders/alerts.ts';
import { byClock, core } from '../../builders/forecast.ts';
import { PLAIN_LIMITS } from '../../builders/limits.ts';
import { firstDay, type InputText, inputOf, threeTimes } from '../../builders/plan.ts';
import { EAST_SCHOOL, PLAIN_SITE, shiftOf, siteWith } from '../../builders/site.ts';
import { at, clockOf, instant } from '../../builders/time.ts';

const DATE = '2026-03-02';
const clock = { lightFrom: '08:00', lastChargeBy: '15:00', outBy: '17:00', source: 'permit 26-014' };
const timesFor = (text: InputText) =>
  threeTimes(inputOf(text))?.map((t) => t.replace(`${DATE} `, '')) ?? null;
const causesFor = (text: InputText) => {
  const { times } = firstDay(makePlan(inputOf(text)));
  return {
    light: times?.lightUpCauses.map((f) => f.code),
    charge: times?.lastChargeCauses.map((f) => f.code),
  };
};

describe('a day of fair weather', () => {
  // Shift 07:00 + warm-up 10 min = 07:10. Shift end 17:00 - (60 + 30) min = 15:30. Covered 15:30 + 90 min = 17:00.
  it('runs from the end of the warm-up until burn-down and cover before the end of the shift', () => {
    expect(timesFor({})).toEqual(['07:10', '15:30', '17:00']);
    expect(causesFor({})).toEqual({ light: ['warming-up'], charge: ['off-shift', 'burn-down-ahead'] });
  });

  it('has the engine started, the first charge and burned down between', () => {
    const { times } = firstDay(makePlan(inputOf()));
    const told = [times?.warmUpMs, times?.firstChargeMs, times?.burnedDownMs].map((ms) =>
      clockOf(ms ?? 0).slice(11),
    );
    // 07:10 - 10 min; 07:10 + 20 min kindling; 15:30 + 60 min.
    expect(told).toEqual(['07:00', '07:30', '16:30']);
  });
});

describe('the last charge is the earliest of four', () => {
  // Rule hour 15:00 is before 15:30 of the shift. The hour itself is a hold, so the pit burns down until 16:00.
  it('the hour of the permit', () => {
    const limits = { ...PLAIN_LIMITS, clock: [{ ...clock, outBy: null }] };
    expect(timesFor({ limits })).toEqual(['08:00', '15:00', '16:30']);
    expect(causesFor({ limits })).toEqual({ light: ['clock-before'], charge: ['clock-charge'] });
  });

  // Out by 16:00 - 90 min = 14:30, before the rule hour 15:00 and the shift's 15:30.
  it('out-by less burn-down and cover', () => {
    const limits = { ...PLAIN_LIMITS, clock: [{ ...clock, outBy: '16:00' }] };
    expect(timesFor({ limits })).toEqual(['08:00', '14:30', '16:00']);
    expect(causesFor({ limits }).charge).toEqual(['clock-out', 'burn-down-ahead']);
  });

  // The wind is over 15 mph (stop) in the hour of 14:00, hence 14:00 - 90 min = 12:30.
  it('the first stop less burn-down and cover', () => {
    const weather = { windSpeed: byClock('windSpeed', { '00:00': '7 mph', '14:00': '16 mph' }) };
    expect(timesFor({ weather })).toEqual(['07:10', '12:30', '14:00']);
    expect(causesFor({ weather }).charge).toEqual(['over-limit', 'burn-down-ahead']);
  });

  // A wind over 12 mph (hold) from 13:00 on: no more wood from then; 13:00 + 90 min.
  it('a hold that does not lift, which lets the fire burn down', () => {
    const weather = { windSpeed: byClock('windSpeed', { '00:00': '7 mph', '13:00': '13 mph' }) };
    expect(timesFor({ weather })).toEqual(['07:10', '13:00', '14:30']);
    expect(causesFor({ weather }).charge).toEqual(['over-limit']);
  });

  // A hold at 13:30 of which 13:30 + 90 min happens to be the 15:00 of the permit: the permit ends nothing here.
  it('and names no rule that merely begins when the pit will be covered', () => {
    const limits = { ...PLAIN_LIMITS, clock: [{ ...clock, lightFrom: null, outBy: null }] };
    const alerts = alertsSeen(at(`${DATE} 06:00`), [
      alertOf('Wind Advisory', at(`${DATE} 13:30`), at(`${DATE} 20:00`)),
    ]);
    expect(timesFor({ limits, alerts })).toEqual(['07:10', '13:30', '15:00']);
    expect(causesFor({ limits, alerts }).charge).toEqual(['official-alert']);
  });

  // Red Flag Warning from 13:17: 13:17 - 90 min = 11:47, to the minute.
  it('an official stop, to the minute', () => {
    const alerts = alertsSeen(at(`${DATE} 06:00`), [alertOf('Red Flag Warning', at(`${DATE} 13:17`), null)]);
    expect(timesFor({ alerts })).toEqual(['07:10', '11:47', '13:17']);
    expect(causesFor({ alerts }).charge).toEqual(['official-alert', 'burn-down-ahead']);
  });

  // Mixing height ends at 14:00 and is never extended: 14:00 - 90 min = 12:30.
  it('the end of an element less burn-down and cover', () => {
    const weather = {
      mixingHeight: (ms: number) => (ms < at(`${DATE} 14:00`) ? core('mixingHeight', '4000 ft') : null),
    };
    expect(timesFor({ weather })).toEqual(['07:10', '12:30', '14:00']);
    expect(causesFor({ weather }).charge?.sort()).toEqual(['burn-down-ahead', 'element-missing']);
  });

  // Smoke on the school from 13:00 until 16:00: 13:00 - 90 min = 11:30. From 16:00 the shift leaves nothing.
  it('smoke on a protected place less burn-down and cover', () => {
    const site = siteWith({ protected: [EAST_SCHOOL] });
    const weather = {
      windDirection: byClock('windDirection', { '00:00': '180 deg', '13:00': '270 deg', '16:00': '180 deg' }),
    };
    expect(timesFor({ site, weather })).toEqual(['07:10', '11:30', '13:00']);
  });
});

describe('the light-up waits', () => {
  // Humidity over 30 % only from 10:00 on.
  it('for the last limit to be met, and names it', () => {
    const weather = { relativeHumidity: byClock('relativeHumidity', { '00:00': '25 %', '10:00': '40 %' }) };
    expect(timesFor({ weather })).toEqual(['10:00', '15:30', '17:00']);
    expect(causesFor({ weather }).light).toEqual(['under-limit']);
  });

  // Washington DC, 21 Dec 2024: sunrise 07:23:21 and sunset 16:49:43 (docs/sources.md), to 60 s. Light-up 08:23:21; out by
  // 15:49:43; last charge 90 min before, 14:19:43.
  it('for an hour after sunrise, and the last charge leaves time to be out an hour before sunset', () => {
    const site = siteWith({
      place: { latDeg: 38.8951, lonDeg: -77.0364 },
      timeZone: 'America/New_York',
      daylight: { lightUpAfterSunriseMin: 60, outBeforeSunsetMin: 60 },
      shifts: [shiftOf('06:00', '18:00')],
    });
    const { times } = firstDay(makePlan(inputOf({ site, firstDate: '2024-12-21' })));
    const told = [times?.lightUpMs ?? 0, times?.lastChargeMs ?? 0, times?.coveredByMs ?? 0];
    const expected = ['08:23:21', '14:19:43', '15:49:43'].map((clock) =>
      instant(`2024-12-21T${clock}-05:00`),
    );
    for (const [i, ms] of told.entries())
      expect(Math.abs(ms - (expected[i] ?? 0)), `time ${i}`).toBeLessThanOrEqual(60_000);
  });
});

describe('a day with a pause', () => {
  // Wind over 12 mph (hold) from 11:00 to 12:00. Go 07:10-11:00 (230 min) and 12:00-15:30 (210 min), both over 2 h.
  const weather = {
    windSpeed: byClock('windSpeed', { '00:00': '7 mph', '11:00': '13 mph', '12:00': '7 mph' }),
  };

  it('is one burn with a hold in it', () => {
    expect(timesFor({ weather })).toEqual(['07:10', '15:30', '17:00']);
    const { times } = firstDay(makePlan(inputOf({ weather })));
    expect(
      times?.pauses.map((p) => `${p.verdict} ${clockOf(p.fromMs).slice(11)}-${clockOf(p.toMs).slice(11)}`),
    ).toEqual(['hold 11:00-12:00']);
  });

  // Smoke on the school from 11:00 to 12:00: the fire must be out by 11:00, so no wood after 09:30; go again from 12:00.
  // Go 07:10-09:30 (140 min) and 12:00-15:30 (210 min): the second is the burn of the day.
  it.each(['hold', 'stop'] as const)(
    'is two burns where the smoke would reach a protected place meanwhile (%s): the longer is the plan',
    (verdict) => {
      const site = siteWith({ protected: [{ ...EAST_SCHOOL, verdict }] });
      const smoke = {
        windDirection: byClock('windDirection', {
          '00:00': '180 deg',
          '11:00': '270 deg',
          '12:00': '180 deg',
        }),
      };
      expect(timesFor({ site, weather: smoke })).toEqual(['12:00', '15:30', '17:00']);
      expect(firstDay(makePlan(inputOf({ site, weather: smoke }))).times?.pauses).toEqual([]);
    },
  );

  it('is two burns where nobody can say what the hour between brings', () => {
    const gap = {
      mixingHeight: byClock('mixingHeight', { '00:00': '4000 ft', '11:00': null, '12:00': '4000 ft' }),
    };
    expect(timesFor({ weather: gap })).toEqual(['12:00', '15:30', '17:00']);
  });
});

describe('days without a go', () => {
  const noTimes = (text: InputText) => {
    const day = firstDay(makePlan(inputOf(text)));
    return { verdict: day.verdict, cannotSay: day.cannotSay, times: day.times };
  };

  it.each<[string, InputText, 'hold' | 'stop', boolean]>([
    ['dry all day is stop', { weather: { relativeHumidity: 15 } }, 'stop', false],
    ['windy all day is hold', { weather: { windSpeed: core('windSpeed', '13 mph') } }, 'hold', false],
    ['without mixing height nobody can say', { weather: { mixingHeight: null } }, 'hold', true],
    ['without alerts nobody can say', { alerts: null }, 'hold', true],
    ['off work is stop', { site: siteWith({ shifts: [shiftOf('07:00', '17:00', ['sun'])] }) }, 'stop', false],
  ])('%s', (_, text, verdict, cannotSay) => {
    expect(noTimes(text)).toEqual({ verdict, cannotSay, times: null });
  });

  // Shift 07:00-10:00: warm at 07:10, last charge 08:30: a go of 80 minutes is too short.
  it('a shift too short for a run worth lighting is hold and says so', () => {
    const site: Site = { ...PLAIN_SITE, shifts: [shiftOf('07:00', '10:00')] };
    const plan = makePlan(inputOf({ site }));
    expect(firstDay(plan).times).toBeNull();
    expect(plan.findings.filter((f) => f.code === 'short-run').map((f) => f.figures)).toContainEqual({
      lengthMin: 80,
      neededMin: 120,
    });
  });
});
