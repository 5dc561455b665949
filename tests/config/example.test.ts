// What the operator writes, in the core's words and units. Conversions by the exact definitions (see quantity.test.ts).

import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { buildSite } from '#config/build-site.ts';
import {
  DEFAULT_ALERTS,
  DEFAULT_BURN,
  DEFAULT_QUALITY,
  DEFAULT_SMOKE,
  DEFAULT_WIND_SHIFT,
} from '#config/defaults.ts';
import { loadConfig } from '#config/load.ts';
import { limitSetNamed } from '#config/schema.ts';
import type { ElementLimit } from '#core/score/limit.ts';
import type { Site } from '#core/site/site.ts';
import { angleBetweenDeg } from '#core/units/direction.ts';
import { instant } from '../builders/time.ts';

const CONFIG = loadConfig(fileURLToPath(new URL('../../fixtures/config/example.yaml', import.meta.url)));

function siteNamed(id: string, pointZone = 'America/Chicago'): Site {
  const fields = CONFIG.sites.find((s) => s.id === id);
  const built = fields ? buildSite(CONFIG, fields, pointZone) : null;
  if (!built) throw new Error(`no site ${id}`);
  return built.site;
}

function limitOn(element: string, index = 0): ElementLimit {
  const limit = CONFIG.limitSets['bottomland']?.elements.filter((l) => l.element === element)[index];
  if (!limit) throw new Error(`no limit on ${element}`);
  return limit;
}
const figures = ({ atLeast, atMost }: ElementLimit) =>
  [atLeast?.stop, atLeast?.hold, atMost?.hold, atMost?.stop].map((b) =>
    b ? Number(b.value.toFixed(6)) : null,
  );

describe('limits', () => {
  it.each<[string, (number | null)[]]>([
    ['windSpeed', [null, 3 * 0.44704, 12 * 0.44704, 15 * 0.44704]],
    ['windGust', [null, null, null, 12.861111]], // 25 kt
    ['relativeHumidity', [20, 30, null, null]],
    ['mixingHeight', [null, 518.16, null, null]], // 1700 ft
    ['ventilationRate', [null, 2400, null, null]],
    ['probabilityOfThunder', [null, null, 15, 30]],
    ['probabilityOfPrecipitation', [null, null, 60, null]],
    ['temperature', [null, -6.666667, null, null]], // 20 °F
  ])('%s', (element, expected) => {
    expect(figures(limitOn(element))).toEqual(
      expected.map((v) => (v === null ? null : Number(v.toFixed(6)))),
    );
  });

  it('keep the unit and the source as they were written', () => {
    expect(limitOn('mixingHeight')).toMatchObject({
      atLeast: { hold: { unit: 'ft' } },
      source: 'permit 26-014',
      inclusive: false,
      when: 'always',
    });
    expect(limitOn('windGust').inclusive).toBe(true);
  });

  it('by day and by night stay apart; a plain index may be a number or a text', () => {
    expect(
      [limitOn('dispersionIndex'), limitOn('dispersionIndex', 1)].map((l) => [
        l.when,
        l.atLeast?.hold?.value,
      ]),
    ).toEqual([
      ['day', 40],
      ['night', 8],
    ]);
  });

  it('by category are bounds in m²/s: below category 3 hold, below 2 stop (38,000 and 28,500 kt-ft; docs/sources.md B.3)', () => {
    const limit = limitOn('ventilationRate', 1);
    expect([limit.atLeast?.stop?.value, limit.atLeast?.hold?.value].map((v) => Math.round(v ?? 0))).toEqual([
      4469, 5959,
    ]);
    expect(limit.categories).toEqual({
      name: 'NWS Blacksburg',
      unit: 'kt-ft',
      bounds: [28_500, 38_000, 51_000, 95_000],
      onBound: 'lower',
    });
    expect(limit.inclusive).toBe(false);
  });

  it('on the clock and by season', () => {
    const set = limitSetNamed(CONFIG, 'bottomland');
    expect(set?.clock).toEqual([
      { lightFrom: '08:00', lastChargeBy: '15:00', outBy: '17:00', source: 'permit 26-014' },
    ]);
    expect(set?.seasons).toEqual([{ from: '05-01', to: '09-30', verdict: 'stop', source: 'state rule' }]);
    expect(set?.name).toBe('bottomland');
    expect(['toString', 'nothing'].map((name) => limitSetNamed(CONFIG, name))).toEqual([null, null]);
  });
});

describe('a site with everything said', () => {
  const site = siteNamed('mill-bend', 'America/New_York');

  it('has its zone, shifts and holidays', () => {
    expect(site.timeZone).toBe('America/New_York');
    expect(site.shifts).toEqual([
      {
        days: ['mon', 'tue', 'wed', 'thu', 'fri'],
        from: '07:00',
        to: '17:00',
        holidays: ['2026-11-26', '2026-12-25'],
      },
      { days: ['sat'], from: '20:00', to: '04:00', holidays: [] },
    ]);
  });

  it('has its times in minutes', () => {
    expect(site.daylight).toEqual({ lightUpAfterSunriseMin: 90, outBeforeSunsetMin: 60 });
    expect(site.burn).toEqual({
      warmUpMin: 15,
      kindlingMin: 30,
      burnDownMin: 90,
      coverMin: 20,
      shortestRunMin: 180,
    });
    expect(site.quality).toEqual({ warnAfterMin: 360, holdAfterMin: 720, alertsHoldAfterMin: 90 });
  });

  it('has its smoke and wind shift in metres and metres a second', () => {
    expect(site.smoke.reachM).toBeCloseTo(2 * 1609.344, 6);
    expect(site.smoke.unsureBelowMps).toBeCloseTo((4 * 1852) / 3600, 9);
    expect(site.windShift).toMatchObject({ atLeastDeg: 60, withinHours: 1 });
    expect(site.windShift.atLeastMps).toBeCloseTo((10 * 1852) / 3600, 9);
    expect(site.gustFactor).toBe(1.6);
  });

  it('has its protected places, by bearing and by position', () => {
    const [road, school] = site.protected;
    expect(road).toEqual({
      name: 'county road',
      fromBearingDeg: 350,
      toBearingDeg: 40,
      distanceM: 804.672,
      marginDeg: 10,
      verdict: 'stop',
    });
    // A hundredth of a degree of longitude at 33.1° N: 1111.95 m × cos 33.1° = 931.5 m, due east.
    expect(school).toMatchObject({ name: 'school', marginDeg: 15, verdict: 'hold' });
    expect(angleBetweenDeg(school?.fromBearingDeg ?? 0, 90)).toBeLessThanOrEqual(1);
    expect(Math.abs((school?.distanceM ?? 0) - 931.5)).toBeLessThan(2);
  });

  it('has its own word on alerts, over the defaults', () => {
    expect(site.alertVerdicts).toMatchObject({
      'Special Weather Statement': 'hold',
      'Wind Advisory': 'stop',
      'Dense Smoke Advisory': 'go',
      'Red Flag Warning': 'stop',
    });
  });

  it('has its orders in local time: a date alone lasts through its day', () => {
    expect(site.orders).toEqual([
      {
        kind: 'order',
        name: 'outdoor burn ban, whole county',
        issuer: 'Pike county',
        fromMs: instant('2026-07-01T00:00:00-04:00'),
        toMs: instant('2026-07-16T00:00:00-04:00'),
        verdict: 'stop',
      },
      {
        kind: 'order',
        name: 'smoke day',
        issuer: 'air district',
        fromMs: instant('2026-07-20T06:30:00-04:00'),
        toMs: instant('2026-07-20T18:00:00-04:00'),
        verdict: 'hold',
      },
    ]);
  });
});

describe('a site with little said', () => {
  const site = siteNamed('far-hill');

  it('takes the zone of the forecast point, and the defaults', () => {
    expect(site.timeZone).toBe('America/Chicago');
    expect([site.burn, site.smoke, site.windShift, site.quality, site.alertVerdicts]).toEqual([
      DEFAULT_BURN,
      DEFAULT_SMOKE,
      DEFAULT_WIND_SHIFT,
      DEFAULT_QUALITY,
      DEFAULT_ALERTS,
    ]);
    expect([site.daylight, site.gustFactor, site.protected]).toEqual([null, null, []]);
  });

  it('has the orders for all sites alone, in its own zone', () => {
    expect(site.orders.map((o) => [o.name, o.fromMs])).toEqual([
      ['outdoor burn ban, whole county', instant('2026-07-01T00:00:00-05:00')],
    ]);
  });
});

describe('the defaults', () => {
  it('are those that the service promises', () => {
    // Warned after 8 h, hold after 14 h (our rule); 45 degrees (AFMAN 15-111, 7.4.5); the rest common practice, no source.
    expect([
      DEFAULT_QUALITY.warnAfterMin,
      DEFAULT_QUALITY.holdAfterMin,
      DEFAULT_WIND_SHIFT.atLeastDeg,
    ]).toEqual([480, 840, 45]);
    expect(DEFAULT_ALERTS).toMatchObject({
      'Red Flag Warning': 'stop',
      'High Wind Warning': 'stop',
      'Severe Thunderstorm Warning': 'stop',
      'Tornado Warning': 'stop',
      'Fire Weather Watch': 'hold',
      'Wind Advisory': 'hold',
      'Air Quality Alert': 'hold',
      'Air Stagnation Advisory': 'hold',
      'Dense Smoke Advisory': 'hold',
    });
  });
});

describe('a site whose zone keeps another clock than the forecast point', () => {
  it('holds, and says which two zones differ; one of the same clock does not', () => {
    const named = CONFIG.sites.find((s) => s.timeZone !== undefined)?.id ?? '';
    const doubts = (zone: string) =>
      siteNamed(named, zone)
        .orders.filter((o) => o.issuer === 'configuration')
        .map((o) => [o.name, o.verdict]);
    expect(doubts('America/Chicago')).toEqual([
      ['Time zone in doubt: America/New_York here, America/Chicago at the forecast point', 'hold'],
    ]);
    expect(doubts('America/Detroit')).toEqual([]);
  });
});
