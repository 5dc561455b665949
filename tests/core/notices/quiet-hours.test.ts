// Hours of quiet on the site's clock. Row 12: zones by name, half open, over midnight, and both nights on which the clock
// is changed (alertmanager#2646, grafana#48508). Clock changes of 2026 in the United States: 8 March and 1 November, at
// 02:00 (15 U.S.C. 260a).

import { describe, expect, it } from 'vitest';
import { inQuietHours } from '#core/notices/quiet-hours.ts';
import { parseInstantMs } from '#core/units/local-time.ts';

const CHICAGO = 'America/Chicago';
const NIGHT = { from: '20:00', to: '04:30' };

const quiet = (at: string, hours: { from: string; to: string } | null = NIGHT, zone = CHICAGO): boolean =>
  inQuietHours(hours, zone, parseInstantMs(at) ?? Number.NaN);

/** Minutes of quiet within two days from an instant. */
function minutesOfQuiet(from: string, hours: { from: string; to: string }): number {
  const fromMs = parseInstantMs(from) ?? Number.NaN;
  const minutes = Array.from({ length: 24 * 60 }, (_, i) => fromMs + i * 60_000);
  return minutes.filter((ms) => inQuietHours(hours, CHICAGO, ms)).length;
}

it('begin with their first moment, run over midnight, and are over at their last', () => {
  expect(quiet('2026-06-10T19:59:59.999-05:00')).toBe(false);
  expect(quiet('2026-06-10T20:00:00-05:00')).toBe(true);
  expect(quiet('2026-06-10T23:59:59.999-05:00')).toBe(true);
  expect(quiet('2026-06-11T00:00:00-05:00')).toBe(true);
  expect(quiet('2026-06-11T04:29:59.999-05:00')).toBe(true);
  expect(quiet('2026-06-11T04:30:00-05:00')).toBe(false);
});

it('within one day are within one day', () => {
  const noon = { from: '12:00', to: '13:00' };
  expect(
    ['11:59', '12:00', '12:59', '13:00', '23:59', '00:00'].map((t) =>
      quiet(`2026-06-10T${t}:00-05:00`, noon),
    ),
  ).toEqual([false, true, true, false, false, false]);
  const toMidnight = { from: '23:00', to: '00:00' };
  expect(quiet('2026-06-10T23:59:59.999-05:00', toMidnight)).toBe(true);
  expect(quiet('2026-06-11T00:00:00-05:00', toMidnight)).toBe(false);
});

it('none, and from and to the same, are no quiet at all', () => {
  expect(quiet('2026-06-10T23:00:00-05:00', null)).toBe(false);
  expect(quiet('2026-06-10T23:00:00-05:00', { from: '23:00', to: '23:00' })).toBe(false);
});

it('are those of the site, whatever zone the machine is in', () => {
  expect(quiet('2026-06-11T03:00:00Z', NIGHT, CHICAGO)).toBe(true);
  expect(quiet('2026-06-11T03:00:00Z', NIGHT, 'America/Los_Angeles')).toBe(true);
  expect(quiet('2026-06-11T02:00:00Z', NIGHT, 'America/Los_Angeles')).toBe(false);
  expect(quiet('2026-06-11T02:00:00Z', NIGHT, CHICAGO)).toBe(true);
});

describe('on the nights on which the clock is changed', () => {
  it('are one hour shorter in March and one longer in November', () => {
    expect(minutesOfQuiet('2026-03-06T12:00:00-06:00', NIGHT)).toBe(8.5 * 60);
    expect(minutesOfQuiet('2026-03-07T12:00:00-06:00', NIGHT)).toBe(7.5 * 60);
    expect(minutesOfQuiet('2026-10-31T12:00:00-05:00', NIGHT)).toBe(9.5 * 60);
  });

  it('that end with an hour that is skipped end with the hour after it', () => {
    const hours = { from: '20:00', to: '02:30' };
    expect(quiet('2026-03-08T01:59:59-06:00', hours)).toBe(true);
    expect(quiet('2026-03-08T03:29:59-05:00', hours)).toBe(true);
    expect(quiet('2026-03-08T03:30:00-05:00', hours)).toBe(false);
  });

  it('that end within the hour that comes twice end the first time, and do not come back', () => {
    const hours = { from: '20:00', to: '01:30' };
    expect(quiet('2026-11-01T01:29:59-05:00', hours)).toBe(true);
    expect(quiet('2026-11-01T01:30:00-05:00', hours)).toBe(false);
    expect(quiet('2026-11-01T01:10:00-06:00', hours)).toBe(false);
  });

  it('that begin within the hour that comes twice begin the second time', () => {
    const hours = { from: '01:30', to: '04:00' };
    expect(quiet('2026-11-01T01:40:00-05:00', hours)).toBe(false);
    expect(quiet('2026-11-01T01:40:00-06:00', hours)).toBe(true);
  });
});
