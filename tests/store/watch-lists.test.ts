// What lists of all sites and pages of past days read of the watch, on both databases.

import { expect, it } from 'vitest';
import { EIGHT_MS, gust, SITE } from '../builders/notices.ts';
import { answerOf, dayTextOf, deliveryOf, observationOf, raisedAt } from '../builders/watch-records.ts';
import { onEachStore } from './on-each-store.ts';

const SOUTH = 'fern-hollow/south-block';
const MINUTE_MS = 60_000;

onEachStore('what is read of all sites at once', ({ open }) => {
  it('evening texts since a moment, oldest first, and no dawn text', async () => {
    const store = await open();
    const text = (site: string, date: string, atMs: number, kind: 'evening' | 'dawn' = 'evening') => ({
      ...dayTextOf(`${site} ${date} ${kind}`, date),
      site,
      kind,
      atMs,
    });
    const all = [
      text(SITE, '2026-03-01', EIGHT_MS - 1),
      text(SITE, '2026-03-02', EIGHT_MS + 9),
      text(SITE, '2026-03-02', EIGHT_MS + 5, 'dawn'),
      text(SOUTH, '2026-03-02', EIGHT_MS),
    ];
    await store.watch.commit(
      [SITE, SOUTH].map((site) => ({
        site,
        replaces: null,
        dayTexts: all.filter((one) => one.site === site),
      })),
    );
    const told = await store.watch.evenings(EIGHT_MS);
    expect(told.map(({ site, atMs, day }) => [site, atMs, day.date])).toEqual([
      [SOUTH, EIGHT_MS, '2026-03-02'],
      [SITE, EIGHT_MS + 9, '2026-03-02'],
    ]);
    expect(await store.watch.evenings(EIGHT_MS + 10)).toEqual([]);
  });

  it('of each site that is asked for what was told last, with its deliveries and answers', async () => {
    const store = await open();
    const old = raisedAt(SITE, 'm1', EIGHT_MS);
    const newer = raisedAt(SITE, 'm2', EIGHT_MS + MINUTE_MS);
    const other = raisedAt(SOUTH, 'm3', EIGHT_MS);
    const { message: _, ...drill } = {
      message: null,
      ...raisedAt(SITE, 'm4', EIGHT_MS + 9 * MINUTE_MS).message,
    };
    await store.watch.commit([
      {
        ...newer.patch,
        replaces: 0,
        messages: [
          old.message,
          newer.message,
          { ...drill, kind: 'drill', transitions: [] } as typeof old.message,
        ],
        deliveries: [deliveryOf('m1'), deliveryOf('m2'), deliveryOf('m2', { contact: 'ben', step: 1 })],
        answers: [answerOf('a1', 'm2')],
      },
      { ...other.patch, replaces: 0, deliveries: [deliveryOf('m3', { site: SOUTH })] },
    ]);
    const told = await store.watch.lastTold([SITE], EIGHT_MS);
    expect(told).toEqual([
      {
        message: 'm2',
        site: SITE,
        kind: 'notice',
        atMs: EIGHT_MS + MINUTE_MS,
        deliveries: ['ana', 'ben'].map((contact) => ({
          contact,
          outcome: null,
          settledAtMs: null,
          deliveredAtMs: null,
        })),
        answers: [{ contact: 'ana', said: 'got-it', atMs: EIGHT_MS + MINUTE_MS }],
      },
    ]);
    expect((await store.watch.lastTold([SITE, SOUTH], EIGHT_MS)).map(({ site }) => site).sort()).toEqual([
      SITE,
      SOUTH,
    ]);
    expect(await store.watch.lastTold([SITE], EIGHT_MS + MINUTE_MS + 1)).toEqual([]);
    expect(await store.watch.lastTold([], EIGHT_MS)).toEqual([]);
  });

  it('how everything stood at the last look at each site that is asked for', async () => {
    const store = await open();
    expect(await store.watch.stood([SITE])).toEqual([]);
    const strong = gust('true', 'stop');
    await store.watch.commit([
      { site: SITE, replaces: 0, judgedAtMs: EIGHT_MS, conditions: [strong] },
      { site: SOUTH, replaces: null, observations: [observationOf(EIGHT_MS)] },
    ]);
    const version = (await store.watch.watchVersions()).get(SITE);
    expect(await store.watch.stood([SITE])).toEqual([
      { site: SITE, version, judgedAtMs: EIGHT_MS, conditions: [strong] },
    ]);
    for (const { site, conditions, judgedAtMs } of await store.watch.stood([SOUTH]))
      expect([site, conditions, judgedAtMs]).toEqual([SOUTH, [], null]);
    expect(await store.watch.stood([])).toEqual([]);
  });

  it('the version of each watch, which rises with what is written from it', async () => {
    const store = await open();
    expect((await store.watch.watchVersions()).size).toBe(0);
    const { patch } = raisedAt(SITE, 'm1');
    await store.watch.commit([{ ...patch, replaces: 0 }]);
    const first = (await store.watch.watchVersions()).get(SITE);
    await store.watch.commit([{ site: SITE, replaces: first ?? 0, judgedAtMs: EIGHT_MS }]);
    expect((await store.watch.watchVersions()).get(SITE)).toBe((first ?? 0) + 1);
  });
});

onEachStore('what was observed within a span that has passed', ({ open }) => {
  it('is there however much came since, the newest revision of each, in order of time', async () => {
    const store = await open();
    const minute = (n: number, change = {}) => observationOf(EIGHT_MS + n * MINUTE_MS, change);
    const observations = [
      minute(1),
      minute(0),
      minute(1, { revision: 1, corrects: true, gustMps: 9 }),
      minute(1, { station: 'hill' }),
      minute(2),
      ...Array.from({ length: 20 }, (_, i) => minute(30 + i)),
    ];
    await store.watch.commit([
      { site: SITE, replaces: null, observations },
      { site: SOUTH, replaces: null, observations: [minute(1)] },
    ]);
    const toMs = EIGHT_MS + 2 * MINUTE_MS;
    expect(await store.watch.observedWithin(SITE, EIGHT_MS, toMs, 100)).toEqual([
      minute(0),
      minute(1, { station: 'hill' }),
      minute(1, { revision: 1, corrects: true, gustMps: 9 }),
    ]);
    expect(await store.watch.observedWithin(SITE, EIGHT_MS, toMs, 1)).toEqual([minute(0)]);
    expect(await store.watch.observedWithin(SITE, 0, EIGHT_MS, 100)).toEqual([]);
  });
});
