import { describe, expect, it } from 'vitest';
import type { Observation } from '#core/watch/observation.ts';
import { forecastSmoke, observedSmoke } from '#core/watch/smoke.ts';
import { windNow } from '#core/watch/wind-now.ts';
import { forecastOf, type Sketch, seriesOf } from '../../builders/forecast.ts';
import { PLAIN_SITE } from '../../builders/site.ts';
import { AIRPORT, clock, every, ON_SITE, seen } from '../../builders/watch.ts';
import { watchInput } from '../../builders/watch-input.ts';

const STATIONS = [ON_SITE, AIRPORT];
const observed = (observations: readonly Observation[]) =>
  observedSmoke(windNow(watchInput({ stations: STATIONS, observations })), STATIONS, PLAIN_SITE);
const steady = (wind: string) => every(5, '12:00', '13:00', wind);

describe('smoke by observations', () => {
  it('goes where the wind goes to, no narrower than a reported direction is sure', () => {
    expect(observed(steady('270 5'))).toEqual({
      kind: 'toward',
      towardDeg: expect.closeTo(90, 9),
      halfWidthDeg: 20,
      speedMps: expect.closeTo(5, 9),
      source: { kind: 'observed', station: 'mast', atMs: clock('13:00') },
    });
  });

  it('is as wide as the wind swings: twice the sigma on either side', () => {
    // Directions of the last minutes 340 and 20 in turns: their sigma is about 20 degrees (see wind-now.test.ts).
    const swings = observed(every(1, '12:30', '13:00', (m) => (m % 2 ? '340 6' : '20 6')));
    expect(swings).toMatchObject({ kind: 'toward' });
    expect(swings?.kind === 'toward' && swings.halfWidthDeg).toBeGreaterThan(35);
    expect(swings?.kind === 'toward' && swings.halfWidthDeg).toBeLessThan(45);
  });

  it('is wider by the word of a station elsewhere', () => {
    const airport = [
      seen('12:20', '270 5', { station: 'KXYZ' }),
      seen('12:53', '270 5', { station: 'KXYZ' }),
    ];
    expect(observed(airport)).toMatchObject({
      kind: 'toward',
      halfWidthDeg: 30,
      source: { station: 'KXYZ' },
    });
  });

  it.each([
    ['calm', 'calm'],
    ['VRB 3', 'variable'],
    ['270 1.2', 'light'],
  ])('%s has no sector and says so', (wind, kind) => {
    expect(observed(steady(wind))).toMatchObject({ kind, source: { kind: 'observed' } });
    expect(observed(steady(wind))).not.toHaveProperty('towardDeg');
  });

  it('nobody who tells the wind leaves it to the forecast', () => {
    expect(observed([])).toBeNull();
    expect(observed(steady('none 4'))).toBeNull();
    expect(observed(every(5, '09:00', '10:00', '270 5'))).toBeNull();
  });
});

describe('smoke by a forecast', () => {
  const START = clock('06:00');
  const of = (sketch: Sketch, when = '13:20', issued: number | null = clock('07:00')) =>
    forecastSmoke(forecastOf(seriesOf(START, 24, sketch), issued), PLAIN_SITE, clock(when));
  const WIND: Sketch = { windSpeed: 5, windDirection: 270 };

  it('is that of the hour', () => {
    const turning: Sketch = { windSpeed: 5, windDirection: (_, hour) => (hour < 7 ? 270 : 180) };
    expect(of(turning, '12:59')).toMatchObject({ towardDeg: 90, halfWidthDeg: 30 });
    expect(of(turning, '13:00')).toMatchObject({
      towardDeg: 0,
      source: { kind: 'forecast', atMs: clock('13:00'), issuedAtMs: clock('07:00') },
    });
  });

  it.each([
    ['no forecast', forecastSmoke(null, PLAIN_SITE, START), 'missing'],
    ['no direction', of({ windSpeed: 5 }), 'missing'],
    ['no speed', of({ windDirection: 270 }), 'missing'],
    ['an hour beyond its end', of(WIND, '13:20', clock('07:00')), 'toward'],
    ['light', of({ windSpeed: 1.4, windDirection: 270 }), 'light'],
    ['calm', of({ windSpeed: 0, windDirection: 270 }), 'calm'],
    ['calm without a direction', of({ windSpeed: 0 }), 'calm'],
    ['undated', of(WIND, '13:20', null), 'stale'],
    ['fourteen hours old', of(WIND, '21:00', clock('07:00')), 'stale'],
    ['of the future', of(WIND, '06:30', clock('07:00')), 'stale'],
  ])('%s', (_, smoke, kind) => {
    expect(smoke.kind).toBe(kind);
  });

  it('before its first hour nobody says', () => {
    const late = forecastOf(seriesOf(clock('14:00'), 24, WIND), clock('13:00'));
    expect(forecastSmoke(late, PLAIN_SITE, clock('13:20')).kind).toBe('missing');
  });
});
