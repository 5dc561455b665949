import { describe, expect, it } from 'vitest';
import { clockTimeOn, localDaysFrom } from '#core/site/local-day.ts';
import { clockTimeMs } from '#core/units/local-time.ts';

const ZONES = [
  'America/New_York',
  'America/Adak',
  'America/Anchorage',
  'America/Phoenix',
  'America/Puerto_Rico',
  'America/Havana',
  'Pacific/Guam',
  'Pacific/Chatham',
  'Australia/Lord_Howe',
  'Australia/Adelaide',
  'Asia/Kolkata',
  'Asia/Kathmandu',
];

describe('a clock time within a local day', () => {
  it.each(ZONES)('in %s is what the zone says, on every day of 2026', (zone) => {
    for (const day of localDaysFrom('2026-01-01', 365, zone)) {
      for (const clock of ['00:00', '01:30', '02:30', '07:00', '23:59']) {
        for (const doubled of ['earlier', 'later'] as const) {
          expect(clockTimeOn(day, clock, zone, doubled), `${day.date} ${clock} ${doubled}`).toBe(
            clockTimeMs(day.date, clock, zone, doubled),
          );
        }
      }
    }
  });
});
