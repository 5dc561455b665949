// A second reading of the rules, minute by minute and written apart from the program: whatever the plan calls go must pass it.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import type { Plan } from '#core/plan/plan.ts';
import type { ElementLimit } from '#core/score/limit.ts';
import type { ProtectedPlace } from '#core/site/site.ts';
import { clockPartsAt } from '#core/units/local-time.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import { type Scenario, scenarioArb, seriesStartMs, toInput } from '../builders/scenario.ts';

const SEED = 20_261_126;

function forecastValue(
  s: Scenario,
  element: keyof Scenario['values'] | 'ventilationRate',
  ms: number,
): number | null {
  const at = (e: keyof Scenario['values']) =>
    s.values[e]?.[Math.floor((ms - seriesStartMs(s)) / (3 * HOUR_MS))] ?? null;
  if (element === 'ventilationRate') {
    const [height, wind] = [at('mixingHeight'), at('transportWindSpeed')];
    return height === null || wind === null ? null : height * wind;
  }
  const value = at(element as keyof Scenario['values']);
  return value === null || element !== 'windGust' ? value : Math.max(value, at('windSpeed') ?? value);
}

const within = (spans: readonly { fromMs: number; toMs: number }[], ms: number): boolean =>
  spans.some((x) => x.fromMs <= ms && ms < x.toMs);

/** 0 met, 1 hold, 2 stop, 3 nobody can say. */
function gradeOf(limit: ElementLimit, value: number | null): 0 | 1 | 2 | 3 {
  if (value === null) return 3;
  const { atLeast: low, atMost: high } = limit;
  if ((low?.stop && value <= low.stop.value) || (high?.stop && value >= high.stop.value)) return 2;
  return (low?.hold && value <= low.hold.value) || (high?.hold && value >= high.hold.value) ? 1 : 0;
}

function smokeOn(place: ProtectedPlace, windFrom: number): boolean {
  for (let b = place.fromBearingDeg - place.marginDeg; ; b += 1) {
    if ((((windFrom + 180 - b) % 360) + 360) % 360 === 0) return true;
    if ((((b - place.toBearingDeg - place.marginDeg) % 360) + 360) % 360 === 0) return false;
  }
}

/** `08:05` on the site's clock. */
function clockAt(s: Scenario, ms: number): string {
  const { hour, minute } = clockPartsAt(ms, s.site.timeZone);
  return `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
}

/** What is wrong with a fire burning at this minute; empty where nothing is. */
function mustBeOut(s: Scenario, plan: Plan, ms: number): string[] {
  const faults: string[] = [];
  if (!within(plan.calendar.shifts, ms)) faults.push('off shift');
  const day = within(plan.calendar.daylight, ms);
  if (s.site.daylight) {
    const light = plan.calendar.daylight.find((l) => l.fromMs <= ms && ms < l.toMs);
    if (!light) faults.push('dark');
    else if (light.endsAtSunset && ms >= light.toMs - 60 * MINUTE_MS) faults.push('near sunset');
  }
  for (const limit of s.limits.elements) {
    if (limit.when !== 'always' && (limit.when === 'day') !== day) continue;
    const grade = gradeOf(limit, forecastValue(s, limit.element as keyof Scenario['values'], ms));
    if (grade >= 2) faults.push(`${limit.element} ${grade}`);
  }
  for (const place of s.site.protected) {
    const [from, speed] = [forecastValue(s, 'windDirection', ms), forecastValue(s, 'windSpeed', ms)];
    if (from === null || speed === null || smokeOn(place, from)) faults.push('smoke');
  }
  const covers = (x: { fromMs: number | null; toMs: number | null }) =>
    (x.fromMs ?? ms) <= ms && ms < (x.toMs ?? ms + 1);
  const bad = ['Red Flag Warning', 'unreadable alert'];
  if (s.alerts?.alerts.some((a) => bad.includes(a.event) && covers(a))) faults.push('alert');
  if (s.site.orders.some(covers)) faults.push('order');
  if (s.limits.clock.some((c) => c.outBy !== null && clockAt(s, ms) >= c.outBy)) faults.push('out by');
  return faults;
}

/** What is wrong with lighting or charging at this minute, the fire apart. */
function mustNotCharge(s: Scenario, plan: Plan, ms: number): string[] {
  const faults: string[] = [];
  // A shift that follows on another finds the blower running.
  const worked = plan.calendar.shifts.find(
    (x) =>
      x.fromMs <= ms &&
      ms < x.toMs &&
      !plan.calendar.shifts.some((y) => y !== x && y.fromMs < x.fromMs && y.toMs >= x.fromMs),
  );
  if (worked && ms < worked.fromMs + s.site.burn.warmUpMin * MINUTE_MS) faults.push('warming up');
  const light = plan.calendar.daylight.find((l) => l.fromMs <= ms && ms < l.toMs);
  if (s.site.daylight && light?.beginsAtSunrise && ms < light.fromMs + 60 * MINUTE_MS)
    faults.push('soon after sunrise');
  for (const { lightFrom, lastChargeBy } of s.limits.clock) {
    if (lightFrom !== null && clockAt(s, ms) < lightFrom) faults.push('light from');
    if (lastChargeBy !== null && clockAt(s, ms) >= lastChargeBy) faults.push('last charge by');
  }
  const applying = s.limits.elements.filter(
    (l) => l.when === 'always' || (l.when === 'day') === (light !== undefined),
  );
  if (applying.length === 0) faults.push('nothing judged');
  for (const limit of applying)
    if (gradeOf(limit, forecastValue(s, limit.element as keyof Scenario['values'], ms)) > 0)
      faults.push(limit.element);
  if (s.site.protected.length > 0 && (forecastValue(s, 'windSpeed', ms) ?? 0) < s.site.smoke.unsureBelowMps)
    faults.push('too light');
  if (
    s.alerts?.alerts.some(
      (a) => a.event === 'Wind Advisory' && (a.fromMs ?? 0) <= ms && ms < (a.toMs ?? ms + 1),
    )
  )
    faults.push('advisory');
  return faults;
}

describe('go', () => {
  it('is said of no minute that a second reading of the rules would not allow, burn-down and cover included', () => {
    let goMinutes = 0;
    fc.assert(
      fc.property(scenarioArb, (s) => {
        const plan = makePlan(toInput(s));
        const [day] = plan.days;
        if (!day) return;
        const needMs = (s.site.burn.burnDownMin + s.site.burn.coverMin) * MINUTE_MS;
        for (
          let ms = Math.ceil(day.frame.fromMs / MINUTE_MS) * MINUTE_MS;
          ms < day.frame.toMs;
          ms += 7 * MINUTE_MS
        ) {
          if (windowAt(plan.windows, ms)?.verdict !== 'go') continue;
          goMinutes += 1;
          const faults = [...mustNotCharge(s, plan, ms), ...mustBeOut(s, plan, ms)];
          for (let t = ms; t < ms + needMs; t += 5 * MINUTE_MS) faults.push(...mustBeOut(s, plan, t));
          if (faults.length > 0)
            throw new Error(`go at ${new Date(ms).toISOString()}: ${[...new Set(faults)].join()}`);
        }
      }),
      { seed: SEED, numRuns: 300 },
    );
    expect(goMinutes, 'the scenarios must have go in them').toBeGreaterThan(1000);
  });

  it('and the three times of a day lie in go, in order, with the pit covered before anything forces the fire out', () => {
    let days = 0;
    fc.assert(
      fc.property(scenarioArb, (s) => {
        const plan = makePlan(toInput(s));
        const times = plan.days[0]?.times;
        if (!times) return;
        days += 1;
        expect(windowAt(plan.windows, times.lightUpMs)?.verdict).toBe('go');
        expect(windowAt(plan.windows, times.lastChargeMs - 1)?.verdict).toBe('go');
        expect(times.warmUpMs).toBeLessThanOrEqual(times.lightUpMs);
        expect(times.lightUpMs).toBeLessThan(times.lastChargeMs);
        expect(times.lastChargeMs).toBeLessThanOrEqual(times.burnedDownMs);
        expect(times.burnedDownMs).toBeLessThanOrEqual(times.coveredByMs);
        for (
          let t = Math.ceil(times.lightUpMs / MINUTE_MS) * MINUTE_MS;
          t < times.coveredByMs;
          t += 5 * MINUTE_MS
        ) {
          expect(mustBeOut(s, plan, t), `${new Date(t).toISOString()} between light-up and covered`).toEqual(
            [],
          );
        }
      }),
      { seed: SEED, numRuns: 300 },
    );
    expect(days).toBeGreaterThan(50);
  });
});
