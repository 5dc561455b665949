// A limit may name the height and the averaging time of its wind: an observation is compared with it as it is only where it
// was measured so. 20 ft and ten minutes are what US fire-weather stations tell (NFDRS weather station standards, PMS 426-3,
// from memory).

import { describe, expect, it } from 'vitest';
import type { WindMeasure } from '#core/score/limit.ts';
import { observedLimits } from '#core/watch/observed-limits.ts';
import { observedValue } from '#core/watch/observed-value.ts';
import { DEFAULT_WATCH } from '#core/watch/watch-settings.ts';
import { sayCondition } from '#publish/wording/texts/say-condition.ts';
import { limitOf, limitSet } from '../../builders/limits.ts';
import { clock, every, ON_SITE, seen, the } from '../../builders/watch.ts';
import { wandering, watchContextOf } from '../../builders/watch-input.ts';

const FIRE_WEATHER: WindMeasure = { heightM: 6.096, averagingS: 600 };
const PLAIN: WindMeasure = { heightM: 10, averagingS: 120 };

const valueFor = (of: WindMeasure, windHeightM: number, windAveragingS: number) =>
  observedValue(
    'windSpeed',
    seen('12:00', '180 10', { windHeightM, windAveragingS }),
    ON_SITE,
    DEFAULT_WATCH,
    of,
  );

describe('a wind against a limit that says how it is measured', () => {
  it('is itself where height and averaging are the same', () => {
    expect(valueFor(FIRE_WEATHER, 6.096, 600)).toEqual({ value: 10, low: 10, high: 10 });
    expect(valueFor(PLAIN, 10, 120)).toEqual({ value: 10, low: 10, high: 10 });
    expect(valueFor({ heightM: 2, averagingS: 120 }, 2, 120)).toEqual({ value: 10, low: 10, high: 10 });
  });

  it('lies between two values where the height differs, whichever is higher', () => {
    const { roughnessM } = DEFAULT_WATCH.limits;
    const factor = Math.log(10 / roughnessM) / Math.log(6.096 / roughnessM);
    const up = valueFor({ ...PLAIN, heightM: 10 }, 6.096, 120);
    expect([up?.low, up?.high]).toEqual([10, expect.closeTo(10 * factor, 6)]);
    const down = valueFor({ ...PLAIN, heightM: 6.096 }, 10, 120);
    expect([down?.low, down?.high]).toEqual([expect.closeTo(10 / factor, 6), 10]);
  });

  it('lies between two values where the averaging differs: ten minutes hide a stronger two, and two show more than ten', () => {
    const hidden = valueFor({ ...PLAIN }, 10, 600);
    expect([hidden?.low, hidden?.high]).toEqual([10, expect.closeTo((10 * 1.66) / 1.55, 6)]);
    const shown = valueFor({ ...PLAIN, averagingS: 600 }, 10, 120);
    expect([shown?.low, shown?.high]).toEqual([expect.closeTo((10 * 1.55) / 1.66, 6), 10]);
  });
});

describe('what is judged and said of it', () => {
  const judged = (measured: WindMeasure | null, speed: number) => {
    const limit = limitOf('windSpeed', { high: { hold: '10 m/s' } });
    const limits = limitSet([measured ? { ...limit, measured } : limit]);
    const mast = { windHeightM: 6.096, windAveragingS: 600 };
    const observations = every(5, '11:00', '13:00', wandering(180, speed), mast);
    const condition = the(
      observedLimits(watchContextOf({ limits, observations })),
      'observed-beyond-limit',
      'windSpeed',
    );
    const reader = (language: 'en' | 'es') => ({
      language,
      units: 'si' as const,
      timeZone: 'America/Denver',
      day: null,
    });
    const say = (language: 'en' | 'es') =>
      sayCondition(
        condition,
        reader(language),
        { stationName: (id) => id, stationOf: () => null },
        clock('13:00'),
      );
    return { condition, en: say('en'), es: say('es') };
  };

  it('by a limit of the same wind 9 m/s is within 10 m/s', () => {
    expect(judged(FIRE_WEATHER, 8.5).condition).toMatchObject({ truth: 'false', figures: { what: null } });
  });

  it('by a limit of another wind it cannot be compared, counts as a hold, and is said so in both languages', () => {
    const { condition, en, es } = judged(null, 8.5);
    expect(condition).toMatchObject({ truth: 'unknown', verdict: 'hold', figures: { what: 'other-wind' } });
    expect(en).toMatch(/not comparable: measured at another height or over another time; counts as hold/);
    expect(es).toMatch(/no comparable: medido a otra altura o en otro tiempo; cuenta como sin leña/);
  });

  it('far within or surely beyond it is judged all the same', () => {
    expect(judged(null, 4).condition.truth).toBe('false');
    expect(judged(null, 11).condition).toMatchObject({ truth: 'true', verdict: 'hold' });
  });
});
