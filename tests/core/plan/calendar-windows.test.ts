// Windows of a calendar: the laws of RFC 5545 on names and counts (3.8.4.7, 3.8.7.4), over any run of plans.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CalendarWindow, type GoOfDay, stepCalendar } from '#core/plan/calendar-windows.ts';

const HOUR = 3_600_000;
const DAY = '2026-03-03';
const go = (from: number, to: number, date = DAY): GoOfDay => ({
  ...{ date, fromMs: from * HOUR, toMs: to * HOUR },
});
function uids() {
  let count = 0;
  return () => {
    count += 1;
    return `uid-${count}`;
  };
}
const told = (windows: readonly CalendarWindow[]) =>
  windows.map((w) => [w.uid, w.fromMs / HOUR, w.toMs / HOUR, w.sequence, w.cancelled ? 'CANCELLED' : 'go']);

function steps(...plans: readonly [number, readonly GoOfDay[]][]) {
  const newUid = uids();
  let windows: CalendarWindow[] = [];
  for (const [hour, gos] of plans) windows = stepCalendar('own/a', windows, gos, hour * HOUR, newUid);
  return windows;
}

describe('a window', () => {
  it('keeps its name and its count while it stays', () => {
    expect(told(steps([0, [go(8, 12)]], [1, [go(8, 12)]]))).toEqual([['uid-1', 8, 12, 0, 'go']]);
  });

  it('keeps its name and counts up when it moves', () => {
    expect(told(steps([0, [go(8, 12)]], [1, [go(9, 12)]], [2, [go(9, 13)]]))).toEqual([
      ['uid-1', 9, 13, 2, 'go'],
    ]);
  });

  it('that is none any more stays, taken back; come again it is the same', () => {
    expect(told(steps([0, [go(8, 12)]], [1, []]))).toEqual([['uid-1', 8, 12, 1, 'CANCELLED']]);
    expect(told(steps([0, [go(8, 12)]], [1, []], [2, []]))).toEqual([['uid-1', 8, 12, 1, 'CANCELLED']]);
    expect(told(steps([0, [go(8, 12)]], [1, []], [2, [go(10, 13)]]))).toEqual([['uid-1', 10, 13, 2, 'go']]);
  });

  it('that falls in two keeps its name for the longer part', () => {
    expect(told(steps([0, [go(8, 14)]], [1, [go(8, 9), go(10, 14)]]))).toEqual([
      ['uid-1', 10, 14, 1, 'go'],
      ['uid-2', 8, 9, 0, 'go'],
    ]);
  });

  it('that is over stays as it was told last, and one that is only now known of to be over is none', () => {
    expect(told(steps([0, [go(8, 12)]], [12, []]))).toEqual([['uid-1', 8, 12, 0, 'go']]);
    expect(told(steps([12, [go(8, 12)]]))).toEqual([]);
  });

  it('that has begun keeps its beginning, which no later plan judges', () => {
    expect(told(steps([0, [go(8, 12)]], [10, [go(9, 12)]]))).toEqual([['uid-1', 8, 12, 0, 'go']]);
    expect(told(steps([0, [go(8, 12)]], [10, [go(9, 13)]]))).toEqual([['uid-1', 8, 13, 1, 'go']]);
    expect(told(steps([0, [go(8, 12)]], [10, [go(11, 13)]]))).toEqual([['uid-1', 11, 13, 1, 'go']]);
  });
});

const plan = fc
  .array(fc.tuple(fc.constantFrom(DAY, '2026-03-04'), fc.nat(20), fc.integer({ min: 1, max: 6 })), {
    maxLength: 5,
  })
  .map((all) => {
    // As plans have them: apart from each other.
    const placed: GoOfDay[] = [];
    for (const [date, from, hours] of all) {
      const offset = date === DAY ? 0 : 24;
      const one = go(offset + from, Math.min(offset + from + hours, offset + 24), date);
      if (placed.every(({ fromMs, toMs }) => one.toMs < fromMs || toMs < one.fromMs)) placed.push(one);
    }
    return placed;
  });

it('over any run of plans: names never change owner, counts rise by one with each change and only then, nothing goes', () => {
  fc.assert(
    fc.property(fc.array(plan, { minLength: 1, maxLength: 8 }), fc.nat(12), (plans, everyHours) => {
      const newUid = uids();
      let before: CalendarWindow[] = [];
      plans.forEach((gos, i) => {
        const nowMs = i * everyHours * HOUR;
        const after = stepCalendar('own/a', before, gos, nowMs, newUid);
        const byUid = new Map(after.map((w) => [w.uid, w]));
        expect(byUid.size).toBe(after.length);
        expect(new Set(after.map((w) => `${w.date} ${w.number}`)).size).toBe(after.length);
        for (const was of before) {
          const is = byUid.get(was.uid);
          expect([is?.date, is?.number]).toEqual([was.date, was.number]);
          if (is === was) continue;
          expect(is?.sequence).toBe(was.sequence + 1);
          expect(is?.changedAtMs).toBe(nowMs);
          const { sequence: _, changedAtMs: __, ...content } = was;
          expect(is).not.toMatchObject(content);
        }
        // A go stands there if and only if the plan has it.
        const standing = after.filter((w) => !w.cancelled && w.toMs > nowMs);
        const ahead = gos.filter(({ toMs }) => toMs > nowMs);
        expect(standing.map(({ toMs }) => toMs).sort()).toEqual(ahead.map(({ toMs }) => toMs).sort());
        expect(stepCalendar('own/a', after, gos, nowMs, newUid)).toEqual(after);
        before = after;
      });
    }),
  );
});
