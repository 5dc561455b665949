// Retention drops what is old, and never what is in force at any moment that can still be asked for.

import { expect, it } from 'vitest';
import type { Store } from '#store/store.ts';
import { auditOf, cellOf, changeOf, documentOf, eventOf, keyOf, placeOf, planOf } from '../builders/store.ts';
import { changeClaims } from './age-claims.ts';
import { onEachStore } from './on-each-store.ts';
import { seeded } from './seeded.ts';

const DAY_MS = 86_400_000;
const START_MS = Date.UTC(2026, 0, 1);
const KEEP = {
  plansMs: 10 * DAY_MS,
  claimsMs: 2 * DAY_MS,
  repliesMs: DAY_MS,
  burnsMs: 10 * DAY_MS,
  observationsMs: 5 * DAY_MS,
  auditMs: 10 * DAY_MS,
};

/** A store with a clock that is set by hand. */
function aged(open: (address?: undefined, extras?: { nowMs: () => number }) => Promise<Store>) {
  const clock = { nowMs: START_MS };
  return open(undefined, { nowMs: () => clock.nowMs }).then((store) => ({ store, clock }));
}

const basisOf = (site: string, tag: string | number) => [
  documentOf(`definition of ${site}`, 'definition'),
  documentOf(`forecast ${site} ${tag}`),
  documentOf('[]', 'alerts'),
];

async function makePlan(store: Store, site: string, atMs: number): Promise<void> {
  const documents = basisOf(site, atMs);
  await store.commit({
    documents,
    plans: [planOf(site, atMs, {}, documents)],
    events: [eventOf(site, { atMs, subject: `${site}@${atMs}` })],
  });
}

/** Every document that a plan was made from can be read. */
async function expectReadable(store: Store, plan: ReturnType<typeof planOf> | null): Promise<void> {
  expect(plan).not.toBeNull();
  for (const hash of Object.values(plan?.basis ?? {}).filter(
    (v) => typeof v === 'string' && v.length === 64,
  )) {
    expect(await store.documents.read(String(hash))).not.toBeNull();
  }
}

onEachStore('retention', ({ open, address }) => {
  it('keeps the plan in force at its limit, and all that followed, with their documents', async () => {
    const { store, clock } = await aged(open);
    for (let day = 0; day <= 30; day += 1) {
      clock.nowMs = START_MS + day * DAY_MS;
      await makePlan(store, 'o/a', clock.nowMs);
    }
    clock.nowMs += DAY_MS / 2;
    const before = await Promise.all(
      Array.from({ length: 11 }, (_, i) => store.plans.at('o/a', clock.nowMs - i * DAY_MS)),
    );
    const dropped = await store.care.expire(KEEP);
    // The limit is at day 20.5: days 0 to 19 go, day 20 was in force then. Documents stay a day longer.
    expect(dropped).toMatchObject({ plans: 20, events: 21 });
    expect(dropped.documents).toBeGreaterThanOrEqual(18);
    for (const [i, plan] of before.entries()) {
      expect(await store.plans.at('o/a', clock.nowMs - i * DAY_MS)).toEqual(plan);
      await expectReadable(store, plan);
    }
    expect(
      (await store.plans.within('o/a', 0, 1e15, 100)).map((p) => (p.madeAtMs - START_MS) / DAY_MS),
    ).toEqual(Array.from({ length: 11 }, (_, i) => 20 + i));
    expect((await store.events.after({ after: 0, most: 1 })).map((e) => e.position)).toEqual([22]);
    const { watch, ...rest } = await store.care.expire(KEEP);
    expect(Object.values(watch).every((count) => count === 0)).toBe(true);
    expect(rest).toEqual({
      plans: 0,
      documents: 0,
      events: 0,
      calendar: 0,
      audit: 0,
      cap: 0,
      claims: 0,
      replies: 0,
    });
  });

  it('keeps what is in force however old it is', async () => {
    const { store, clock } = await aged(open);
    await makePlan(store, 'o/quiet', START_MS);
    const [cellDocument, alerts] = [documentOf('held by a cell'), documentOf('held by a place', 'alerts')];
    const unused = documentOf('held by nothing');
    await store.commit({
      documents: [cellDocument, alerts, unused],
      cells: [cellOf('A 1,1', { document: cellDocument.hash })],
      places: [placeOf('p', { alerts: alerts.hash })],
    });
    await store.definitions.change([changeOf('a', 0)]);
    await store.definitions.change([changeOf('a', 1)]);
    await store.keys.add(keyOf('a1a1a1a1'), auditOf({ atMs: START_MS }));
    for (let year = 1; year <= 3; year += 1) {
      clock.nowMs = START_MS + year * 365 * DAY_MS;
      const { plans, documents } = await store.care.expire(KEEP);
      expect({ plans, documents }).toEqual({ plans: 0, documents: year === 1 ? 1 : 0 });
      await expectReadable(store, await store.plans.at('o/quiet', clock.nowMs));
      expect((await store.plans.newest()).map((plan) => plan.madeAtMs)).toEqual([START_MS]);
      expect(await store.documents.known([cellDocument, alerts, unused].map((d) => d.hash))).toEqual(
        new Set([cellDocument.hash, alerts.hash]),
      );
    }
    expect(await store.definitions.history(changeOf('a', 0))).toHaveLength(2);
    expect(await store.keys.all()).toHaveLength(1);
    // Replaced at last, they go after their time, and no sooner.
    await store.commit({ cells: [cellOf('A 1,1')], places: [placeOf('p')] });
    await makePlan(store, 'o/quiet', clock.nowMs);
    clock.nowMs += 9 * DAY_MS;
    expect(await store.care.expire(KEEP)).toMatchObject({ plans: 0 });
    clock.nowMs += 3 * DAY_MS;
    expect(await store.care.expire(KEEP)).toMatchObject({ plans: 1 });
    clock.nowMs += 12 * DAY_MS;
    await store.care.expire(KEEP);
    expect(await store.documents.known([cellDocument, alerts].map((d) => d.hash))).toEqual(new Set());
    await expectReadable(store, await store.plans.at('o/quiet', clock.nowMs));
  });

  it('drops claims, replies and audit rows by their own age', async () => {
    const where = await address();
    const clock = { nowMs: START_MS };
    const store = await open(where, { nowMs: () => clock.nowMs });
    const claim = (cycle: number, worker = 'a') =>
      store.forecasts.claim({ work: 'w', cycle, worker, deadAfterMs: DAY_MS });
    for (let day = 0; day < 6; day += 1) {
      clock.nowMs = START_MS + day * DAY_MS;
      await claim(day);
      const request = { organisation: 'o', key: `k${day}`, requestHash: 'h', atMs: clock.nowMs };
      await store.definitions.change([changeOf(`s${day}`, 0, { changedAtMs: clock.nowMs })], {
        request,
        reply: () => ({ status: 201, body: '', headers: {} }),
      });
    }
    expect(await claim(5, 'b')).toBe('taken');
    // The row of the work itself is as old as its last turn.
    const day = `case cycle when -1 then 5 else cycle end * ${DAY_MS}`;
    await changeClaims(where, `update claims set claimed_at_ms = ${START_MS} + ${day}`);
    expect(await store.care.expire(KEEP)).toMatchObject({ claims: 3, replies: 4, audit: 0 });
    clock.nowMs = START_MS + 12.5 * DAY_MS;
    // And the row of the work itself.
    expect(await store.care.expire(KEEP)).toMatchObject({ claims: 4, replies: 2, audit: 3 });
    expect((await store.keys.audit(100)).length).toBe(3);
  });

  it('takes small steps, in which other work goes on', async () => {
    const { store, clock } = await aged(open);
    for (let i = 0; i < 5; i += 1) {
      const events = Array.from({ length: 500 }, () => eventOf('o/a', { atMs: START_MS }));
      await store.commit({ events: i === 4 ? events.slice(0, 37) : events });
    }
    clock.nowMs += 20 * DAY_MS;
    let over = false;
    const seen: number[] = [];
    const watching = (async () => {
      while (!over) {
        await store.commit({ cells: [cellOf('A 1,1')] });
        seen.push((await store.care.sizes()).rows['events'] ?? 0);
      }
    })();
    expect(await store.care.expire(KEEP)).toMatchObject({ events: 2037 });
    over = true;
    await watching;
    expect(new Set(seen.filter((count) => count > 0 && count < 2037)).size).toBeGreaterThan(0);
    // Positions are never given twice.
    await store.commit({ events: [eventOf('o/a')] });
    expect((await store.events.after({ after: 0, most: 9 })).map((e) => e.position)).toEqual([2038]);
  });

  it('in any history, leaves every plan since the limit readable', async () => {
    const random = seeded();
    const { store, clock } = await aged(open);
    const sites = ['o/a', 'o/b', 'o/c'];
    const made: { site: string; atMs: number }[] = [];
    for (let turn = 0; turn < 60; turn += 1) {
      clock.nowMs += Math.floor(random() * 3 * DAY_MS);
      const site = sites[Math.floor(random() * random() * 3)] ?? 'o/a';
      // Documents come back: the same weather as some time before.
      const documents = basisOf(site, Math.floor(random() * 8));
      await store.commit({ documents, plans: [planOf(site, clock.nowMs, {}, documents)] });
      made.push({ site, atMs: clock.nowMs });
      if (random() < 0.4) await store.care.expire(KEEP);
      const limitMs = clock.nowMs - KEEP.plansMs;
      for (const name of sites) {
        const own = made.filter((plan) => plan.site === name);
        const inForce = own.filter((plan) => plan.atMs <= limitMs).at(-1)?.atMs ?? 0;
        for (const { atMs } of own.filter((plan) => plan.atMs >= inForce)) {
          const plan = await store.plans.at(name, atMs);
          expect(plan?.madeAtMs).toBe(atMs);
          await expectReadable(store, plan);
        }
      }
    }
    expect((await store.care.sizes()).rows['plans']).toBeLessThan(60);
  });
});

onEachStore('sizes', ({ open }) => {
  it('count rows, and bytes that grow with what is kept', async () => {
    const store = await open();
    const before = await store.care.sizes();
    expect(new Set(Object.values(before.rows))).toEqual(new Set([0]));
    const incompressible = Array.from({ length: 60 }, (_, i) => documentOf(hexOf(i)));
    await store.commit({ documents: incompressible });
    const after = await store.care.sizes();
    expect(after.rows['documents']).toBe(60);
    expect(after.bytes - before.bytes).toBeGreaterThan(60 * 16_000);
  });
});

const hexOf = (seed: number): string =>
  Array.from({ length: 600 }, (_, i) => documentOf(`${seed} ${i}`).hash).join('');
