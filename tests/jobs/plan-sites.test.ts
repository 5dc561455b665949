// Plans as they are kept: one for each thing that is new, whoever plans, and however far behind its memory was.

import { hash } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { TurnDeps } from '#jobs/deps.ts';
import { planSites } from '#jobs/plan-sites.ts';
import { createTurnTaker } from '#jobs/take-turn.ts';
import { openStore } from '#store/open-store.ts';
import type { PlanRecord } from '#store/plan-record.ts';
import type { Store } from '#store/store.ts';

const NOW_MS = Date.parse('2026-03-02T12:00:00Z');
const SITE = 'own/north-block';
const hashOf = (letter: string): string => hash('sha256', letter, 'hex');

let store: Store;
beforeEach(async () => {
  store = await openStore({ sqliteFile: ':memory:' }, { nowMs: () => NOW_MS });
});
afterEach(() => store.close());

/** A process whose memory holds what `world` says, once it has synced. */
function planner(world: { document: string }, held = world.document): TurnDeps {
  let seen = held;
  const state = () => ({
    held: { forecast: { documentId: hashOf(seen) } },
    definition: hashOf('d'),
    alertsHash: hashOf('a'),
  });
  const record = (): MadeRecord => ({
    site: SITE,
    madeAtMs: NOW_MS,
    basis: {
      definition: hashOf('d'),
      document: hashOf(seen),
      documentReceivedAtMs: NOW_MS,
      alerts: hashOf('a'),
      alertsFetchedAtMs: NOW_MS,
      pointTimeZone: 'America/Chicago',
    },
    firstDate: '2026-03-02',
    dayCount: 7,
    goodUntilMs: null,
    answerHash: hashOf('0'),
    program: 'test',
    summary: [],
  });
  const documents = () =>
    [
      ['d', 'definition'],
      ['a', 'alerts'],
      [seen, 'gridpoint'],
    ].map(([letter = '', kind]) => ({ hash: hashOf(letter), kind, bytes: Buffer.from(letter) }));
  return {
    store,
    mirror: {
      book: () => ({ sites: new Map([[SITE, {}]]) }),
      state,
      sync: async () => {
        seen = world.document;
      },
    },
    planner: {
      firstDate: () => '2026-03-02',
      make: () => ({ record: record(), days: [], documents: documents() }),
    },
    worker: 'w',
    nowMs: () => NOW_MS,
    log: { info: () => undefined, warn: () => undefined },
    tally: { planned: () => undefined },
  } as unknown as TurnDeps;
}

type MadeRecord = Omit<PlanRecord, 'planId' | 'cause'>;

const planned = async (): Promise<string[]> =>
  (await store.plans.within(SITE, 0, NOW_MS + 1, 100)).map(
    (p) => ['1', '2'].find((letter) => hashOf(letter) === p.basis.document) ?? '?',
  );

describe('plans of a site', () => {
  it('a process that is behind plans from what is there now, never backwards', async () => {
    const world = { document: '1' };
    const ahead = planner(world);
    const behind = planner(world);
    await planSites(ahead);
    world.document = '2';
    await planSites(ahead);
    // Its memory still holds the first document.
    await planSites(behind);
    await planSites(ahead);
    await planSites(behind);
    expect(await planned()).toEqual(['1', '2']);
  });

  it('of two who plan at once one plan is left, also where one is late between its two looks at the store', async () => {
    const world = { document: '1' };
    const gate = Promise.withResolvers<void>();
    const late = planner(world);
    const slow = {
      ...late,
      store: {
        ...store,
        plans: {
          ...store.plans,
          newest: async (sites?: readonly string[]) => {
            await gate.promise;
            return store.plans.newest(sites);
          },
        },
      },
    };
    const running = planSites(slow);
    await planSites(planner(world));
    gate.resolve();
    await running;
    expect(await planned()).toEqual(['1']);
  });
});

describe('a turn that fails', () => {
  it('lets go of its claim for good, also where a renewal comes at that moment', async () => {
    let tick: () => void = () => undefined;
    const deps = planner({ document: '1' });
    const base = {
      ...deps,
      planAll: () => Promise.resolve(),
      deadAfterMs: 30_000,
      located: () => undefined,
      planSome: () => Promise.resolve(),
      every: (_ms: number, call: () => void) => {
        tick = call;
        return () => {
          tick = () => undefined;
        };
      },
    };
    const options = {
      ...base,
      others: {
        watch: () => Promise.resolve(),
        observe: () => Promise.resolve(),
        heartbeat: () => {
          tick();
          return Promise.reject(new Error('no watchdog'));
        },
        expire: () => Promise.resolve(),
      },
      store: {
        ...store,
        forecasts: {
          ...store.forecasts,
          release: async (claim: Parameters<Store['forecasts']['release']>[0]) => {
            tick();
            await store.forecasts.release(claim);
            tick();
          },
        },
      },
    };
    const turn = { kind: 'heartbeat', subject: '', cycle: 60 } as const;
    const taker = createTurnTaker(options as Parameters<typeof createTurnTaker>[0]);
    await expect(taker.take(turn, new AbortController().signal)).rejects.toThrow('no watchdog');
    const next = { work: 'heartbeat', cycle: 60, worker: 'other', deadAfterMs: 30_000 };
    expect(await store.forecasts.claim(next)).toBe('ours');
  });
});
