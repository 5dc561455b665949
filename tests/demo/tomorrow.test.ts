import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '#core/plan/plan.ts';
import type { Finding, FindingCode } from '#core/rules/finding.ts';
import type { Element } from '#core/series/elements.ts';
import { addDays, clockTimeMs, localDateAt } from '#core/units/local-time.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { cutWindows } from '#core/windows/find-windows.ts';
import { DEMO_CELLS } from '#demo/cells.ts';
import { weatherAt } from '#demo/hour-weather.ts';
import { clock, DEMO_CONFIG, dayOf, demoPlan, demoSite } from './demo-plans.ts';

const ZONE = 'America/Los_Angeles';
/** The first and the fifteenth of each month, the solstices, the latest sunrises by the clock, both clock changes, a leap day. */
const DATES = [
  ...Array.from({ length: 12 }, (_, m) => [1, 15].map((d) => `2026-${two(m + 1)}-${two(d)}`)).flat(),
  ...['2026-06-20', '2026-12-04', '2026-12-20', '2026-12-30', '2027-01-05', '2028-02-28', '2028-12-31'],
  ...['2026-03-06', '2026-03-07', '2026-03-08', '2026-10-30', '2026-10-31', '2026-11-01', '2026-11-02'],
];

const TIMES = ['00:00', '04:40', '08:20', '12:00', '17:05', '23:59'];

/** Two times of day for each date, in turn. */
const NOWS = DATES.flatMap((date, i) =>
  [TIMES[i % 3], TIMES[3 + (i % 3)]].map((time) => ({
    now: `${date} ${time}`,
    nowMs: clockTimeMs(date, String(time), ZONE),
  })),
);

function two(n: number): string {
  return String(n).padStart(2, '0');
}

const has = (causes: readonly Finding[], code: FindingCode, element: Element): boolean =>
  causes.some((f) => f.code === code && 'element' in f.figures && f.figures.element === element);

describe('config/demo.yaml', () => {
  it('has its three sites where the three grid cells are, in the zone that the cell names', () => {
    expect(DEMO_CONFIG.sites.map((s) => s.id)).toEqual(DEMO_CELLS.map((c) => c.siteId));
    for (const cell of DEMO_CELLS) {
      const { site } = demoSite(cell.siteId);
      expect(site.place).toEqual(cell.place);
      expect(site.timeZone).toBe(cell.timeZone);
    }
  });
});

function expectNorth(nowMs: number): void {
  const plan = demoPlan('north-block', nowMs, 2);
  expectGo(plan);
  expectTurn(plan);
}

function expectGo(plan: Plan): void {
  const { times, verdict, tightest } = dayOf(plan, 1);
  expect(verdict).toBe('go');
  if (!times) throw new Error('no times');
  expect(clock(times.lightUpMs, plan)).toBe('09:00');
  expect(has(times.lightUpCauses, 'under-limit', 'mixingHeight')).toBe(true);
  expect(['12:30', '13:30']).toContain(clock(times.lastChargeMs, plan));
  expect(times.coveredByMs - times.lastChargeMs).toBe(1.5 * HOUR_MS);
  expect(has(times.lastChargeCauses, 'over-limit', 'windGust')).toBe(true);
  expect(times.pauses).toEqual([]);
  expect(tightest && plan.limits.elements[tightest.limitIndex]?.element).toBe('windGust');
}

function expectTurn(plan: Plan): void {
  const day = dayOf(plan, 1);
  const turns = plan.findings.filter(
    (f) => f.code === 'wind-shift' && f.verdict === 'hold' && f.fromMs >= day.day.fromMs,
  );
  expect(turns.length).toBeGreaterThan(0);
  const smoke = plan.findings.find(
    (f) => f.code === 'smoke-reaches' && f.fromMs > clockMsOn(day.day.date, '07:00'),
  );
  if (!smoke) throw new Error('smoke never reaches the road');
  expect(['15:00', '16:00']).toContain(clock(smoke.fromMs, plan));
}

const clockMsOn = (date: string, time: string): number => clockTimeMs(date, time, ZONE);

function expectCreekLater(nowMs: number): void {
  const plan = demoPlan('creek-block', nowMs, 2);
  const { times, day } = dayOf(plan, 1);
  if (!times) throw new Error('no times');
  expect(clock(times.lightUpMs, plan)).toBe('11:00');
  expect(has(times.lightUpCauses, 'under-limit', 'mixingHeight')).toBe(true);
  expect(times.lastChargeMs - times.lightUpMs).toBeGreaterThan(3 * HOUR_MS);
  expect(times.lastChargeMs).toBeLessThanOrEqual(clockMsOn(day.date, '15:00'));
  expect(times.lastChargeCauses.some((f) => f.code === 'clock-charge' || f.code === 'near-sunset')).toBe(
    true,
  );
  const morning = { fromMs: Math.max(clockMsOn(day.date, '09:00'), day.fromMs), toMs: times.lightUpMs };
  expect(cutWindows(plan.windows, morning).map((w) => w.verdict)).toEqual(['hold']);
}

function expectRidgeStop(nowMs: number): void {
  const plan = demoPlan('ridge-block', nowMs, 2);
  const { day, verdict, times } = dayOf(plan, 1);
  expect(verdict).toBe('stop');
  expect(times).toBeNull();
  const shift = { fromMs: clockMsOn(day.date, '07:00'), toMs: clockMsOn(day.date, '17:00') };
  const stops = (element: Element) =>
    plan.findings.filter(
      (f) =>
        f.verdict === 'stop' &&
        'element' in f.figures &&
        f.figures.element === element &&
        f.fromMs <= shift.fromMs &&
        f.toMs >= shift.toMs,
    );
  expect(stops('windGust').length).toBe(1);
  expect(stops('relativeHumidity').length).toBe(1);
}

describe('tomorrow of the demonstration, whatever today is', () => {
  it.each(NOWS)('at $now: north block goes from 9:00 until gusts end it, then the wind turns', ({ nowMs }) =>
    expectNorth(nowMs),
  );
  it.each(NOWS)('at $now: creek block holds until 11:00, then goes', ({ nowMs }) => expectCreekLater(nowMs));
  it.each(NOWS)('at $now: ridge block is stop all working day', ({ nowMs }) => expectRidgeStop(nowMs));

  it('reads so at any moment of ten years', () => {
    const moment = fc.integer({ min: Date.UTC(2025, 0, 1), max: Date.UTC(2035, 0, 1) });
    fc.assert(
      fc.property(moment, (nowMs) => {
        expectNorth(nowMs);
        expectCreekLater(nowMs);
        expectRidgeStop(nowMs);
      }),
      { numRuns: 30 },
    );
  });
});

describe('the other days of the demonstration', () => {
  it.each(DEMO_CELLS)('at $siteId today reads what it read when it was tomorrow', ({ story, timeZone }) => {
    const before = weatherAt(story, timeZone, clockMsOn('2026-11-24', '23:30'));
    const after = weatherAt(story, timeZone, clockMsOn('2026-11-25', '00:10'));
    for (let h = 0; h < 24; h += 1) {
      const ms = clockMsOn('2026-11-25', '00:00') + h * HOUR_MS;
      expect(after(ms)).toEqual(before(ms));
    }
  });

  it('brings go, hold and a still day within a week at north block', () => {
    const plan = demoPlan('north-block', clockMsOn('2026-11-24', '06:00'));
    expect(plan.days.filter((d) => d.verdict === 'go').length).toBeGreaterThanOrEqual(3);
    expect(plan.days.filter((d) => d.verdict === 'hold').length).toBeGreaterThanOrEqual(3);
    const noons = plan.days.map((d) => clockMsOn(d.day.date, '12:00'));
    expect(
      plan.findings.some(
        (f) => f.code === 'smoke-unsure' && noons.some((ms) => f.fromMs <= ms && ms < f.toMs),
      ),
    ).toBe(true);
  });

  it('cannot be told at creek block after the mixing height has ended', () => {
    const nowMs = clockMsOn('2026-11-24', '06:00');
    const plan = demoPlan('creek-block', nowMs);
    const ended = plan.findings.find(
      (f) => f.code === 'element-missing' && f.figures.element === 'mixingHeight',
    );
    expect(ended && (ended.fromMs - plan.series.startMs) / HOUR_MS).toBe(74);
    expect(plan.days.some((d) => d.cannotSay)).toBe(true);
    expect(plan.days.slice(4).every((d) => d.times === null)).toBe(true);
  });

  it('differ from date to date where the same story is told', () => {
    const nowMs = clockMsOn('2026-11-24', '06:00');
    const at = weatherAt('turningWind', ZONE, nowMs);
    const tomorrow = addDays(localDateAt(nowMs, ZONE), 1);
    expect(at(clockMsOn(tomorrow, '10:00'))).not.toEqual(at(clockMsOn('2026-11-24', '10:00')));
  });
});
