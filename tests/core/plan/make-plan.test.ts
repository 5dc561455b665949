import { describe, expect, it } from 'vitest';
import { makePlan, planCalendar } from '#core/plan/make-plan.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { alertOf, alertsSeen } from '../../builders/alerts.ts';
import { byClock, core } from '../../builders/forecast.ts';
import { inputOf, verdictAt } from '../../builders/plan.ts';
import { PLAIN_SITE, shiftOf, siteWith } from '../../builders/site.ts';
import { at, minutes } from '../../builders/time.ts';

const DATE = '2026-03-02';
const roundTheClock = shiftOf('00:00', '00:00');

describe('a plan', () => {
  it('has the days asked for, no more', () => {
    const plan = makePlan(inputOf({ dayCount: 3 }));
    expect(plan.days.map((d) => d.day.date)).toEqual(['2026-03-02', '2026-03-03', '2026-03-04']);
    expect(makePlan(inputOf({ dayCount: 0 })).days).toEqual([]);
  });

  it('made with a calendar made before is the same plan', () => {
    const input = inputOf({ dayCount: 2 });
    const calendar = planCalendar(input.site, input.firstDate, input.dayCount);
    expect(makePlan({ ...input, calendar })).toEqual(makePlan(input));
  });

  it('changes nothing that it was given', () => {
    const input = inputOf({ dayCount: 2, weather: { windGust: 1, windSpeed: 5 } });
    const before = structuredClone(input);
    makePlan(input);
    expect(input).toEqual(before);
  });

  it('has windows on whole minutes: a go begins after the second of the sunrise and ends before that of the sunset', () => {
    const site = siteWith({
      daylight: { lightUpAfterSunriseMin: 60, outBeforeSunsetMin: 60 },
      shifts: [shiftOf('05:00', '20:00')],
    });
    const plan = makePlan(inputOf({ site }));
    const edges = plan.windows.filter((w) => w.verdict === 'go').flatMap((w) => [w.fromMs, w.toMs]);
    expect(edges.length).toBeGreaterThan(0);
    for (const ms of edges) expect(ms % MINUTE_MS, new Date(ms).toISOString()).toBe(0);
  });
});

describe('windows around an alert that begins and ends within a minute', () => {
  const alert = alertOf('Wind Advisory', at(`${DATE} 10:30`) + 30_000, at(`${DATE} 11:00`) + 30_000);
  const plan = makePlan(inputOf({ alerts: alertsSeen(at(`${DATE} 06:00`), [alert]) }));

  it('lie on whole minutes, on the strict side', () => {
    const edges = plan.windows.filter((w) => w.verdict === 'go').flatMap((w) => [w.fromMs, w.toMs]);
    expect(edges.filter((ms) => ms % MINUTE_MS !== 0).map((ms) => new Date(ms).toISOString())).toEqual([]);
    const told = [at(`${DATE} 10:30`), at(`${DATE} 11:00`), at(`${DATE} 11:01`)].map((ms) =>
      verdictAt(plan, ms),
    );
    expect(told).toEqual(['hold', 'hold', 'go']);
  });
});

describe('the verdict of an instant', () => {
  const verdicts = (ms: readonly number[], dayCount: number, site = PLAIN_SITE, weather = {}) => {
    const plan = makePlan(inputOf({ site, dayCount, weather }));
    return ms.map((t) => verdictAt(plan, t));
  };
  const everyHour = Array.from({ length: 24 }, (_, h) => at(`${DATE} 00:00`) + h * HOUR_MS);

  it('does not depend on how many days were asked for', () => {
    expect(verdicts(everyHour, 1)).toEqual(verdicts(everyHour, 4));
    const site = siteWith({ shifts: [roundTheClock] });
    const weather = { windSpeed: byClock('windSpeed', { '00:00': '7 mph', '2026-03-03 00:00': '16 mph' }) };
    expect(verdicts(everyHour, 1, site, weather)).toEqual(verdicts(everyHour, 4, site, weather));
  });

  it('looks as far ahead as burn-down and cover ask, be it two days', () => {
    // Burn-down 24 h and cover 24 h: go at 12:00 on the 2nd promises until 12:00 on the 4th; the stop is at 06:00 on the 4th.
    const site = siteWith({
      shifts: [roundTheClock],
      burn: { warmUpMin: 0, kindlingMin: 0, burnDownMin: 1440, coverMin: 1440, shortestRunMin: 0 },
    });
    const weather = {
      windSpeed: byClock('windSpeed', {
        '00:00': '7 mph',
        '2026-03-04 06:00': '16 mph',
        '2026-03-05 00:00': '7 mph',
      }),
    };
    const noon = [at(`${DATE} 12:00`)];
    expect(verdicts(noon, 4, site, weather)).toEqual(['hold']);
    expect(verdicts(noon, 1, site, weather)).toEqual(['hold']);
  });

  it('is no go at the end of what was judged either: what comes after was not looked at', () => {
    const site = siteWith({ shifts: [roundTheClock] });
    const weather = {
      windSpeed: (ms: number) => (ms >= at('2026-03-04 00:00') ? 20 : core('windSpeed', '7 mph')),
    };
    const late = [at('2026-03-03 23:00')];
    expect(verdicts(late, 4, site, weather)).toEqual(['hold']);
    expect(verdicts(late, 1, site, weather)).toEqual(['hold']);
  });
});

describe('until when a plan may be shown', () => {
  // In the evening, when no window begins before seven the next morning: only ages can change the plan.
  const now = at(`${DATE} 20:00`);
  const evening = (issuedAgoMin: number, readAgoMin: number) => {
    const input = inputOf({ nowMs: now, alerts: alertsSeen(now - minutes(readAgoMin)) });
    return { ...input, forecast: { ...input.forecast, issuedAtMs: now - minutes(issuedAgoMin) } };
  };
  const goodFor = (issued: number, read: number) =>
    (makePlan(evening(issued, read)).goodUntilMs - now) / MINUTE_MS;

  // Warned at 480, stale at 840, alerts old at 120 minutes.
  it.each([
    [60, 0, 120],
    [60, 90, 30],
    [470, 0, 10],
    // Old already: told with its age, which is told anew every 15 minutes.
    [480, 0, 15],
    [830, 0, 10],
    [-5, 0, 5],
  ])('issued %d and alerts read %d minutes ago: %d minutes', (issued, read, expected) => {
    expect(goodFor(issued, read)).toBe(expected);
  });

  it('with every age past already, only the telling of the age grows old', () => {
    expect(goodFor(900, 200)).toBe(15);
  });

  it('its windows stand unchanged until then and change there', () => {
    const input = evening(60, 0);
    const { goodUntilMs } = makePlan(input);
    const verdicts = (nowMs: number) =>
      makePlan({ ...input, nowMs }).windows.map((w) => [w.verdict, w.fromMs, w.toMs]);
    expect(verdicts(goodUntilMs - 1)).toEqual(verdicts(now));
    expect(verdicts(goodUntilMs)).not.toEqual(verdicts(now));
  });

  it('it never tells of a next change that has passed', () => {
    for (const nowMs of [at(`${DATE} 06:00`), at(`${DATE} 06:55`), at(`${DATE} 15:20`)]) {
      const { days, goodUntilMs } = makePlan(inputOf({ nowMs, alerts: alertsSeen(nowMs) }));
      const next = days[0]?.wouldChange.next;
      if (next) expect(goodUntilMs, `at ${new Date(nowMs).toISOString()}`).toBeLessThanOrEqual(next.atMs);
    }
  });
});
