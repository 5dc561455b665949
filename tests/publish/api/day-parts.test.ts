// What pages of a day are made from is remembered; it must never say what making it anew would not say.

import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createDayParts, type DayParts } from '#publish/api/day-parts.ts';
import { type Running, startRunning } from '../../service/running.ts';

const HOUR_MS = 3_600_000;
const KEY = 'own/north-block';
let running: Running;

beforeEach(async () => {
  running = await startRunning('2026-03-03T01:10:00Z');
});
afterEach(() => running.close());

/** Without the moment at which it was worked out, which is the one thing that may be older; and without the plan's numbers. */
const told = ({ weekPlan, ...parts }: DayParts): unknown => {
  const text = JSON.stringify({ ...parts, verdicts: weekPlan.windows });
  return JSON.parse(text, (key, value) => (key === 'workedOutAt' ? null : value));
};

describe('parts of a day that are remembered', () => {
  it('are made once for a forecast and a way of asking', async () => {
    const { desk, keeper } = running.service;
    const partsOf = createDayParts(desk);
    const asker = { day: 'tomorrow', units: 'us', lang: 'en' } as const;
    const first = partsOf(desk.site(KEY), asker);
    expect(partsOf(desk.site(KEY), { ...asker })).toBe(first);
    for (const other of [{ day: 'today' }, { units: 'si' }, { lang: 'es' }] as const)
      expect(told(partsOf(desk.site(KEY), { ...asker, ...other }))).not.toEqual(told(first));
    expect(partsOf(desk.site('own/creek-block'), asker).plan.site).toBe('creek-block');
    running.clock.nowMs += 2 * HOUR_MS;
    await keeper.pullAll();
    expect(partsOf(desk.site(KEY), asker)).not.toBe(first);
  });

  it('say through a day and a night what they say when made anew, while nothing is pulled any more', () => {
    const { desk } = running.service;
    const partsOf = createDayParts(desk);
    const made = new Set<DayParts>();
    let asked = 0;
    // In which alerts and then the forecast grow old, a window opens and shuts, and the day becomes another.
    for (let hours = 0; hours < 27; hours += hours < 2.5 ? 0.25 : 1) {
      running.clock.nowMs += (hours < 2.5 ? 0.25 : 1) * HOUR_MS;
      for (const day of ['today', '2026-03-03'] as const) {
        const kept = partsOf(desk.site(KEY), { day });
        made.add(kept);
        asked += 1;
        const anew = createDayParts(desk)(desk.site(KEY), { day });
        expect(told(kept), new Date(running.clock.nowMs).toISOString()).toEqual(told(anew));
      }
    }
    expect(made.size).toBeGreaterThan(4);
    expect(made.size).toBeLessThan(asked - 4);
  });

  it('are made anew where the clock was set back', () => {
    const { desk } = running.service;
    const partsOf = createDayParts(desk);
    const later = partsOf(desk.site(KEY), { day: 'today' });
    running.clock.nowMs -= HOUR_MS;
    expect(partsOf(desk.site(KEY), { day: 'today' })).not.toBe(later);
  });
});

it('the page of a day shows no go that has aged away, though it was shown before', async () => {
  const url = '/sites/north-block?day=2026-03-03&lang=en';
  const read = async () => (await running.service.app.inject({ url })).body;
  const first = await read();
  expect(first).toMatch(/<section class="call go">/);
  expect(await read()).toBe(first);
  running.clock.nowMs += 15 * HOUR_MS;
  const late = await read();
  expect(late).not.toMatch(/<section class="call go">/);
  expect(late).toContain('No fresh forecast');
});
