import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { daylight } from '#core/rules/daylight.ts';
import type { Finding, FindingCode } from '#core/rules/finding.ts';
import type { Site } from '#core/site/site.ts';
import { told } from '../../builders/findings.ts';
import { codesOf, contextOf, firstDay, hasGo, inputOf } from '../../builders/plan.ts';
import { shiftOf, siteWith } from '../../builders/site.ts';
import { clockOf, instant } from '../../builders/time.ts';

const MARGINS = { lightUpAfterSunriseMin: 60, outBeforeSunsetMin: 60 };

/** Washington DC, positions and times of docs/sources.md J.8. */
const WASHINGTON: Partial<Site> = {
  place: { latDeg: 38.8951, lonDeg: -77.0364 },
  timeZone: 'America/New_York',
  daylight: MARGINS,
};
const FAIRBANKS: Partial<Site> = {
  place: { latDeg: 64.8378, lonDeg: -147.7164 },
  timeZone: 'America/Anchorage',
  daylight: MARGINS,
  shifts: [shiftOf('00:00', '00:00')],
};
const UTQIAGVIK: Partial<Site> = { ...FAIRBANKS, place: { latDeg: 71.2906, lonDeg: -156.7886 } };

const findingsOn = (changes: Partial<Site>, firstDate: string) =>
  daylight(contextOf(inputOf({ site: siteWith(changes), firstDate })));

/** Expects a finding whose edges lie within 60 s of those given (the tolerance of J.8; edges may be set to whole minutes). */
function expectNear(findings: readonly Finding[], code: FindingCode, from: string, to: string): void {
  const [fromMs, toMs] = [instant(from), instant(to)];
  const near = findings.filter(
    (f) => f.code === code && Math.abs(f.fromMs - fromMs) <= 60_000 && Math.abs(f.toMs - toMs) <= 60_000,
  );
  const told = findings.map(
    (f) => `${f.code} ${new Date(f.fromMs).toISOString()} ${new Date(f.toMs).toISOString()}`,
  );
  expect(near.length, `${code} from ${from} to ${to} among ${told.join('; ')}`).toBe(1);
}

// Times of sunrise and sunset: docs/sources.md J.8.
describe('a day with sunrise and sunset', () => {
  it('is dark, too soon, light, too near sunset and dark: 21 Dec 2024 has the sun from 07:23:21 to 16:49:43', () => {
    const findings = findingsOn(WASHINGTON, '2024-12-21');
    expectNear(findings, 'soon-after-sunrise', '2024-12-21T07:23:21-05:00', '2024-12-21T08:23:21-05:00');
    expectNear(findings, 'near-sunset', '2024-12-21T15:49:43-05:00', '2024-12-21T16:49:43-05:00');
    expect(findings.filter((f) => f.code === 'dark').map((f) => f.verdict)).toContain('stop');
    expect(findings.filter((f) => f.code === 'near-sunset').every((f) => f.verdict === 'stop')).toBe(true);
    expect(findings.filter((f) => f.code === 'soon-after-sunrise').every((f) => f.verdict === 'hold')).toBe(
      true,
    );
    expect(
      findings.some(
        (f) => f.code === 'dark' && Math.abs(f.fromMs - instant('2024-12-21T16:49:43-05:00')) <= 60_000,
      ),
    ).toBe(true);
  });

  it('when the clock changes has margins of real hours (J.8 rows 122 and 123)', () => {
    const spring = findingsOn(WASHINGTON, '2024-03-10');
    expectNear(spring, 'soon-after-sunrise', '2024-03-10T07:26:17-04:00', '2024-03-10T08:26:17-04:00');
    expectNear(spring, 'near-sunset', '2024-03-10T18:10:44-04:00', '2024-03-10T19:10:44-04:00');
    const autumn = findingsOn(WASHINGTON, '2024-11-03');
    expectNear(autumn, 'soon-after-sunrise', '2024-11-03T06:38:08-05:00', '2024-11-03T07:38:08-05:00');
    expectNear(autumn, 'near-sunset', '2024-11-03T16:04:46-05:00', '2024-11-03T17:04:46-05:00');
  });

  it('has the window of Texas on 21 Dec 2024 in Austin: 08:23:34 to 16:35:13 (J.8 row 125)', () => {
    const austin = findingsOn(
      { ...WASHINGTON, place: { latDeg: 30.2672, lonDeg: -97.7431 }, timeZone: 'America/Chicago' },
      '2024-12-21',
    );
    expectNear(austin, 'soon-after-sunrise', '2024-12-21T07:23:34-06:00', '2024-12-21T08:23:34-06:00');
    expectNear(austin, 'near-sunset', '2024-12-21T16:35:13-06:00', '2024-12-21T17:35:13-06:00');
  });

  it('with margins of nothing has neither', () => {
    const findings = findingsOn(
      { ...WASHINGTON, daylight: { lightUpAfterSunriseMin: 0, outBeforeSunsetMin: 0 } },
      '2024-12-21',
    );
    expect(codesOf(findings)).toEqual(['dark']);
  });

  it('too short for its margins has no go: Fairbanks, 21 Dec 2024, 3 h 42 min of sun (J.8 row 129)', () => {
    const site = siteWith({
      ...FAIRBANKS,
      daylight: { lightUpAfterSunriseMin: 120, outBeforeSunsetMin: 120 },
    });
    expect(hasGo(makePlan(inputOf({ site, firstDate: '2024-12-21' })))).toBe(false);
  });
});

describe('a site that may burn by night', () => {
  it('has no findings of daylight', () => {
    expect(findingsOn({ ...WASHINGTON, daylight: null }, '2024-12-21')).toEqual([]);
  });
});

describe('days that have not both', () => {
  it('polar night is dark all day (Utqiagvik, 21 Dec 2024, J.8 row 132)', () => {
    expect(told(findingsOn(UTQIAGVIK, '2024-12-21'), '2024-12-21', 'America/Anchorage')).toEqual([
      'stop dark 2024-12-20 00:00-later',
    ]);
    expect(hasGo(makePlan(inputOf({ site: siteWith(UTQIAGVIK), firstDate: '2024-12-21' })))).toBe(false);
  });

  it('polar day has nothing to say (Utqiagvik, 20 Jun 2024, J.8 row 131)', () => {
    expect(findingsOn(UTQIAGVIK, '2024-06-20')).toEqual([]);
    expect(hasGo(makePlan(inputOf({ site: siteWith(UTQIAGVIK), firstDate: '2024-06-20' })))).toBe(true);
  });

  it('a sunset before the sunrise of the same date is that of the evening before (Fairbanks, 20 Jun 2024, J.8 row 130)', () => {
    const findings = findingsOn(FAIRBANKS, '2024-06-20');
    expectNear(findings, 'near-sunset', '2024-06-19T23:47:21-08:00', '2024-06-20T00:47:21-08:00');
    expectNear(findings, 'dark', '2024-06-20T00:47:21-08:00', '2024-06-20T02:57:43-08:00');
    expectNear(findings, 'soon-after-sunrise', '2024-06-20T02:57:43-08:00', '2024-06-20T03:57:43-08:00');
  });

  it('and its plan lights up after that sunrise and is covered an hour before the sunset of the next date', () => {
    const plan = makePlan(
      inputOf({
        site: siteWith({ ...FAIRBANKS, shifts: [shiftOf('06:00', '23:59')] }),
        firstDate: '2024-06-20',
      }),
    );
    const { times } = firstDay(plan);
    // On shift from 06:00, warm until 06:10. The sunset of the 21st is at 00:47, within a minute or two of the 20th's 00:47:21:
    // out by 23:47, hence the last charge at 22:17.
    expect(clockOf(times?.lightUpMs ?? 0, 'America/Anchorage')).toBe('2024-06-20 06:10');
    expect(Math.abs((times?.coveredByMs ?? 0) - instant('2024-06-20T23:47:21-08:00'))).toBeLessThan(120_000);
    expect((times?.coveredByMs ?? 0) - (times?.lastChargeMs ?? 0)).toBe(90 * 60_000);
  });
});
