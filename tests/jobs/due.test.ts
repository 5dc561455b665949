// What is due: once in its period, spread over it, sooner near a shift, and caught up once after a pause.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { cycleOf, type DueSite, dueTurns, isNearShift, type Known, spread } from '#jobs/due.ts';
import { isUrgent, TURN_KINDS, workOf } from '#jobs/turn.ts';
import type { CellState } from '#store/cell-state.ts';
import type { PlaceState } from '#store/place-state.ts';

const PERIODS = { everyMin: 20, nearShiftMin: 10, alertsMin: 5, heartbeatMin: null };
const NIGHT_MS = Date.parse('2026-03-03T01:00:00-06:00');
const WORKDAYS = { days: ['mon', 'tue'], from: '07:00', to: '17:00', holidays: [] } as const;

const placeState = (more: Partial<PlaceState> = {}): PlaceState => ({
  place: '38.97,-92.33',
  cell: 'LSX 10,20',
  timeZone: 'America/Chicago',
  located: {},
  locatedAtMs: NIGHT_MS - HOUR_MS,
  remembered: null,
  alerts: 'a'.repeat(64),
  alertsFetchedAtMs: NIGHT_MS,
  fault: null,
  version: 1,
  ...more,
});

const cellState = (more: Partial<CellState> = {}): CellState => ({
  cell: 'LSX 10,20',
  document: 'd'.repeat(64),
  receivedAtMs: NIGHT_MS,
  confirmedAtMs: NIGHT_MS,
  issuedAtMs: NIGHT_MS,
  etag: null,
  lastModified: null,
  fault: null,
  failures: 0,
  cycle: 0,
  triedAtMs: NIGHT_MS,
  version: 1,
  ...more,
});

const site = (place: PlaceState | null): DueSite => ({
  placeKey: '38.97,-92.33',
  shifts: [WORKDAYS],
  place,
});

const known = (cell: CellState | null, place: PlaceState | null = placeState()): Known => ({
  sites: [site(place)],
  cell: () => cell,
});

const pulls = (at: Known, nowMs: number) => dueTurns(at, PERIODS, nowMs).filter((t) => t.kind === 'pull');

/** Minutes of a run in which a cell is pulled, where each pull is done at once. */
function minutesPulled(fromMs: number, minutes: number, tickEvery = 1): number[] {
  const found: number[] = [];
  let triedAtMs = 0;
  for (let minute = 0; minute < minutes; minute += tickEvery) {
    const nowMs = fromMs + minute * MINUTE_MS;
    if (pulls(known(cellState({ triedAtMs })), nowMs).length === 0) continue;
    found.push(minute);
    triedAtMs = nowMs;
  }
  return found;
}

describe('a cell', () => {
  it('is due at once where it was never pulled', () => {
    expect(pulls(known(null), NIGHT_MS)).toHaveLength(1);
  });

  it('is due once in each period: 20 min by night, 10 min from three hours before a shift', () => {
    const apart = (minutes: readonly number[]) => minutes.slice(2).map((m, i) => m - (minutes[i + 1] ?? 0));
    expect(new Set(apart(minutesPulled(NIGHT_MS, 120)))).toEqual(new Set([20]));
    const dawnMs = Date.parse('2026-03-03T04:00:00-06:00');
    expect(new Set(apart(minutesPulled(dawnMs, 120)))).toEqual(new Set([10]));
  });

  it('is due every 10 min while a fire is open at one of its sites, at whatever hour', () => {
    const cyclesIn = (hours: number, isBurning: boolean): number => {
      const at = {
        sites: [site(placeState()), { ...site(placeState()), isBurning }],
        cell: () => cellState({ triedAtMs: NIGHT_MS - HOUR_MS }),
      };
      const minutes = Array.from({ length: hours * 60 }, (_, minute) => NIGHT_MS + minute * MINUTE_MS);
      return new Set(minutes.flatMap((ms) => pulls(at, ms).map(({ cycle }) => cycle))).size;
    };
    // A span may cut its first and its last period.
    expect(cyclesIn(2, true)).toBeGreaterThanOrEqual(12);
    expect(cyclesIn(2, true)).toBeLessThanOrEqual(13);
    expect(cyclesIn(2, false)).toBeGreaterThanOrEqual(6);
    expect(cyclesIn(2, false)).toBeLessThanOrEqual(7);
  });

  it('is due once after hours of sleep, however many turns were missed', () => {
    const minutes = minutesPulled(NIGHT_MS, 1);
    expect(minutes).toEqual([0]);
    const afterSleep = NIGHT_MS + 300 * MINUTE_MS;
    const turns = pulls(known(cellState({ triedAtMs: NIGHT_MS })), afterSleep);
    expect(turns).toHaveLength(1);
    expect(pulls(known(cellState({ triedAtMs: afterSleep })), afterSleep)).toEqual([]);
  });

  it('is due in a clock that was set back, in a turn of its own, and does not wait until the clock has caught up', () => {
    const before = pulls(known(cellState({ triedAtMs: 0 })), NIGHT_MS);
    const state = cellState({ triedAtMs: NIGHT_MS + 5 * HOUR_MS });
    const turns = pulls(known(state), NIGHT_MS);
    expect(turns).toHaveLength(1);
    expect(turns[0]?.cycle).not.toBe(before[0]?.cycle);
  });

  it('that failed is tried again after 1, 2, 4, 8 minutes, and never later than its period', () => {
    const periodStartMs = cycleOf(NIGHT_MS, 20, spread('LSX 10,20', 20)) * 1000;
    const dueAfter = (failures: number) => {
      const state = cellState({ failures, triedAtMs: periodStartMs + 1000 });
      for (let minute = 0; minute <= 20; minute += 1) {
        if (pulls(known(state), periodStartMs + minute * MINUTE_MS + 2000).length > 0) return minute;
      }
      return null;
    };
    expect([1, 2, 3, 4, 9].map(dueAfter)).toEqual([1, 2, 4, 8, 20]);
  });

  it('of a source that is left alone is tried again as soon as that ends, whatever its own failures', () => {
    const periodStartMs = cycleOf(NIGHT_MS, 20, spread('LSX 10,20', 20)) * 1000;
    const triedAtMs = periodStartMs + 1000;
    for (const failures of [0, 1, 9]) {
      const againAtMs = triedAtMs + 3 * MINUTE_MS;
      const fault = { code: 'source_unreachable', message: 'left alone', atMs: triedAtMs, againAtMs };
      const due = (nowMs: number) => pulls(known(cellState({ triedAtMs, failures, fault })), nowMs).length;
      expect([due(againAtMs - 1), due(againAtMs)]).toEqual([0, 1]);
    }
  });

  it('comes before those that fail by themselves', () => {
    const triedAtMs = NIGHT_MS - 30 * MINUTE_MS;
    const failures: Readonly<Record<string, number>> = {
      'LSX 1,1': 9,
      'LSX 2,1': 0,
      'LSX 3,1': 2,
      'LSX 4,1': 0,
    };
    const sites = Object.keys(failures).map((cell) => site(placeState({ cell })));
    const cell = (name: string) => cellState({ cell: name, triedAtMs, failures: failures[name] ?? 0 });
    expect(pulls({ sites, cell }, NIGHT_MS).map(({ subject }) => subject)).toEqual([
      'LSX 2,1',
      'LSX 4,1',
      'LSX 3,1',
      'LSX 1,1',
    ]);
  });

  it('has one turn however many sites lie in it', () => {
    const sites = Array.from({ length: 9 }, () => site(placeState()));
    expect(pulls({ sites, cell: () => null }, NIGHT_MS)).toHaveLength(1);
  });

  it('cells are spread over the minutes of the period, about evenly', () => {
    const counts = new Map<number, number>();
    for (let i = 0; i < 3000; i += 1) {
      const minute = spread(`LSX ${i % 60},${Math.floor(i / 60)}`, 20);
      counts.set(minute, (counts.get(minute) ?? 0) + 1);
    }
    expect(counts.size).toBe(20);
    for (const count of counts.values()) expect(Math.abs(count - 150)).toBeLessThan(60);
  });
});

describe('a place', () => {
  it('is resolved at first, and again after a day', () => {
    const locates = (place: PlaceState | null, nowMs: number) =>
      dueTurns(known(null, place), PERIODS, nowMs).filter((t) => t.kind === 'locate').length;
    expect(locates(null, NIGHT_MS)).toBe(1);
    expect(locates(placeState(), NIGHT_MS)).toBe(0);
    expect(locates(placeState(), NIGHT_MS + 23 * HOUR_MS)).toBe(1);
  });

  it('that could not be resolved waits five minutes', () => {
    const fault = { code: 'source_unreachable', message: 'no answer', atMs: NIGHT_MS };
    const place = placeState({ locatedAtMs: null, cell: null, fault });
    const due = (nowMs: number) =>
      dueTurns(known(null, place), PERIODS, nowMs).some((t) => t.kind === 'locate');
    expect([due(NIGHT_MS + 4 * MINUTE_MS), due(NIGHT_MS + 5 * MINUTE_MS)]).toEqual([false, true]);
  });

  it('that could not be resolved, since the source is left alone, waits until that ends', () => {
    const againAtMs = NIGHT_MS + 2 * MINUTE_MS;
    const fault = { code: 'source_unreachable', message: 'left alone', atMs: NIGHT_MS, againAtMs };
    const place = placeState({ locatedAtMs: null, cell: null, fault });
    const due = (nowMs: number) =>
      dueTurns(known(null, place), PERIODS, nowMs).some((t) => t.kind === 'locate');
    expect([due(againAtMs - 1), due(againAtMs)]).toEqual([false, true]);
  });
});

describe('alerts', () => {
  it('have one turn in five minutes, and one at once where a place has none yet', () => {
    const of = (place: PlaceState, nowMs: number) =>
      dueTurns(known(null, place), PERIODS, nowMs).filter((t) => t.kind === 'alerts');
    const cycles = Array.from({ length: 10 }, (_, i) => of(placeState(), NIGHT_MS + i * MINUTE_MS)[0]?.cycle);
    expect(new Set(cycles).size).toBe(2);
    expect(of(placeState({ alerts: null }), NIGHT_MS).map((t) => t.subject)).toEqual(['', 'unread']);
  });

  it('are not asked for before any place is resolved', () => {
    expect(dueTurns(known(null, null), PERIODS, NIGHT_MS).some((t) => t.kind === 'alerts')).toBe(false);
  });
});

describe('a watchdog elsewhere', () => {
  it('is called once in its period however many processes see that it is due, and not at all where none is named', () => {
    const beats = (heartbeatMin: number | null, nowMs: number) =>
      dueTurns(known(null), { ...PERIODS, heartbeatMin }, nowMs).filter((t) => t.kind === 'heartbeat');
    const cycles = Array.from({ length: 20 }, (_, i) => beats(5, NIGHT_MS + i * MINUTE_MS)[0]?.cycle);
    expect(new Set(cycles).size).toBe(4);
    expect(beats(null, NIGHT_MS)).toEqual([]);
  });
});

describe('near a shift', () => {
  it('is from three hours before its beginning until its end, also over midnight', () => {
    const at = (text: string, shifts: DueSite['shifts']) =>
      isNearShift({ placeKey: '', shifts, place: placeState() }, Date.parse(text));
    expect(at('2026-03-03T03:59:00-06:00', [WORKDAYS])).toBe(false);
    expect(at('2026-03-03T04:00:00-06:00', [WORKDAYS])).toBe(true);
    expect(at('2026-03-03T17:00:00-06:00', [WORKDAYS])).toBe(false);
    const night = { days: ['tue'], from: '22:00', to: '06:00', holidays: [] } as const;
    expect(at('2026-03-04T05:59:00-06:00', [night])).toBe(true);
    expect(at('2026-03-03T18:59:00-06:00', [night])).toBe(false);
  });
});

describe('a turn', () => {
  it('is named by its work, and waits behind the source only where it asks it for forecasts', () => {
    const turn = { kind: 'pull', subject: 'LSX 10,20', cycle: 1_772_000_000 } as const;
    expect(workOf(turn)).toBe('pull LSX 10,20');
    expect(workOf({ ...turn, kind: 'alerts', subject: '' })).toBe('alerts');
    expect(TURN_KINDS.filter((kind) => !isUrgent({ ...turn, kind }))).toEqual(['locate', 'pull']);
  });

  it('cycles are whole multiples of the period, at or before now, whatever the offset', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 4_000_000_000_000 }),
        fc.constantFrom(1, 5, 20, 60),
        fc.nat(59),
        (nowMs, everyMin, offset) => {
          const startMs = cycleOf(nowMs, everyMin, offset % everyMin) * 1000;
          expect(startMs).toBeLessThanOrEqual(nowMs);
          expect(nowMs - startMs).toBeLessThan(everyMin * MINUTE_MS);
        },
      ),
    );
  });
});
