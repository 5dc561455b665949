// What the service lets go of by itself, on a real store: by age, as the configuration says.

import { expect, it } from 'vitest';
import type { Mirror } from '#memory/mirror.ts';
import { otherTurns } from '#service/other-turns.ts';
import { openStore } from '#store/open-store.ts';
import { SITE } from '../builders/notices.ts';
import { eventOf } from '../builders/store.ts';
import { burnOf, observationOf, tapOf } from '../builders/watch-records.ts';

const DAY_MS = 86_400_000;
const NOW_MS = Date.parse('2026-03-02T12:00:00Z');

it('events and burns go after as many days as configured, observations after 400, and nothing sooner', async () => {
  const store = await openStore({ sqliteFile: ':memory:' }, { nowMs: () => NOW_MS });
  const ago = (days: number): number => NOW_MS - days * DAY_MS;
  await store.commit({
    events: [401, 399].map((days) => eventOf(SITE, { atMs: ago(days), subject: `p${days}` })),
  });
  await store.watch.commit([
    {
      site: SITE,
      replaces: 0,
      observations: [observationOf(ago(401)), observationOf(ago(399))],
      taps: [tapOf('t1', { burn: 'b1901' }), tapOf('t2', { burn: 'b1899' })],
      burns: [1901, 1899].map((days) => burnOf(`b${days}`, { openedAtMs: ago(days), closedAtMs: ago(days) })),
    },
  ]);
  const nothing = (): Promise<void> => Promise.resolve();
  const turns = otherTurns({
    planAll: () => Promise.resolve(),
    watching: { watch: nothing, observe: nothing },
    config: { store: { file: '', keepPlansDays: 400, keepObservationsDays: 400, keepBurnsDays: 1900 } },
    store,
    mirror: {} as Mirror,
    periods: { everyMin: 20, nearShiftMin: 10, alertsMin: 5, heartbeatMin: 5 },
    nowMs: () => NOW_MS,
  });
  await turns.expire(new AbortController().signal);
  // Those of taps are as old as their receipt.
  const left = await store.events.after({ after: 0, most: 9, kinds: ['verdict-changed'] });
  expect(left.map((event) => event.subject)).toEqual(['p399']);
  expect((await store.watch.observations(SITE, 0, 9)).map((o) => o.observedAtMs)).toEqual([ago(399)]);
  expect((await store.watch.burns(SITE, 0, NOW_MS, 9)).map((burn) => burn.id)).toEqual(['b1899']);
  expect((await store.care.sizes()).rows['burnTaps']).toBe(1);
  await store.close();
});
