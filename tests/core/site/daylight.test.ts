import { AstroTime, Body, Equator, Horizon, Observer } from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import { daylightOver } from '#core/site/daylight.ts';
import type { Place } from '#core/site/site.ts';
import { DAY_MS, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { instant } from '../../builders/time.ts';

const PLACES: readonly (readonly [string, number, number])[] = [
  ['Phoenix', 33.4484, -112.074],
  ['San Juan PR', 18.4655, -66.1057],
  ['Guam', 13.4443, 144.7937],
  ['Fairbanks', 64.8378, -147.7164],
  ['Utqiagvik', 71.2906, -156.7886],
  ['just west of the date line', 52.9, 179.9],
  ['just east of the date line', 52.9, -179.9],
  ['Greenwich', 51.4779, 0],
  ['Adelaide', -34.9285, 138.6007],
  ['on the polar circle', 66.56, -145],
  ['in the far south', -72, 20],
];
const MOMENT = new Date(0);

/** Altitude of the sun's centre [deg] without refraction, by astronomy-engine. */
function altitudeDeg(observer: Observer, ms: number): number {
  MOMENT.setTime(ms);
  const time = new AstroTime(MOMENT);
  const { ra, dec } = Equator(Body.Sun, time, observer, true, true);
  return Horizon(time, observer, ra, dec).altitude;
}

/** The sun is up where its centre is above -50' (US Naval Observatory definition of sunrise and sunset). */
const HORIZON_DEG = -50 / 60;

/**
 * Where the polar day begins and ends the sun grazes the horizon for hours, and the library may say dark while the sun
 * is up by less than this: the strict side. It may never say light while the sun is down.
 */
const GRAZING_DEG = 0.1;

const placeOf = (latDeg: number, lonDeg: number): Place => ({ latDeg, lonDeg });

describe('daylight over the year 2026, against the altitude of the sun by astronomy-engine', () => {
  it.each(PLACES)(
    '%s: light and dark agree every 20 minutes of every tenth day, but for a minute around the events',
    (_, latDeg, lonDeg) => {
      const observer = new Observer(latDeg, lonDeg, 0);
      const wrong: string[] = [];
      let judged = 0;
      for (
        let day = instant('2026-01-01T00:00:00Z');
        day < instant('2027-01-01T00:00:00Z');
        day += 10 * DAY_MS
      ) {
        const light = daylightOver(placeOf(latDeg, lonDeg), { fromMs: day, toMs: day + DAY_MS });
        for (let ms = day; ms < day + DAY_MS; ms += 20 * MINUTE_MS) {
          const up = altitudeDeg(observer, ms) > HORIZON_DEG;
          const edge =
            altitudeDeg(observer, ms - MINUTE_MS) > HORIZON_DEG !== up ||
            altitudeDeg(observer, ms + MINUTE_MS) > HORIZON_DEG !== up;
          if (edge) continue;
          judged += 1;
          const lit = light.some((l) => l.fromMs <= ms && ms < l.toMs);
          if (lit && !up) wrong.push(`lit but down at ${new Date(ms).toISOString()}`);
          if (!lit && up && altitudeDeg(observer, ms) > GRAZING_DEG)
            wrong.push(`dark but up at ${new Date(ms).toISOString()}`);
        }
      }
      expect(judged).toBeGreaterThan(2500);
      expect(wrong).toEqual([]);
    },
  );
});

describe('daylight where the polar day begins and ends', () => {
  // Light that lies beyond the truth by more than this is a false go; the sun then grazes the horizon.
  const SURELY_DOWN_DEG = HORIZON_DEG - 0.1;

  it.each([
    ['Utqiagvik, May', 71.2906, -156.7886, '2026-05-05'],
    ['Utqiagvik, end of July and August', 71.2906, -156.7886, '2026-07-28'],
    ['Utqiagvik, November', 71.2906, -156.7886, '2026-11-14'],
    ['Utqiagvik, January', 71.2906, -156.7886, '2026-01-18'],
    ['on the polar circle in June', 66.2, -145, '2026-06-08'],
  ])('%s: no sun where there is none, nearest ten minutes of twelve days', (_, latDeg, lonDeg, date) => {
    const observer = new Observer(latDeg, lonDeg, 0);
    const fromMs = instant(`${date}T00:00:00Z`);
    const span = { fromMs, toMs: fromMs + 12 * DAY_MS };
    const light = daylightOver(placeOf(latDeg, lonDeg), span);
    const wrong: string[] = [];
    for (let ms = span.fromMs; ms < span.toMs; ms += 10 * MINUTE_MS) {
      const altitude = altitudeDeg(observer, ms);
      const lit = light.some((l) => l.fromMs <= ms && ms < l.toMs);
      if (lit && altitude < SURELY_DOWN_DEG)
        wrong.push(`${new Date(ms).toISOString()} lit at ${altitude.toFixed(2)}`);
      if (!lit && altitude > GRAZING_DEG)
        wrong.push(`${new Date(ms).toISOString()} dark at ${altitude.toFixed(2)}`);
    }
    expect(wrong).toEqual([]);
  });

  it('polar day is one stretch without sunrise or sunset', () => {
    const june = daylightOver(placeOf(71.2906, -156.7886), {
      fromMs: instant('2026-06-10T00:00:00Z'),
      toMs: instant('2026-06-20T00:00:00Z'),
    });
    expect(june.length).toBe(1);
    expect(june[0]).toMatchObject({ beginsAtSunrise: false, endsAtSunset: false });
    expect(june[0]?.fromMs).toBeLessThanOrEqual(instant('2026-06-10T00:00:00Z'));
    expect(june[0]?.toMs).toBeGreaterThanOrEqual(instant('2026-06-20T00:00:00Z'));
  });

  it('polar night is nothing', () => {
    expect(
      daylightOver(placeOf(71.2906, -156.7886), {
        fromMs: instant('2026-12-10T00:00:00Z'),
        toMs: instant('2026-12-20T00:00:00Z'),
      }),
    ).toEqual([]);
  });
});

describe('whatever the span', () => {
  it('the same day is the same daylight, wherever the span begins and however long it is', () => {
    for (const [, latDeg, lonDeg] of PLACES.slice(0, 4)) {
      const noon = instant('2026-04-15T12:00:00Z') - (lonDeg / 15) * HOUR_MS;
      const edges = (from: number, to: number) =>
        daylightOver(placeOf(latDeg, lonDeg), { fromMs: from, toMs: to }).filter(
          (l) => l.fromMs <= noon && noon < l.toMs,
        );
      const whole = edges(noon - 3 * DAY_MS, noon + 3 * DAY_MS);
      expect(whole.length).toBe(1);
      for (let shift = -23; shift < 24; shift += 1) {
        const other = edges(noon - DAY_MS + shift * HOUR_MS, noon + DAY_MS + shift * 1800_000);
        expect(Math.abs((other[0]?.fromMs ?? 0) - (whole[0]?.fromMs ?? 1))).toBeLessThan(1000);
        expect(Math.abs((other[0]?.toMs ?? 0) - (whole[0]?.toMs ?? 1))).toBeLessThan(1000);
      }
    }
  });

  it('stretches are in order, apart, and of positive length', () => {
    for (const [name, latDeg, lonDeg] of PLACES) {
      const light = daylightOver(placeOf(latDeg, lonDeg), {
        fromMs: instant('2026-01-01T00:00:00Z'),
        toMs: instant('2027-01-01T00:00:00Z'),
      });
      for (const [i, l] of light.entries()) {
        expect(l.toMs, name).toBeGreaterThan(l.fromMs);
        if (i > 0) expect(l.fromMs, name).toBeGreaterThan(light[i - 1]?.toMs ?? Number.POSITIVE_INFINITY);
      }
    }
  });
});
