// What one look at a site leaves behind: all of it or nothing, and only where nobody else was there since.

import { expect, it } from 'vitest';
import type { Store } from '#store/store.ts';
import type { WatchPatch } from '#store/watch/records.ts';
import { EIGHT_MS, SITE } from '../builders/notices.ts';
import { auditOf, eventOf } from '../builders/store.ts';
import {
  answerOf,
  burnOf,
  dayTextOf,
  deliveryOf,
  lookOf,
  observationOf,
  raisedAt,
  silenceOf,
  tapOf,
} from '../builders/watch-records.ts';
import { onEachStore } from './on-each-store.ts';

const everything = (id = 'm1') => lookOf(SITE, id);

async function contentsOf(store: Store) {
  const { watch } = store;
  return {
    rows: (await store.care.sizes()).rows,
    state: await watch.state(SITE, 0),
    burn: await watch.burn(SITE, 'b1'),
    observations: await watch.observations(SITE, 0, 100),
    transitions: await watch.transitions(SITE, 0, 1e15, 100),
    threads: await watch.threads(SITE, 0, 1e15, 100),
    silences: await watch.silences([SITE], EIGHT_MS),
    optOuts: await watch.optOuts('fern-hollow'),
    dayTexts: await watch.dayTexts(SITE, '2026-01-01'),
    events: await store.events.after({ after: 0, most: 100 }),
    audit: await store.keys.audit(10),
  };
}

onEachStore('a look at a site', ({ open, address }) => {
  it('comes back as it was written, and is there after the store is opened again', async () => {
    const where = await address();
    const store = await open(where);
    const written = everything();
    const [kept] = await store.watch.commit([{ ...written, replaces: 0 }]);
    expect(kept).toEqual({
      site: SITE,
      version: 1,
      taps: ['tap m1', 'later m1'],
      observations: [EIGHT_MS, EIGHT_MS + 600_000].map((observedAtMs) => ({
        station: 'mast',
        observedAtMs,
        revision: 0,
      })),
      messages: ['m1'],
      answers: ['answer m1'],
    });
    const before = await contentsOf(store);
    expect(before).toMatchObject({
      state: {
        site: SITE,
        version: 1,
        judgedAtMs: EIGHT_MS + 7,
        conditions: everything().conditions,
        notices: written.notices,
        openBurns: written.burns,
        briefings: written.briefings,
      },
      burn: { burn: written.burns?.[0], taps: written.taps, briefings: written.briefings },
      observations: written.observations,
      transitions: written.transitions,
      silences: written.silences,
      optOuts: written.optOuts,
      dayTexts: written.dayTexts,
      threads: [{ message: written.messages?.[0], deliveries: written.deliveries, answers: written.answers }],
    });
    await store.close();
    expect(await contentsOf(await open(where))).toEqual(before);
  });

  it('may be sent again: what is there is passed over, and told as not new', async () => {
    const store = await open();
    const { taps, observations, messages, deliveries, answers, dayTexts } = everything();
    const patch = {
      site: SITE,
      replaces: null,
      ...{ taps, observations, messages, deliveries, answers, dayTexts },
    } as WatchPatch;
    await store.watch.commit([patch]);
    const before = await contentsOf(store);
    const [again] = await store.watch.commit([patch]);
    expect(again).toMatchObject({ taps: [], observations: [], messages: [], answers: [] });
    const { state, ...same } = await contentsOf(store);
    expect({ ...same, state: { ...state, version: 1 } }).toEqual(before);
    // A tap of the same id that says something else is the same tap: the first telling stands.
    await store.watch.commit([{ site: SITE, replaces: null, taps: [tapOf('tap m1', { tap: 'covered' })] }]);
    const { rows } = await contentsOf(store);
    expect(rows['burnTaps']).toBe(2);
  });

  it('rows 1 and 2: is written whole or not at all, with everything that is to be sent of it (grafana#68162)', async () => {
    const store = await open();
    const before = await contentsOf(store);
    const broken: Partial<WatchPatch>[] = [
      { audit: [auditOf({ what: null as unknown as string })] },
      { events: [eventOf(SITE, { subject: null as unknown as string })] },
      { dayTexts: [{ ...dayTextOf('m1'), atMs: null as unknown as number }] },
      { deliveries: [deliveryOf('m1', { urgency: null as unknown as number })] },
    ];
    for (const part of broken) {
      await expect(store.watch.commit([{ ...everything(), ...part, replaces: 0 }])).rejects.toThrow(/null/i);
    }
    // One of two sites cannot be written: neither is.
    const other = { ...raisedAt('fern-hollow/south-block', 'm2').patch, replaces: 5 };
    await expect(store.watch.commit([{ ...everything(), replaces: 0 }, other])).rejects.toMatchObject({
      code: 'changed_meanwhile',
    });
    expect(await contentsOf(store)).toEqual(before);
  });

  it('of two that started from the same, one is told to look anew, and leaves nothing', async () => {
    const store = await open();
    await store.watch.commit([{ ...raisedAt(SITE, 'first').patch, replaces: 0 }]);
    const late = store.watch.commit([{ ...everything('second'), replaces: 0 }]);
    await expect(late).rejects.toMatchObject({ code: 'changed_meanwhile', retryable: true });
    expect((await contentsOf(store)).threads.map((t) => t.message.id)).toEqual(['first']);
    await store.watch.commit([{ ...everything('second'), replaces: 1 }]);
    expect((await store.watch.state(SITE, 0)).version).toBe(2);
  });

  it('is refused whole where its answer was kept to a message of another site: it marks nothing by it', async () => {
    const store = await open();
    const south = raisedAt('fern-hollow/south-block', 'm1').patch;
    await store.watch.commit([{ ...south, replaces: 0, answers: [answerOf('a', 'm1')] }]);
    const { patch, notice } = raisedAt(SITE, 'm2');
    await store.watch.commit([{ ...patch, replaces: 0 }]);
    const notices = [{ ...notice, acknowledgedAtMs: EIGHT_MS, acknowledgedBy: 'ana' }];
    const marked = { site: SITE, replaces: 1, notices };
    const again = store.watch.commit([{ ...marked, answers: [answerOf('a', 'm2')] }]);
    await expect(again).rejects.toMatchObject({ code: 'changed_meanwhile' });
    expect((await store.watch.state(SITE, 0)).notices[0]?.acknowledgedBy).toBeNull();
    await store.watch.commit([{ ...marked, answers: [answerOf('b', 'm2')] }]);
    expect((await store.watch.state(SITE, 0)).notices[0]?.acknowledgedBy).toBe('ana');
  });

  it('is out of date by whatever is judged by since: taps, observations, answers, silences', async () => {
    const store = await open();
    const news: Omit<WatchPatch, 'site' | 'replaces'>[] = [
      { taps: [tapOf('t')] },
      { observations: [observationOf(EIGHT_MS)] },
      { answers: [answerOf('a', 'm')] },
      { silences: [silenceOf('s')] },
    ];
    for (const [version, part] of news.entries()) {
      await store.watch.commit([{ site: SITE, replaces: null, ...part }]);
      const stale = store.watch.commit([{ ...raisedAt(SITE, 'm').patch, replaces: version }]);
      await expect(stale).rejects.toMatchObject({ code: 'changed_meanwhile' });
    }
    // What is sent and what is closed changes nothing that is judged.
    await store.watch.commit([
      { site: SITE, replaces: null, deliveries: [deliveryOf('m')], events: [eventOf(SITE)] },
    ]);
    await store.watch.commit([{ ...raisedAt(SITE, 'm').patch, replaces: 4 }]);
  });

  it('refuses what was worked out without a word from what, and a number that was told before', async () => {
    const store = await open();
    const { patch } = raisedAt(SITE, 'm1');
    await expect(store.watch.commit([{ ...patch, replaces: null }])).rejects.toMatchObject({
      code: 'internal',
    });
    await expect(
      store.watch.commit([{ site: SITE, replaces: null, burns: [burnOf('b')] }]),
    ).rejects.toMatchObject({ code: 'internal' });
    await store.watch.commit([{ ...patch, replaces: 0 }]);
    await expect(store.watch.commit([{ ...patch, replaces: 1 }])).rejects.toMatchObject({
      code: 'changed_meanwhile',
    });
  });

  it('raises the mark of its site, and of no other', async () => {
    const store = await open();
    const south = 'fern-hollow/south-block';
    await store.watch.commit([
      { site: SITE, replaces: null, taps: [tapOf('t')] },
      { site: south, replaces: null, observations: [observationOf(EIGHT_MS)] },
    ]);
    await store.watch.commit([{ site: south, replaces: 1, judgedAtMs: 5 }]);
    expect([...(await store.marks()).watches].sort()).toEqual([
      [SITE, 1],
      [south, 2],
    ]);
    // One was looked at, of the other something is known and nobody has judged it yet.
    expect([...(await store.watch.judged())]).toEqual([[south, 5]]);
  });

  it('that is empty changes nothing but says the version', async () => {
    const store = await open();
    expect(await store.watch.commit([])).toEqual([]);
    const none = { site: SITE, version: 0, taps: [], observations: [], messages: [], answers: [] };
    expect(await store.watch.commit([{ site: SITE, replaces: null }])).toEqual([none]);
    expect(await store.watch.state(SITE, 0)).toEqual({
      site: SITE,
      version: 0,
      judgedAtMs: null,
      conditions: [],
      notices: [],
      openBurns: [],
      briefings: [],
    });
  });
});
