// Any past answer can be made again byte for byte from what is kept.

import { hash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startOfDayMs } from '#core/units/local-time.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import { keptAnswerHash } from '#service/planner.ts';
import { rebuildPlan } from '#service/rebuild.ts';
import { createNwsSource } from '#sources/nws/client.ts';
import { type Running, startRunning } from './running.ts';

const START = '2026-03-03T01:10:00Z';
let running: Running;
const reader = createNwsSource({
  contact: 'office@hollowreed-clearing.example',
  nowMs: () => Date.parse(START),
  sleep: () => Promise.resolve(),
  random: () => 0,
  log: { info: () => undefined, warn: () => undefined },
}).grid;

beforeAll(async () => {
  running = await startRunning(START);
  // A day goes by: new documents, other alerts, a change of limits.
  for (let hour = 1; hour <= 12; hour += 1) {
    running.clock.nowMs += 2 * 3_600_000;
    await running.service.keeper.pullAll();
  }
});
afterAll(() => running.close());

describe('kept plans', () => {
  it('every one of them can be made again, and gives the very answer of its time', async () => {
    let plans = 0;
    for (const id of ['north-block', 'creek-block', 'ridge-block']) {
      const kept = await running.store.plans.within(`own/${id}`, 0, Number.MAX_SAFE_INTEGER, 1000);
      expect(kept.length).toBeGreaterThan(3);
      for (const { basis, madeAtMs: nowMs, firstDate, dayCount, answerHash } of kept) {
        const plan = await rebuildPlan(running.store.documents, reader, {
          basis,
          nowMs,
          firstDate,
          dayCount,
        });
        expect(keptAnswerHash(plan, basis)).toBe(answerHash);
        plans += 1;
      }
    }
    expect(plans).toBeGreaterThan(12);
  });

  it('an answer of the API names what it was made from, and comes out the same byte for byte', async () => {
    const url = '/v1/sites/north-block/windows?day=2026-03-05';
    const { body } = await running.service.app.inject({ url });
    const told = JSON.parse(body);
    const { definition, document, alerts, pointTimeZone } = told.madeFrom;
    const basis = {
      definition,
      document,
      alerts,
      pointTimeZone,
      documentReceivedAtMs: Date.parse(told.fetchedAt),
      alertsFetchedAtMs: Date.parse(told.alertsReadAt),
    };
    const nowMs = Date.parse(told.workedOutAt);
    const plan = await rebuildPlan(running.store.documents, reader, {
      basis,
      nowMs,
      firstDate: '2026-03-05',
      dayCount: 1,
    });
    const span = {
      fromMs: startOfDayMs('2026-03-05', told.timeZone),
      toMs: startOfDayMs('2026-03-06', told.timeZone),
    };
    const timeZone: string = told.timeZone;
    const again = windowsAnswer(plan, span, {
      reader: { units: told.units, language: told.lang, timeZone, day: '2026-03-05' },
      demo: told.demo,
      madeFrom: told.madeFrom,
    });
    expect(hash('sha256', JSON.stringify(again), 'hex')).toBe(hash('sha256', body, 'hex'));
  });

  it('what is not kept is said, never guessed', async () => {
    const [kept] = await running.store.plans.newest(['own/north-block']);
    if (!kept) throw new Error('no plan is kept');
    const { madeAtMs: nowMs, firstDate, dayCount } = kept;
    const basis = { ...kept.basis, document: '0'.repeat(64) };
    await expect(
      rebuildPlan(running.store.documents, reader, { basis, nowMs, firstDate, dayCount }),
    ).rejects.toMatchObject({ code: 'not_kept' });
  });
});

describe('events', () => {
  it('tell each difference of a plan from the one before, in the order of their commits', async () => {
    const events = await running.store.events.after({ after: 0, most: 1000 });
    expect(events.length).toBeGreaterThan(0);
    expect(events.map((e) => e.position)).toEqual(events.map((_, i) => i + 1));
    for (const { data } of events) {
      expect((data as { changes: unknown[] }).changes.length).toBeGreaterThan(0);
    }
  });

  it('nothing new in source, alerts and definition makes no new plan and no event', async () => {
    const count = async () =>
      (await running.store.plans.within('own/north-block', 0, Number.MAX_SAFE_INTEGER, 1000)).length;
    const before = await count();
    await running.service.keeper.pullAll();
    await running.service.keeper.pullAll();
    expect(await count()).toBe(before);
  });
});
