// What is known of a site's watch: burns, observations, notices, silences, people and day texts.

import { describe, expect, it } from 'vitest';
import { EIGHT_MS, SITE } from '../builders/notices.ts';
import { burnOf, dayTextOf, observationOf, raisedAt, silenceOf, tapOf } from '../builders/watch-records.ts';
import { onEachStore } from './on-each-store.ts';

onEachStore('what is known of a site', ({ open }) => {
  it('burns are open until they are closed, and are found by when they were opened', async () => {
    const store = await open();
    const south = 'fern-hollow/south-block';
    const burns = [burnOf('b1'), burnOf('b2', { openedAtMs: EIGHT_MS + 5 })];
    await store.watch.commit([
      { site: SITE, replaces: 0, burns },
      { site: south, replaces: 0, burns: [burnOf('b1', { site: south })] },
    ]);
    expect((await store.watch.openBurns()).map((b) => [b.site, b.id])).toEqual([
      [SITE, 'b1'],
      [SITE, 'b2'],
      [south, 'b1'],
    ]);
    const covered = burnOf('b1', { state: 'covered', closedAtMs: EIGHT_MS + 9 });
    await store.watch.commit([{ site: SITE, replaces: 1, burns: [covered] }]);
    expect((await store.watch.openBurns([SITE])).map((b) => b.id)).toEqual(['b2']);
    expect((await store.watch.burns(SITE, EIGHT_MS, EIGHT_MS + 6, 9)).map((b) => b.id)).toEqual(['b2', 'b1']);
    expect(await store.watch.burns(SITE, EIGHT_MS + 1, EIGHT_MS + 5, 9)).toEqual([]);
    expect(await store.watch.burn(SITE, 'b1')).toEqual({
      burn: covered,
      taps: [],
      briefings: [],
      incidents: [],
    });
    expect(await store.watch.burn(south, 'b2')).toBeNull();
  });

  it('burns of a moment are those opened by it and not covered before, of all sites', async () => {
    const store = await open();
    const south = 'fern-hollow/south-block';
    const burns = [
      burnOf('open'),
      burnOf('covered', { state: 'covered', closedAtMs: EIGHT_MS + 100 }),
      burnOf('later', { openedAtMs: EIGHT_MS + 50 }),
    ];
    await store.watch.commit([
      { site: SITE, replaces: 0, burns },
      { site: south, replaces: 0, burns: [burnOf('open', { site: south })] },
    ]);
    const at = async (openedByMs: number, coveredAfterMs: number) =>
      (await store.watch.burnsAt(openedByMs, coveredAfterMs)).map(({ site, id }) => `${site} ${id}`).sort();
    expect(await at(EIGHT_MS - 1, EIGHT_MS - 1)).toEqual([]);
    const both = [`${SITE} open`, `${south} open`];
    expect(await at(EIGHT_MS, EIGHT_MS + 99)).toEqual([...both, `${SITE} covered`].sort());
    expect(await at(EIGHT_MS + 50, EIGHT_MS + 100)).toEqual([...both, `${SITE} later`].sort());
  });

  it('taps of the same id at two sites are two, and come in the order in which they were tapped', async () => {
    const store = await open();
    const south = 'fern-hollow/south-block';
    const late = tapOf('t2', { tap: 'charging', tappedAtMs: EIGHT_MS - 5, receivedAtMs: EIGHT_MS + 99_000 });
    await store.watch.commit([
      { site: SITE, replaces: 0, burns: [burnOf('b1')], taps: [tapOf('t1'), late] },
      {
        site: south,
        replaces: 0,
        burns: [burnOf('b1', { site: south })],
        taps: [tapOf('t1', { withdraws: true, corrects: 't0' })],
      },
    ]);
    expect((await store.watch.burn(SITE, 'b1'))?.taps).toEqual([late, tapOf('t1')]);
    expect((await store.watch.burn(south, 'b1'))?.taps).toEqual([
      tapOf('t1', { withdraws: true, corrects: 't0' }),
    ]);
    expect(await store.watch.tapsNamed(SITE, ['t1', 't9'])).toEqual([tapOf('t1')]);
    expect(await store.watch.tapsNamed(SITE, [])).toEqual([]);
  });

  it('of observations the newest revision counts, in order of their own time, however they came', async () => {
    const store = await open();
    const minute = (n: number, change = {}) => observationOf(EIGHT_MS + n * 60_000, change);
    const add = (...observations: ReturnType<typeof minute>[]) =>
      store.watch.commit([{ site: SITE, replaces: null, observations }]);
    await add(minute(2), minute(1), minute(1, { station: 'hill' }));
    await add(minute(1, { revision: 1, corrects: true, gustMps: 9 }), minute(0));
    const [again] = await add(minute(1, { revision: 1, gustMps: 10 }));
    expect(again?.observations).toEqual([]);
    const read = await store.watch.observations(SITE, EIGHT_MS, 100);
    expect(read).toEqual([
      minute(0),
      minute(1, { station: 'hill' }),
      minute(1, { revision: 1, corrects: true, gustMps: 9 }),
      minute(2),
    ]);
    // Before a moment: the newest of these, however many came after.
    expect(await store.watch.observations(SITE, EIGHT_MS, 1, EIGHT_MS + 60_000)).toEqual([minute(0)]);
    // Where a station has more than asked for, its newest; it pushes out none of another.
    expect(await store.watch.observations(SITE, EIGHT_MS, 1)).toEqual([
      minute(1, { station: 'hill' }),
      minute(2),
    ]);
    expect(await store.watch.observations(SITE, EIGHT_MS, 2)).toEqual(read.slice(1));
    expect(await store.watch.observations(SITE, EIGHT_MS + 60_001, 100)).toEqual([minute(2)]);
    expect(await store.watch.observations('fern-hollow/south-block', 0, 100)).toEqual([]);
  });

  it('notices that stand are in force whatever was sent; quiet ones are remembered for as long as asked', async () => {
    const store = await open();
    const { notice } = raisedAt(SITE, 'm1');
    const quiet = {
      ...notice,
      key: `${SITE} thunder-near `,
      phase: 'quiet' as const,
      steppedAtMs: EIGHT_MS - 10,
    };
    await store.watch.commit([{ site: SITE, replaces: 0, notices: [notice, quiet] }]);
    expect(await store.watch.standing()).toEqual([notice]);
    expect(await store.watch.standing([SITE])).toEqual([notice]);
    expect(await store.watch.standing(['fern-hollow/south-block'])).toEqual([]);
    expect((await store.watch.state(SITE, EIGHT_MS)).notices).toEqual([notice]);
    expect((await store.watch.state(SITE, EIGHT_MS - 10)).notices).toEqual([notice, quiet]);
    await store.watch.commit([{ site: SITE, replaces: 1, notices: [{ ...notice, phase: 'quiet' }] }]);
    expect(await store.watch.standing()).toEqual([]);
  });

  describe('row 25: a silence', () => {
    it('that was ended stays ended, whoever writes of it again (alertmanager#3457)', async () => {
      const store = await open();
      const put = (change = {}) =>
        store.watch.commit([{ site: SITE, replaces: null, silences: [silenceOf('s', change)] }]);
      await put();
      expect(await store.watch.silences([SITE], EIGHT_MS)).toEqual([silenceOf('s')]);
      expect(await store.watch.silences([SITE], silenceOf('s').untilMs)).toEqual([]);
      await put({ endedAtMs: EIGHT_MS + 1, endedBy: 'Ben' });
      await put({ untilMs: EIGHT_MS + 9e9 });
      expect(await store.watch.silences([SITE], EIGHT_MS)).toEqual([]);
    });
  });

  it('who opted out stays so until they opt in again', async () => {
    const store = await open();
    const out = {
      organisation: 'fern-hollow',
      contact: 'ana',
      address: '+15550100',
      optedOutAtMs: 5,
      word: 'QUIT',
    };
    const put = (...optOuts: (Omit<typeof out, 'optedOutAtMs'> & { optedOutAtMs: number | null })[]) =>
      store.watch.commit([{ site: SITE, replaces: null, optOuts }]);
    await put(out, { ...out, contact: 'ben' }, { ...out, organisation: 'other' });
    await put({ ...out, optedOutAtMs: 9, word: 'BAJA' });
    expect(await store.watch.optOuts('fern-hollow')).toEqual([
      { ...out, optedOutAtMs: 9, word: 'BAJA' },
      { ...out, contact: 'ben' },
    ]);
    await put({ ...out, optedOutAtMs: null });
    expect((await store.watch.optOuts('fern-hollow')).map((o) => o.contact)).toEqual(['ben']);
  });

  it('there is one day text for a date and kind, and its first telling stands', async () => {
    const store = await open();
    const put = (...dayTexts: ReturnType<typeof dayTextOf>[]) =>
      store.watch.commit([{ site: SITE, replaces: null, dayTexts }]);
    await put(dayTextOf('first'), dayTextOf('older', '2026-02-27'));
    await put(dayTextOf('second'));
    expect((await store.watch.dayTexts(SITE, '2026-03-01')).map((t) => t.message)).toEqual(['first']);
    expect((await store.watch.dayTexts(SITE, '2026-02-01')).map((t) => t.message)).toEqual([
      'older',
      'first',
    ]);
  });
});
