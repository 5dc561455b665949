import { describe, expect, it } from 'vitest';
import { type RememberedAlert, rememberAlerts } from '#sources/nws/alert-memory.ts';
import { readAlerts } from '#sources/nws/alerts.ts';
import { alert, answerTo, hourMs, vtec, ZONES } from './alert-fixture.ts';

const list = (...features: unknown[]) => readAlerts([answerTo('point', features)], ZONES);
const warning = alert({ id: 'A', vtec: [vtec('NEW')] });

/** What stands after answers at these minutes past 18Z, each with the warning or without. */
function standingAfter(
  ...answers: readonly (readonly [minute: number, reading: ReturnType<typeof list>, complete?: boolean])[]
): string[] {
  let known: RememberedAlert[] = [];
  for (const [minute, reading, complete = true] of answers) {
    known = rememberAlerts(known, reading, { complete, nowMs: hourMs(18) + minute * 60_000 });
  }
  return known.map((item) => item.alert.id);
}

describe('an alert that is gone from the list', () => {
  it('for one answer still stands, and is back with the next (api#75)', () => {
    expect(standingAfter([0, list(warning)], [1, list()])).toEqual(['A']);
    expect(
      standingAfter([0, list(warning)], [1, list()], [2, list(warning)], [3, list()], [5.9, list()]),
    ).toEqual(['A']);
  });

  it('and that has no end of its own is over after two answers that lie 3 min apart', () => {
    const open = list(alert({ id: 'A', ends: null, expires: null }));
    expect(standingAfter([0, open], [1, list()], [3.9, list()])).toEqual(['A']);
    expect(standingAfter([0, open], [1, list()], [4, list()])).toEqual([]);
    expect(standingAfter([0, open], [1, list()], [2, list()], [3, list()], [4, list()])).toEqual([]);
  });

  it('and that is to last by its own word stands for an hour, unless a message ends it', () => {
    expect(standingAfter([0, list(warning)], [1, list()], [20, list()], [60.9, list()])).toEqual(['A']);
    expect(standingAfter([0, list(warning)], [1, list()], [61, list()])).toEqual([]);
  });

  it('is over at once with a cancellation or an update in its place', () => {
    const cancel = alert({ id: 'C', messageType: 'Cancel', replaces: ['A'], vtec: [vtec('CAN')] });
    expect(standingAfter([0, list(warning)], [1, list(cancel)])).toEqual([]);
    const update = alert({ id: 'B', replaces: ['A'], vtec: [vtec('CON')] });
    expect(standingAfter([0, list(warning)], [1, list(update)])).toEqual(['B']);
  });

  it('is over when its own end has passed', () => {
    expect(standingAfter([0, list(warning)], [8 * 60 - 1, list()])).toEqual(['A']);
    expect(standingAfter([0, list(warning)], [8 * 60, list()])).toEqual([]);
  });

  it('is not missed by an answer that is incomplete', () => {
    expect(standingAfter([0, list(warning)], [1, list(), false], [10, list(), false], [20, list()])).toEqual([
      'A',
    ]);
  });
});

describe('an alert that is listed past its own end', () => {
  // In a national list recorded in May 2026, 45 of 246 alerts were past `expires` and stood all the same.
  it('stands for an hour from the next full hour on, seen anew with every answer', () => {
    const endsAt20 = list(alert({ id: 'A', ends: null, expires: '2026-03-02T20:00:00+00:00' }));
    const at = (minute: number) =>
      rememberAlerts([], endsAt20, { complete: true, nowMs: hourMs(20) + minute * 60_000 })[0]?.alert.toMs;
    expect(at(-1)).toBe(hourMs(20));
    expect(at(1)).toBe(hourMs(22));
    expect(at(61)).toBe(hourMs(23));
  });
});
