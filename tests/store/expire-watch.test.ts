// Retention of the watch. Row 18: what is still going on is told anew for ever once its record is purged, so nothing of an
// open burn or a standing notice goes, however old it is (alertmanager#1806, grafana#72308).

import { expect, it } from 'vitest';
import type { Store } from '#store/store.ts';
import { EIGHT_MS, SITE } from '../builders/notices.ts';
import {
  answerOf,
  briefingRow,
  burnOf,
  dayTextOf,
  deliveryOf,
  observationOf,
  raisedAt,
  silenceOf,
  tapOf,
} from '../builders/watch-records.ts';
import { onEachStore } from './on-each-store.ts';

const DAY_MS = 86_400_000;
const KEEP = {
  plansMs: DAY_MS,
  claimsMs: DAY_MS,
  repliesMs: DAY_MS,
  burnsMs: 10 * DAY_MS,
  observationsMs: 5 * DAY_MS,
  auditMs: 10 * DAY_MS,
};
const NONE = {
  observations: 0,
  burnTaps: 0,
  briefings: 0,
  burnIncidents: 0,
  burns: 0,
  transitions: 0,
  notices: 0,
  messages: 0,
  deliveries: 0,
  receipts: 0,
  answers: 0,
  dayTexts: 0,
  silences: 0,
};

async function expireAt(store: Store, clock: { nowMs: number }, afterDays: number) {
  clock.nowMs = EIGHT_MS + afterDays * DAY_MS;
  return (await store.care.expire(KEEP)).watch;
}

/** A burn of one day with all that was told of it. */
async function burnDay(store: Store, site: string, id: string, atMs: number, closed: boolean): Promise<void> {
  const { version } = await store.watch.state(site, 0);
  const { patch, notice } = raisedAt(site, `m ${id}`, atMs);
  const over = { ...patch.transitions?.[0], number: 2, kind: 'over', atMs: atMs + 60_000 } as NonNullable<
    typeof patch.transitions
  >[number];
  await store.watch.commit([
    {
      ...patch,
      replaces: version,
      taps: [
        tapOf(`t ${id}`, { burn: id, tappedAtMs: atMs }),
        tapOf(`u ${id}`, { burn: id, tappedAtMs: atMs + 1 }),
      ],
      burns: [burnOf(id, { site, openedAtMs: atMs, closedAtMs: closed ? atMs + 3_600_000 : null })],
      observations: [observationOf(atMs + 1), observationOf(atMs + 2)],
      notices: [closed ? { ...notice, phase: 'quiet' } : notice],
      transitions: closed ? [...(patch.transitions ?? []), over] : (patch.transitions ?? []),
      deliveries: [deliveryOf(`m ${id}`, { site, dueAtMs: atMs })],
      answers: [answerOf(`a ${id}`, `m ${id}`, { site, receivedAtMs: atMs + 5 })],
      silences: [silenceOf(`s ${id}`, { site, untilMs: atMs + 3_600_000 })],
      dayTexts: [{ ...dayTextOf(`d ${id}`, '2026-03-02'), site, atMs }],
      briefings: [briefingRow(`m ${id}`, { burn: id })],
      incidents: [{ id: `i ${id}`, burn: id, reference: 'CAD-1', by: 'dispatch', atMs }],
    },
  ]);
}

onEachStore('retention of the watch', ({ open }) => {
  it('drops a burn, its taps and what was told of it together, and observations by their own time', async () => {
    const clock = { nowMs: EIGHT_MS };
    const store = await open(undefined, { nowMs: () => clock.nowMs });
    await burnDay(store, SITE, 'b1', EIGHT_MS, true);
    expect(await expireAt(store, clock, 4.9)).toEqual(NONE);
    expect(await expireAt(store, clock, 5.1)).toEqual({ ...NONE, observations: 2 });
    expect(await expireAt(store, clock, 9.9)).toEqual(NONE);
    expect(await expireAt(store, clock, 10.1)).toEqual({
      ...NONE,
      burnTaps: 2,
      briefings: 1,
      burnIncidents: 1,
      burns: 1,
      transitions: 2,
      notices: 1,
      messages: 1,
      deliveries: 1,
      answers: 1,
      dayTexts: 1,
      silences: 1,
    });
    const { rows } = await store.care.sizes();
    expect(rows).toMatchObject({ watches: 1, burnTaps: 0, observations: 0, messages: 0 });
  });

  it('row 18: keeps all of a burn that is open and a notice that stands, however old they are', async () => {
    const clock = { nowMs: EIGHT_MS };
    const store = await open(undefined, { nowMs: () => clock.nowMs });
    await burnDay(store, SITE, 'b1', EIGHT_MS, false);
    await burnDay(store, 'fern-hollow/south-block', 'b2', EIGHT_MS, true);
    const before = { thread: await store.watch.thread('m b1'), burn: await store.watch.burn(SITE, 'b1') };
    const dropped = await expireAt(store, clock, 3000);
    // Of the open one go the silence that is over and the day text; both are of no use to anybody.
    expect(dropped).toEqual({
      observations: 2,
      burnTaps: 2,
      briefings: 1,
      burnIncidents: 1,
      burns: 1,
      transitions: 2,
      notices: 1,
      messages: 1,
      deliveries: 1,
      receipts: 0,
      answers: 1,
      dayTexts: 2,
      silences: 2,
    });
    expect({ thread: await store.watch.thread('m b1'), burn: await store.watch.burn(SITE, 'b1') }).toEqual(
      before,
    );
    expect(await store.watch.observations(SITE, 0, 9)).toHaveLength(2);
    expect(await store.watch.standing()).toHaveLength(1);
    // Covered and over at last, it goes after its time, and no sooner.
    const { version, notices } = await store.watch.state(SITE, 0);
    await store.watch.commit([
      {
        site: SITE,
        replaces: version,
        burns: [burnOf('b1', { closedAtMs: clock.nowMs })],
        notices: notices.map((n) => ({ ...n, phase: 'quiet' as const, steppedAtMs: clock.nowMs })),
      },
    ]);
    expect(await expireAt(store, clock, 3009)).toMatchObject({ burns: 0, burnTaps: 0, notices: 0 });
    expect(await expireAt(store, clock, 3011)).toMatchObject({ burns: 1, burnTaps: 2, notices: 1 });
  });

  it('takes small steps however much there is', async () => {
    const clock = { nowMs: EIGHT_MS };
    const store = await open(undefined, { nowMs: () => clock.nowMs });
    const observations = Array.from({ length: 1203 }, (_, i) => observationOf(EIGHT_MS + i));
    await store.watch.commit([{ site: SITE, replaces: null, observations }]);
    expect(await expireAt(store, clock, 20)).toMatchObject({ observations: 1203 });
  });
});
