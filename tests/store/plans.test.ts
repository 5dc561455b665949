// Plans by site and time, and the events between them.

import { expect, it } from 'vitest';
import type { Store } from '#store/store.ts';
import { BASIS, eventOf, planOf } from '../builders/store.ts';
import { onEachStore } from './on-each-store.ts';

const keep = (store: Store, ...plans: ReturnType<typeof planOf>[]) =>
  store.commit({ documents: [...BASIS], plans });

onEachStore('plans', ({ open }) => {
  it('come back as made', async () => {
    const store = await open();
    const summary = {
      days: [{ date: '2026-03-02', text: '“ö” \u0000 \ud83d\udd25', room: 1.25 }],
      none: null,
    };
    const plan = planOf('o/a', 1000, { summary, goodUntilMs: null, cause: 'alerts' });
    await keep(store, plan);
    expect(await store.plans.newest()).toEqual([plan]);
    expect(JSON.stringify((await store.plans.at('o/a', 1000))?.summary)).toBe(JSON.stringify(summary));
  });

  it('have one newest for each site: the last made, and of the same moment the last written', async () => {
    const store = await open();
    await keep(store, planOf('o/b', 10), planOf('o/a', 20), planOf('o/a', 30), planOf('o/a', 25));
    await keep(store, planOf('o/a', 15));
    await keep(store, planOf('o/b', 10, { planId: 'again' }));
    const newest = await store.plans.newest();
    expect(newest.map((p) => [p.site, p.madeAtMs, p.planId])).toEqual([
      ['o/a', 30, 'o/a@30'],
      ['o/b', 10, 'again'],
    ]);
    expect((await store.plans.newest(['o/b', 'o/none'])).map((p) => p.site)).toEqual(['o/b']);
    expect(await store.plans.newest([])).toEqual([]);
    expect((await store.plans.at('o/b', 10))?.planId).toBe('again');
  });

  it('can be asked for by moment and by span', async () => {
    const store = await open();
    await keep(store, ...[10, 20, 30, 40].map((ms) => planOf('o/a', ms)), planOf('o/b', 25));
    expect(await store.plans.at('o/a', 9)).toBeNull();
    expect((await store.plans.at('o/a', 29))?.madeAtMs).toBe(20);
    expect((await store.plans.at('o/a', 1e13))?.madeAtMs).toBe(40);
    const times = async (...span: [number, number, number]) =>
      (await store.plans.within('o/a', ...span)).map((p) => p.madeAtMs);
    expect(await times(20, 40, 10)).toEqual([20, 30]);
    expect(await times(0, 100, 3)).toEqual([10, 20, 30]);
    expect(await times(41, 100, 3)).toEqual([]);
  });

  it('that follow a plan are passed over with their events when another has followed it meanwhile', async () => {
    const store = await open();
    await keep(store, planOf('o/a', 10), planOf('o/b', 10));
    const after = (planId: string | null) => new Map([['o/a', planId]]);
    const written = (atMs: number, planId: string) => {
      const plan = planOf('o/a', atMs, { planId });
      return { plans: [plan], events: [eventOf('o/a', { atMs, subject: planId })] };
    };
    await store.commit({ ...written(20, 'first'), follows: after('o/a@10') });
    // Made from the same plan, by one who did not know of the first.
    await store.commit({ ...written(21, 'second'), follows: after('o/a@10') });
    await store.commit({ ...written(22, 'third'), follows: after(null) });
    await store.commit({ ...written(23, 'fourth'), follows: after('first') });
    const kept = await store.plans.within('o/a', 0, 100, 10);
    expect(kept.map(({ planId }) => planId)).toEqual(['o/a@10', 'first', 'fourth']);
    const events = await store.events.after({ after: 0, most: 10 });
    expect(events.map(({ subject }) => subject)).toEqual(['first', 'fourth']);
  });

  it('that follow the newest are the newest, also where the clock was set back since that one was made', async () => {
    const store = await open();
    await keep(store, planOf('o/a', 1000));
    const followed = async (atMs: number, planId: string, before: string) => {
      const events = [eventOf('o/a', { atMs, subject: planId })];
      const follows = new Map([['o/a', before]]);
      await store.commit({ plans: [planOf('o/a', atMs, { planId })], follows, events });
      return (await store.plans.heads(['o/a'])).map((head) => head.planId);
    };
    expect(await followed(400, 'worse', 'o/a@1000')).toEqual(['worse']);
    // What it was before comes back: told as such, and not passed over as the plan that stands already.
    expect(await followed(500, 'as before', 'worse')).toEqual(['as before']);
    const events = await store.events.after({ after: 0, most: 10 });
    expect(events.map(({ subject }) => subject)).toEqual(['worse', 'as before']);
  });

  it('of many who follow the same plan at once are one', async () => {
    const store = await open();
    await keep(store, planOf('o/a', 10));
    const follows = new Map([['o/a', 'o/a@10']]);
    const all = Array.from({ length: 12 }, (_, i) => planOf('o/a', 20, { planId: `next-${i}` }));
    await Promise.all(all.map((plan) => store.commit({ plans: [plan], follows })));
    expect(await store.plans.within('o/a', 0, 100, 20)).toHaveLength(2);
  });

  it('written twice are kept once', async () => {
    const store = await open();
    await keep(store, planOf('o/a', 10));
    await keep(store, planOf('o/a', 10, { program: 'other' }));
    expect(await store.plans.within('o/a', 0, 100, 10)).toEqual([planOf('o/a', 10)]);
  });
});

onEachStore('events', ({ open }) => {
  it('are numbered without gaps from 1 in the order of their commits', async () => {
    const store = await open();
    await store.commit({ events: [eventOf('o/a'), eventOf('o/b')] });
    await store.commit({ events: [eventOf('o/a', { subject: 'third', data: { n: [1] } })] });
    const all = await store.events.after({ after: 0, most: 10 });
    expect(all.map((e) => [e.position, e.site])).toEqual([
      [1, 'o/a'],
      [2, 'o/b'],
      [3, 'o/a'],
    ]);
    expect(all[2]).toEqual({ position: 3, ...eventOf('o/a', { subject: 'third', data: { n: [1] } }) });
  });

  it('can be read on from a position, of some sites, and no more than asked', async () => {
    const store = await open();
    const sites = Array.from({ length: 900 }, (_, i) => `o/${i}`);
    await store.commit({ events: [...sites, ...sites].map((site) => eventOf(site)) });
    const positions = async (after: number, most: number, sites?: readonly string[]) =>
      (await store.events.after({ after, most, ...(sites ? { sites } : {}) })).map((e) => e.position);
    expect(await positions(2, 3)).toEqual([3, 4, 5]);
    expect(await positions(0, 10, ['o/1', 'o/899'])).toEqual([2, 900, 902, 1800]);
    expect(await positions(2, 2, ['o/1', 'o/899'])).toEqual([900, 902]);
    // More sites than one statement takes values, in an order that is not theirs.
    expect(await positions(890, 15, sites.toReversed())).toEqual(
      Array.from({ length: 15 }, (_, i) => 891 + i),
    );
    expect(await positions(0, 10, [])).toEqual([]);
    expect(await positions(1800, 10)).toEqual([]);
  });
});

onEachStore('a plan made twice at once', ({ open }) => {
  it('leaves one plan and one event, and heads tell what the newest was made from', async () => {
    const store = await open();
    const twice = (madeAtMs: number) =>
      store.commit({
        documents: [...BASIS],
        plans: [planOf('o/a', madeAtMs, { planId: 'successor' })],
        events: [eventOf('o/a', { subject: 'successor' })],
      });
    await twice(10);
    await twice(11);
    expect((await store.events.after({ after: 0, most: 10 })).map((e) => e.position)).toEqual([1]);
    const plan = planOf('o/a', 10, { planId: 'successor' });
    expect(await store.plans.within('o/a', 0, 100, 10)).toEqual([plan]);
    const { planId, site, madeAtMs, basis, firstDate, goodUntilMs } = plan;
    const head = { planId, site, madeAtMs, basis, firstDate, goodUntilMs };
    expect(await store.plans.heads()).toEqual([head]);
    await store.commit({ plans: [planOf('o/b', 12)] });
    expect(await store.plans.heads(['o/a', 'o/c'])).toEqual([head]);
  });
});
