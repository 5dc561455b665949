// What a person types on the form for hand-held meters.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockTimeMs, parseInstantMs } from '#core/units/local-time.ts';
import { type Form, readForm } from '#sources/stations/posted-form.ts';
import { postedObservation } from '#sources/stations/posted-observation.ts';
import { station as sourceStation } from './fake-stations.ts';

const ZONE = 'America/Chicago';
const NOW = clockTimeMs('2026-03-02', '14:20', ZONE);
const { station } = sourceStation({ kind: 'posted' }, { id: 'meter', kind: 'person', calmBelowMps: 0.5 });

const judge = (form: Form, nowMs = NOW) => {
  const { reading, faults } = readForm({ station: 'meter', ...form }, { timeZone: ZONE, nowMs });
  const posted = postedObservation(reading, {
    stationNamed: () => ({
      station,
      directions: { reference: 'true', declinationDeg: 13, mountDeg: null },
    }),
    receivedAtMs: nowMs,
  });
  return { ...posted, faults: [...faults, ...posted.faults] };
};

describe('a form', () => {
  it('as it is filled in', () => {
    const { observation, faults } = judge({
      time: '14:05',
      windSpeed: '12mph',
      windDirection: 'sw',
      windGust: '18 MPH',
      relativeHumidity: '41',
      temperature: '72 F',
      reference: 'magnetic',
      windHeight: '6 feet',
      dewPoint: '',
    });
    expect(faults).toEqual([]);
    expect(observation).toMatchObject({
      station: 'meter',
      observedAtMs: clockTimeMs('2026-03-02', '14:05', ZONE),
      wind: { kind: 'blowing', fromDeg: 238, speedMps: expect.closeTo(12 * 0.44704, 9) },
      gustMps: expect.closeTo(18 * 0.44704, 9),
      relativeHumidityPct: 41,
      temperatureC: expect.closeTo(22.2222, 3),
      windHeightM: expect.closeTo(1.8288, 9),
      dewPointC: null,
    });
  });

  it.each([
    ['N', 360],
    ['nne', 22.5],
    ['SSW', 202.5],
    ['s.w.', 225],
    ['south-west', 225],
    ['South West', 225],
    ['O', 270],
    ['NO', 315],
    ['oso', 247.5],
    ['suroeste', 225],
    ['225', 225],
    ['225°', 225],
    ['225 deg', 225],
    ['0', 360],
    ['360', 360],
  ])('direction %s is %d', (windDirection, fromDeg) => {
    expect(judge({ windSpeed: '12 mph', windDirection }).observation?.wind).toMatchObject({
      kind: 'blowing',
      fromDeg,
    });
  });

  it.each([
    ['calm', '', { kind: 'calm' }],
    ['Calma', '', { kind: 'calm' }],
    ['', '0 mph', { kind: 'calm' }],
    ['variable', '5 m/s', { kind: 'variable', speedMps: 5 }],
    ['VRB', '18 kmh', { kind: 'variable', speedMps: 5 }],
    ['', '5 mps', { kind: 'missing', speedMps: 5 }],
  ])('direction %s with a speed of "%s"', (windDirection, windSpeed, expected) => {
    expect(judge({ windSpeed, windDirection, temperature: '20 C' }).observation?.wind).toEqual(expected);
  });

  it.each([
    ['windDirection', 'towards the road'],
    ['windDirection', 'NNNE'],
    ['windDirection', '1000'],
    ['windDirection', '400'],
    ['windSpeed', '12'],
    ['windSpeed', '12,5 mph'],
    ['windSpeed', 'strong'],
    ['windSpeed', '12 furlongs'],
    ['temperature', '72'],
    ['time', '25:00'],
    ['time', '14:60'],
    ['time', 'noon'],
    ['time', '2026-03-02'],
    ['reference', 'compass'],
  ])('%s "%s" is refused by its name', (field, text) => {
    const { observation, faults } = judge({ windSpeed: '12 mph', windDirection: 'SW', [field]: text });
    expect(faults.map((fault) => fault.field)).toContain(field);
    if (field !== 'windDirection') expect(observation).toBeNull();
    else expect(observation?.wind.kind ?? 'missing').toBe('missing');
  });

  it('that is empty is refused', () => {
    expect(judge({}).observation).toBeNull();
  });
});

describe('the time on the form', () => {
  const time = (text: string, nowMs = NOW) => {
    const { reading } = readForm({ time: text }, { timeZone: ZONE, nowMs });
    return parseInstantMs(String(reading['time']));
  };

  it.each([
    ['empty is now', '', '2026-03-02', '14:20'],
    ['earlier today', '9:05', '2026-03-02', '09:05'],
    ['with a point', '14.05', '2026-03-02', '14:05'],
    ['a few minutes ahead is today: a fast clock', '14:24', '2026-03-02', '14:24'],
    ['later than that was yesterday', '14:26', '2026-03-01', '14:26'],
    ['before midnight, told after it', '23:58', '2026-03-01', '23:58'],
  ])('%s', (_, text, date, clock) => {
    expect(time(text)).toBe(clockTimeMs(date, clock, ZONE));
  });

  it('an instant is taken as it is', () => {
    expect(time('2026-03-02T14:05:00-06:00')).toBe(clockTimeMs('2026-03-02', '14:05', ZONE));
  });

  it('in the doubled hour it is the last one that has been: 1 November 2026, 01:30', () => {
    const second = clockTimeMs('2026-11-01', '01:30', ZONE, 'later');
    const first = clockTimeMs('2026-11-01', '01:30', ZONE, 'earlier');
    expect(second - first).toBe(3_600_000);
    expect(time('1:30', second + 60_000)).toBe(second);
    expect(time('1:30', first + 60_000)).toBe(first);
  });
});

describe('any text', () => {
  it('never throws, and never blows from blanks', () => {
    const text = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc.constantFrom('', ' ', '0', 'N', '12 mph', 'calm', '-'),
    );
    fc.assert(
      fc.property(text, text, text, (windSpeed, windDirection, time) => {
        const { observation } = judge({ windSpeed, windDirection, time });
        if (observation?.wind.kind !== 'blowing') return;
        expect(windSpeed.trim()).not.toBe('');
        expect(windDirection.trim()).not.toBe('');
      }),
      { numRuns: 1000 },
    );
  });
});
