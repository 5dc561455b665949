// Our daylight against 66 place-dates worked out by two independent libraries (docs/sources.md J.8, docs/sources.md).

import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { daylightOver } from '#core/site/daylight.ts';
import type { Place } from '#core/site/site.ts';
import { addDays, clockTimeMs, localDateAt, startOfDayMs } from '#core/units/local-time.ts';

const FILE = fileURLToPath(new URL('../../../../shared/reference/sun-check.txt', import.meta.url));
const TOLERANCE_MS = 60_000; // J.8

const place = (latDeg: number, lonDeg: number): Place => ({ latDeg, lonDeg });

/** Positions of J.8; Pensacola, which J.8 lacks, from memory. */
const PLACES: Readonly<Record<string, readonly [Place, string]>> = {
  'Washington DC': [place(38.8951, -77.0364), 'America/New_York'],
  'Atlanta GA': [place(33.749, -84.388), 'America/New_York'],
  'Miami FL': [place(25.7617, -80.1918), 'America/New_York'],
  'Pensacola FL': [place(30.4213, -87.2169), 'America/Chicago'],
  'Austin TX': [place(30.2672, -97.7431), 'America/Chicago'],
  'Denver CO': [place(39.7392, -104.9903), 'America/Denver'],
  'Phoenix AZ': [place(33.4484, -112.074), 'America/Phoenix'],
  'Seattle WA': [place(47.6062, -122.3321), 'America/Los_Angeles'],
  'Fairbanks AK': [place(64.8378, -147.7164), 'America/Anchorage'],
  'Utqiagvik AK': [place(71.2906, -156.7886), 'America/Anchorage'],
  'Honolulu HI': [place(21.3069, -157.8583), 'Pacific/Honolulu'],
};

/** Sunrises and sunsets that fall into a local date. */
function eventsOn(where: Place, date: string, zone: string): { rises: number[]; sets: number[] } {
  const day = { fromMs: startOfDayMs(date, zone), toMs: startOfDayMs(addDays(date, 1), zone) };
  const light = daylightOver(where, day);
  const inside = (ms: number) => ms >= day.fromMs && ms < day.toMs;
  return {
    rises: light.filter((l) => l.beginsAtSunrise && inside(l.fromMs)).map((l) => l.fromMs),
    sets: light.filter((l) => l.endsAtSunset && inside(l.toMs)).map((l) => l.toMs),
  };
}

function clockMs(date: string, text: string, zone: string): number {
  return clockTimeMs(date, text.slice(0, 5), zone) + Number(text.slice(6, 8)) * 1000;
}

function expectEvent(found: readonly number[], text: string, date: string, zone: string, what: string): void {
  if (text === 'none') {
    expect(found, what).toEqual([]);
    return;
  }
  const nearest = Math.min(...found.map((ms) => Math.abs(ms - clockMs(date, text, zone))));
  expect(
    nearest,
    `${what}: ${found.map((ms) => localDateAt(ms, zone)).join()} against ${text}`,
  ).toBeLessThanOrEqual(TOLERANCE_MS);
}

const there = existsSync(FILE);
if (!there) console.warn('skipped: ../shared/reference/sun-check.txt is not here');

describe.skipIf(!there)('daylight against the table of two libraries', () => {
  const rows = there
    ? readFileSync(FILE, 'utf8')
        .split('\n')
        .filter((line) => line.includes('|') && !line.startsWith('#'))
        .map((line) => line.split('|').map((cell) => cell.trim()))
    : [];

  it('finds all 66 rows, and a place for each', () => {
    expect(rows.length).toBe(66);
    for (const [name = ''] of rows) expect(Object.keys(PLACES)).toContain(name);
  });

  it.each(rows)('%s on %s', (name = '', date = '', _dawn, sunrise = '', sunset = '') => {
    const [where, zone] = PLACES[name] ?? [place(0, 0), 'UTC'];
    const { rises, sets } = eventsOn(where, date, zone);
    expectEvent(rises, sunrise, date, zone, 'sunrise');
    expectEvent(sets, sunset, date, zone, 'sunset');
  });
});

describe('daylight against single published rows (docs/sources.md J.8)', () => {
  it.each([
    ['Washington DC', '2024-12-21', '07:23:21', '16:49:43'], // row 121
    ['Washington DC', '2024-03-10', '07:26:17', '19:10:44'], // row 122, the day of the spring change
    ['Washington DC', '2024-11-03', '06:38:08', '17:04:46'], // row 123, the day of the autumn change
    ['Phoenix AZ', '2024-03-10', '06:44:22', '18:32:47'], // row 135, no clock change
    ['Fairbanks AK', '2024-12-21', '10:58:34', '14:40:09'], // row 129
    ['Fairbanks AK', '2024-06-20', '02:57:43', '00:47:21'], // row 130, the sunset comes before the sunrise
    ['Utqiagvik AK', '2024-06-20', 'none', 'none'], // row 131, polar day
    ['Utqiagvik AK', '2024-12-21', 'none', 'none'], // row 132, polar night
  ])('%s on %s', (name, date, sunrise, sunset) => {
    const [where, zone] = PLACES[name] ?? [place(0, 0), 'UTC'];
    const { rises, sets } = eventsOn(where, date, zone);
    expectEvent(rises, sunrise, date, zone, 'sunrise');
    expectEvent(sets, sunset, date, zone, 'sunset');
  });
});
