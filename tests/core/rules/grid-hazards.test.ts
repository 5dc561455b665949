import { describe, expect, it } from 'vitest';
import { gridHazards } from '#core/rules/grid-hazards.ts';
import type { GridHazard, GridWeather } from '#core/series/forecast.ts';
import { one, told } from '../../builders/findings.ts';
import { contextOf, inputOf } from '../../builders/plan.ts';
import { at } from '../../builders/time.ts';

const DATE = '2026-03-02';
const SPAN = { fromMs: at(`${DATE} 12:00`), toMs: at(`${DATE} 16:00`) };

function foundFor(hazards: readonly GridHazard[], weather: readonly GridWeather[] = []) {
  const input = inputOf();
  return gridHazards(contextOf({ ...input, forecast: { ...input.forecast, hazards, weather } }));
}
const hazard = (phenomenon: string | null, significance: string | null): GridHazard => ({
  ...SPAN,
  phenomenon,
  significance,
});

describe('hazards that the grid flags', () => {
  // Phenomenon and significance codes: NWS Instruction 10-1703 (VTEC) and its table of phenomena.
  it.each([
    ['FW', 'W', 'stop', 'Red Flag Warning'],
    ['FW', 'A', 'hold', 'Fire Weather Watch'],
    ['HW', 'W', 'stop', 'High Wind Warning'],
    ['WI', 'Y', 'hold', 'Wind Advisory'],
    ['SM', 'Y', 'hold', 'Dense Smoke Advisory'],
    ['AS', 'Y', 'hold', 'Air Stagnation Advisory'],
  ])('%s.%s is %s, as the alert of that name is', (phenomenon, significance, verdict, event) => {
    const findings = foundFor([hazard(phenomenon, significance)]);
    expect(told(findings, DATE)).toEqual([`${verdict} grid-hazard 12:00-16:00`]);
    expect(one(findings, 'grid-hazard').figures.event).toBe(event);
  });

  it('whose list came empty are told as something, not read as none (recorded grids carry such lists)', () => {
    expect(one(foundFor([hazard(null, null)]), 'grid-hazard')).toMatchObject({
      verdict: 'go',
      figures: { event: null, phenomenon: null },
    });
  });

  it('that do not concern burning are advice', () => {
    expect(one(foundFor([hazard('WS', 'W')]), 'grid-hazard').verdict).toBe('go');
  });

  it('of another week say nothing', () => {
    expect(
      foundFor([
        { fromMs: at('2026-03-20 00:00'), toMs: at('2026-03-21 00:00'), phenomenon: 'FW', significance: 'W' },
      ]),
    ).toEqual([]);
  });
});

describe('weather that the grid expects', () => {
  it('is told where it bears on a burn, and passed over where it does not', () => {
    const weather = [
      { ...SPAN, weather: 'thunderstorms', coverage: 'chance' },
      { ...SPAN, weather: 'snow_showers', coverage: 'likely' },
    ];
    expect(told(foundFor([], weather), DATE)).toEqual(['go grid-weather 12:00-16:00']);
    expect(one(foundFor([], weather), 'grid-weather').figures).toEqual({
      weather: 'thunderstorms',
      coverage: 'chance',
    });
  });
});
