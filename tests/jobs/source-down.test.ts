// Pulls of many cells while the whole source is down, and after it is back: every cell is read again in time, and none pays
// with a longer wait for what was not its own fault.

import { MockAgent } from 'undici';
import { expect, it } from 'vitest';
import { MINUTE_MS } from '#core/units/time.ts';
import type { TurnDeps } from '#jobs/deps.ts';
import { dueTurns } from '#jobs/due.ts';
import { pullCell } from '#jobs/pull-cell.ts';
import { makeHttp } from '#sources/http.ts';
import type { CellState } from '#store/cell-state.ts';
import type { PlaceState } from '#store/place-state.ts';

const START_MS = Date.parse('2026-03-02T05:00:00Z');
const PERIODS = { everyMin: 20, nearShiftMin: 20, alertsMin: 5, heartbeatMin: null };
const SHIFT = { days: ['mon'], from: '07:00', to: '17:00', holidays: [] } as const;
const ORIGIN = 'https://api.example.org';
const LOG = { info: () => undefined, warn: () => undefined };

const placeState = (number: number): PlaceState => ({
  place: `38,-${number}`,
  cell: `LSX ${number},1`,
  timeZone: 'America/Chicago',
  located: { point: { cell: `LSX ${number},1` } },
  locatedAtMs: START_MS,
  remembered: null,
  alerts: 'a'.repeat(64),
  alertsFetchedAtMs: START_MS,
  fault: null,
  version: 1,
});

/** Cells pulled by the minute over the real client; `isBad` says which of them the source cannot give now. */
function running(cellCount: number, isBad: (cell: string) => boolean) {
  const clock = { nowMs: START_MS };
  const counts = { asked: 0, failed: 0 };
  const cells = new Map<string, CellState>();
  const readAtMs = new Map<string, number>();
  const agent = new MockAgent();
  agent.disableNetConnect();
  agent
    .get(ORIGIN)
    .intercept({ path: /./ })
    .reply((request) => {
      const isFailing = isBad(decodeURIComponent(String(request.path).slice(1)));
      counts.asked += 1;
      counts.failed += isFailing ? 1 : 0;
      const headers = { 'content-type': 'application/json' };
      return { statusCode: isFailing ? 500 : 200, data: '{}', responseOptions: { headers } };
    })
    .persist();
  const http = makeHttp({
    pace: null,
    userAgent: 'test',
    accept: 'application/json',
    nowMs: () => clock.nowMs,
    // Pulls run beside each other in truth: the wait of one does not move the clock of all.
    sleep: () => Promise.resolve(),
    random: () => 0.5,
    log: LOG,
    dispatcher: agent,
  });
  const places = Array.from({ length: cellCount }, (_, i) => placeState(i));
  const deps = {
    nowMs: () => clock.nowMs,
    store: {
      documents: { read: async () => null },
      forecasts: { cells: async ([cell]: [string]) => [cells.get(cell)].filter(Boolean) },
    },
    mirror: { places: () => places },
    source: {
      async cell({ located }: { located: { point: { cell: string } } }) {
        const { cell } = located.point;
        await http.get(`${ORIGIN}/${cell}`);
        readAtMs.set(cell, clock.nowMs);
        const document = { bytes: new Uint8Array(), hash: 'd', receivedAtMs: 0, confirmedAtMs: clock.nowMs };
        return { located, document: { ...document, etag: null, lastModified: null }, forecast: {} };
      },
    },
    tally: { pulled: () => undefined },
    log: LOG,
  } as unknown as TurnDeps;

  async function minutes(count: number): Promise<void> {
    for (let i = 0; i < count; i += 1) {
      const sites = places.map((place) => ({ placeKey: place.place, shifts: [SHIFT], place }));
      const due = dueTurns({ sites, cell: (name) => cells.get(name) ?? null }, PERIODS, clock.nowMs);
      for (const { kind, subject, cycle } of due) {
        if (kind !== 'pull') continue;
        const batch = await pullCell(deps, subject, cycle, new AbortController().signal);
        for (const cell of batch.cells ?? []) cells.set(subject, { ...cell, version: 1 });
      }
      clock.nowMs += MINUTE_MS;
    }
  }
  return { clock, cells, readAtMs, minutes, counts };
}

it.each([[3], [40]])(
  '%d cells are read again within 12 minutes of the return of the source',
  async (count) => {
    let isDown = false;
    const run = running(count, () => isDown);
    await run.minutes(21);
    expect(run.readAtMs.size).toBe(count);
    for (const downMin of [7, 33, 120, 124, 127, 130]) {
      isDown = true;
      await run.minutes(downMin);
      isDown = false;
      const backMs = run.clock.nowMs;
      const behind = [...run.cells.values()].filter(({ fault }) => fault !== null);
      await run.minutes(12);
      for (const { cell } of behind) expect(run.readAtMs.get(cell)).toBeGreaterThanOrEqual(backMs);
      for (const { fault, failures } of run.cells.values()) expect([fault, failures]).toEqual([null, 0]);
      await run.minutes(25);
    }
  },
);

it('40 cells ask a source that is down a few times in an hour, not hundreds of times', async () => {
  let isDown = false;
  const run = running(40, () => isDown);
  await run.minutes(21);
  isDown = true;
  await run.minutes(60);
  const before = run.counts.asked;
  await run.minutes(60);
  expect(run.counts.asked - before).toBeLessThanOrEqual(14);
});

it('a cell does not count what the source as a whole failed', async () => {
  let isDown = false;
  const run = running(40, () => isDown);
  await run.minutes(21);
  isDown = true;
  await run.minutes(180);
  const failures = [...run.cells.values()].map((cell) => cell.failures);
  expect(run.counts.failed).toBeGreaterThan(20);
  // The one whose four tries in a row were the first of the five.
  expect(failures.reduce((sum, count) => sum + count, 0)).toBe(1);
});

it('cells that fail by themselves do not keep the others from being read, and wait longer and longer', async () => {
  let isDown = false;
  const bad = ['LSX 0,1', 'LSX 1,1', 'LSX 7,1'];
  const run = running(12, (cell) => isDown || bad.includes(cell));
  await run.minutes(60);
  const sound = [...run.cells.keys()].filter((cell) => !bad.includes(cell));
  for (const cell of sound) expect(run.readAtMs.get(cell)).toBeGreaterThan(START_MS + 30 * MINUTE_MS);
  isDown = true;
  await run.minutes(120);
  isDown = false;
  const backMs = run.clock.nowMs;
  await run.minutes(12);
  for (const cell of sound) expect(run.readAtMs.get(cell)).toBeGreaterThanOrEqual(backMs);
  const before = run.counts.failed;
  await run.minutes(60);
  // Three cells, each some four times in an hour, four tries each; the source is not blamed for them.
  expect(run.counts.failed - before).toBeLessThanOrEqual(60);
});

it('what is held stays, with the fault beside it', async () => {
  let isDown = false;
  const run = running(6, () => isDown);
  await run.minutes(21);
  isDown = true;
  await run.minutes(60);
  for (const { document, confirmedAtMs, fault } of run.cells.values()) {
    expect([document, fault?.code]).toEqual(['d', 'source_unreachable']);
    expect(confirmedAtMs).toBeLessThan(START_MS + 21 * MINUTE_MS);
  }
  const said = [...run.cells.values()].map(({ fault }) => fault?.message).join();
  expect(said).toMatch(/api.example.org has failed since 2026-03-02T05:2\d:00.000Z and is left alone until/);
});
