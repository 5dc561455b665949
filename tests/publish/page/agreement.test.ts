// Page, API and command line are asked at the same instants and must say the same, kept answers included.

import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { workingDayAt } from '#core/site/working-day.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import { hoursAnswer } from '#publish/answers/hours.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import { sitePage } from '#publish/page/site-page.ts';
import { type PlanAnswer, planSchema, type WindowsAnswer, windowsSchema } from '#publish/wire.ts';
import type { UnitSystem } from '#publish/wording/show.ts';
import { type Scenario, scenarioArb, toInput } from '../../builders/scenario.ts';
import { run } from '../../cli/run.ts';
import { type Running, startRunning } from '../../service/running.ts';
import { laneFaults } from './figure-faults.ts';
import { STORIES, siteView } from './invented-days.ts';
import { ageOf } from './read-page.ts';
import { strayNumbers } from './stray-numbers.ts';

const SEED = 20_261_125;

/** What the page shows: the mark of the day, and the chip of this moment. */
const marksOf = (page: string) => ({
  day: /<section class="call (\w+)"/.exec(page)?.[1],
  now: /<h2>Now<\/h2><p><span class="chip (\w+)"/.exec(page)?.[1],
});

/** The command line knows no stations: what is measured makes no difference here. */
const withoutStations = (yaml: string): string => yaml.replaceAll(/ {4}stations:\n(?: {6}- .*\n)+/g, '');

/** The texts to the crew, whose figures have tests of their own. */
const TEXT_OF = ({ text }: ReturnType<typeof siteView>): string =>
  text?.texts.map((t) => t.text).join(' ') ?? '';

const dayOf = ({ verdict, cannotSay }: PlanAnswer) => (cannotSay ? 'unsaid' : verdict);

function nowOf({ verdict, standing, reasons }: WindowsAnswer['windows'][number]): string {
  if (verdict === 'go') return standing === 'light' ? 'go' : 'hold';
  const holds = reasons.filter((r) => r.verdict === 'hold');
  return verdict === 'hold' && holds.every((r) => r.unknown) ? 'unsaid' : verdict;
}

/** What a plan may never say of itself. */
function soundnessOf(plan: PlanAnswer, now: WindowsAnswer['windows'][number]): string[] {
  const faults: string[] = [];
  if ((plan.verdict === 'go') !== (plan.standing === 'ahead' || plan.standing === 'light'))
    faults.push(`${plan.verdict} while ${plan.standing}`);
  if (plan.standing === 'light' && now.standing !== 'light') faults.push('may light in no go');
  if (plan.standing === 'charge' && now.verdict !== 'go') faults.push('may charge in no go');
  return faults;
}

/** What the page says of the age that these views are given. */
const AGE = '1 h';

function told(s: Scenario, nowMs: number, units: UnitSystem = 'us') {
  const { site } = s;
  const { date } = workingDayAt(site.shifts, nowMs, site.timeZone);
  const alerts = s.alerts && { ...s.alerts, fetchedAtMs: nowMs };
  const made = makePlan({ ...toInput(s), nowMs, firstDate: date, alerts });
  const [day] = made.days;
  const window = windowAt(made.windows, nowMs);
  if (!day || !window) throw new Error('no day');
  const reader = { language: 'en', units, timeZone: site.timeZone, day: date } as const;
  const wanted = { reader, demo: false, madeFrom: null };
  const plan = dayPlanAnswer(made, day, wanted);
  const now = windowsAnswer(made, window, wanted).windows[0];
  if (!now) throw new Error('no window');
  const state = plan.stale ? ('stale' as const) : ('fresh' as const);
  const windows = windowsAnswer(made, day.day, wanted);
  const hours = hoursAnswer(made, day.day, wanted);
  const page = sitePage({
    forecast: {
      state,
      madeAt: plan.madeAt,
      ageMin: 60,
      checkedAt: null,
      nextDueAt: null,
      alertsReadAt: null,
      fault: null,
    },
    nowMs,
    now,
    live: null,
    silences: [],
    reading: null,
    canPlay: false,
    plan,
    windows,
    hours,
    keepOff: [],
    text: null,
    week: [plan],
    reader: { language: 'en', units },
    dayLabel: 'today',
    query: {},
  });
  return { plan, windows, hours, now, marks: marksOf(page), page };
}

describe('at sampled instants of invented days', () => {
  /** What the API would send. */
  const sent = <T>(answer: T): T => JSON.parse(JSON.stringify(answer));

  it('page and answers say the same of the day and of the moment, and in every figure', () => {
    const seen = new Map<string, number>();
    let drawnDays = 0;
    fc.assert(
      fc.property(scenarioArb, fc.integer({ min: 0, max: 1800 }), fc.boolean(), (s, sinceMin, isMetric) => {
        const found = told(s, s.nowMs + sinceMin * MINUTE_MS, isMetric ? 'si' : 'us');
        const { plan, now, marks, page } = found;
        const at = `${plan.workedOutAt} ${plan.standing} ${plan.timeZone}`;
        expect(marks, at).toEqual({ day: dayOf(plan), now: nowOf(now) });
        expect(soundnessOf(plan, now), at).toEqual([]);
        seen.set(plan.standing, (seen.get(plan.standing) ?? 0) + 1);
        // A void answer is drawn no more.
        if (!page.includes('<div class="day">')) return;
        const answers = sent({ plan, windows: found.windows, hours: found.hours });
        expect(laneFaults(page, answers), at).toEqual([]);
        expect(strayNumbers(page, { ...answers, now }, [AGE]), at).toEqual([]);
        drawnDays += 1;
      }),
      { seed: SEED, numRuns: 400 },
    );
    expect([...seen.keys()].sort()).toEqual(['ahead', 'charge', 'light', 'none', 'over', 'pause']);
    expect(drawnDays).toBeGreaterThanOrEqual(200);
  });

  it('and a figure that is another is found', () => {
    const view = siteView(STORIES.go);
    const page = sitePage(view);
    const wrong = [
      ['7:00 am 7, ', '7:00 am 8, '],
      ['Least room while loading: 4 mph', 'Least room while loading: 5 mph'],
      ['4 mph at 1:00 pm', '4 mph at 12:00 pm'],
      ['3:00 pm 26 over', '3:00 pm 26'],
      ['from 3:00 pm until 5:00 pm', 'from 3:00 pm until 6:00 pm'],
      ['at most 20, stop 25 mph', 'at most 21, stop 25 mph'],
      ['>26</text>', '>27</text>'],
      ['y1="29.3" y2="29.3"', 'y1="39.3" y2="39.3"'],
    ] as const;
    expect(laneFaults(page, view)).toEqual([]);
    for (const [right, other] of wrong) {
      expect(page, right).toContain(right);
      expect(laneFaults(page.replace(right, other), view), other).not.toEqual([]);
    }
    expect(strayNumbers(page, view, [ageOf(page), TEXT_OF(view)])).toEqual([]);
    expect(strayNumbers(page.replace('NE (40°)', 'NE (43°)'), view, [ageOf(page), TEXT_OF(view)])).toEqual([
      '43',
    ]);
  });
});

describe('through two days of the demo', () => {
  const FROM_MS = Date.parse('2026-03-03T12:00:00Z');
  let running: Running;
  beforeAll(async () => {
    running = await startRunning(new Date(FROM_MS).toISOString(), withoutStations);
  });
  afterAll(() => running.close());
  const get = (url: string) => running.service.app.inject({ url });

  /** Latest light-up and last charge, to the minute, are instants like others, and the ones that matter. */
  async function edgesMs(id: string): Promise<number[]> {
    const plan = planSchema.parse((await get(`/v1/sites/${id}/plan?day=today`)).json());
    const edges = [plan.lightUp, plan.lightUpBy, plan.lastCharge].flatMap((t) => (t ? [Date.parse(t)] : []));
    return edges.flatMap((ms) => [ms - MINUTE_MS, ms]);
  }

  it.each(['north-block', 'creek-block', 'ridge-block'])(
    'page, API and command line agree on %s, with answers kept between',
    async (id) => {
      await running.close();
      running = await startRunning(new Date(FROM_MS).toISOString(), withoutStations);
      const steps = Array.from({ length: 57 }, (_, i) => FROM_MS + i * 37 * MINUTE_MS);
      for (const [i, nowMs] of [...steps, ...(await edgesMs(id))].sort((a, b) => a - b).entries()) {
        running.clock.nowMs = nowMs;
        if (i % 3 === 0) await running.service.keeper.pullAll();
        const plan = planSchema.parse((await get(`/v1/sites/${id}/plan`)).json());
        const { windows } = windowsSchema.parse((await get(`/v1/sites/${id}/windows`)).json());
        const now = windows.find((w) => Date.parse(w.from) <= nowMs && nowMs < Date.parse(w.to));
        if (!now) throw new Error('no window');
        const at = new Date(nowMs).toISOString();
        expect(marksOf((await get(`/sites/${id}`)).body), at).toEqual({ day: dayOf(plan), now: nowOf(now) });
        expect(soundnessOf(plan, now), at).toEqual([]);
      }
    },
    60_000,
  );

  it('and check ends as the window of the moment says, plan as the plan of the day', async () => {
    const EXIT: Readonly<Record<string, number>> = { go: 0, hold: 10, stop: 11, unsaid: 12 };
    await running.close();
    running = await startRunning(new Date(FROM_MS).toISOString(), withoutStations);
    const steps = Array.from({ length: 8 }, (_, i) => FROM_MS + i * 187 * MINUTE_MS);
    for (const nowMs of [...steps, ...(await edgesMs('north-block'))].sort((a, b) => a - b)) {
      running.clock.nowMs = nowMs;
      await running.service.keeper.pullAll();
      const now = new Date(nowMs).toISOString();
      const { day, now: moment } = marksOf((await get('/sites/north-block')).body);
      const check = await run(['check', 'north-block', '--demo'], { now });
      const ofDay = await run(['check', 'north-block', '--demo', '--day', 'today'], { now });
      expect([check.code, ofDay.code], now).toEqual([EXIT[moment ?? ''], EXIT[day ?? '']]);
    }
  }, 60_000);
});
