import { describe, expect, it } from 'vitest';
import { MINUTE_MS } from '#core/units/time.ts';
import { inOrderOfTime, latch, type Reading, type Side } from '#core/watch/latch.ts';
import { clock } from '../../builders/watch.ts';

/** Readings by clock time, each fresh for 20 minutes; judged at 13:00, cleared after 15. */
const at = (sides: Readonly<Record<string, Side>>, now = '13:00', wasAsOf: string | null = null) => {
  const readings: Reading[] = Object.entries(sides).map(([when, side]) => ({
    atMs: clock(when),
    freshUntilMs: clock(when) + 20 * MINUTE_MS,
    side,
    station: 'mast',
  }));
  const { truth, raised } = latch(
    readings,
    clock(now),
    15 * MINUTE_MS,
    wasAsOf === null ? null : { asOfMs: clock(wasAsOf) },
  );
  return raised ? `${truth} raised` : truth;
};

describe('what is read over time', () => {
  it.each<readonly [string, Readonly<Record<string, Side>>, string]>([
    ['nothing', {}, 'unknown'],
    ['clear', { '12:55': 'clear' }, 'false'],
    ['near, never beyond', { '12:55': 'near' }, 'false'],
    ['clear, but stale', { '12:39': 'clear' }, 'unknown'],
    ['unsure', { '12:50': 'clear', '12:55': 'unsure' }, 'unknown'],
    ['beyond', { '12:55': 'beyond' }, 'true raised'],
    ['beyond after clear: at once', { '12:50': 'clear', '13:00': 'beyond' }, 'true raised'],
    ['beyond, then silence', { '12:39': 'beyond' }, 'unknown raised'],
    ['beyond, then near', { '12:00': 'beyond', '12:55': 'near' }, 'true raised'],
    ['beyond, then clear for 15 minutes to now', { '12:00': 'beyond', '12:45': 'clear' }, 'false'],
    ['beyond, then clear for less', { '12:00': 'beyond', '12:46': 'clear', '12:55': 'clear' }, 'true raised'],
    [
      'near between breaks the clear time',
      { '12:00': 'beyond', '12:40': 'clear', '12:50': 'near', '12:55': 'clear' },
      'true raised',
    ],
    [
      'unsure between breaks it too',
      { '12:00': 'beyond', '12:40': 'clear', '12:50': 'unsure', '12:55': 'clear' },
      'true raised',
    ],
    ['unsure at last, after beyond', { '12:00': 'beyond', '12:55': 'unsure' }, 'unknown raised'],
    [
      'clear long enough, but stale',
      { '12:00': 'beyond', '12:20': 'clear', '12:35': 'clear' },
      'unknown raised',
    ],
    [
      'a silence between breaks it too',
      { '12:00': 'beyond', '12:20': 'clear', '12:25': 'clear', '12:50': 'clear' },
      'true raised',
    ],
    ['over, and beyond once more', { '12:00': 'beyond', '12:20': 'clear', '12:59': 'beyond' }, 'true raised'],
  ])('%s', (_, sides, expected) => {
    expect(at(sides)).toBe(expected);
  });

  it.each<readonly [string, Readonly<Record<string, Side>>, string]>([
    ['and nothing is left', {}, 'unknown raised'],
    ['and what is left is older', { '12:45': 'clear' }, 'true raised'],
    ['and what is left is older and stale', { '12:30': 'clear' }, 'unknown raised'],
    ['and what came since is near', { '12:55': 'near' }, 'true raised'],
    ['and it has been clear since, for less than its time', { '12:52': 'clear' }, 'true raised'],
    ['and what came since is unsure', { '12:55': 'unsure' }, 'unknown raised'],
  ])('raised as of 12:50 before, %s', (_, sides, expected) => {
    expect(at(sides, '13:00', '12:50')).toBe(expected);
  });

  it('raised before, is over by what is newer and has been clear for its time', () => {
    expect(at({ '12:30': 'clear', '12:51': 'clear' }, '13:06', '12:50')).toBe('false');
    expect(at({ '12:30': 'clear', '12:51': 'clear' }, '13:05', '12:50')).toBe('true raised');
  });

  it('is fresh at the very end, and a moment later no more', () => {
    expect(at({ '12:40': 'clear' })).toBe('false');
    expect(at({ '12:40': 'clear' }, '13:01')).toBe('unknown');
  });

  it('of one moment the gravest counts', () => {
    const both = (['beyond', 'clear', 'near'] as const).map((side) => ({
      atMs: 1,
      freshUntilMs: 9,
      side,
      station: 'mast',
    }));
    expect(inOrderOfTime(both).map((r) => r.side)).toEqual(['clear', 'near', 'beyond']);
  });

  it('±1 around a bound for three hours turns it once (a flapping value)', () => {
    let turns = 0;
    let was = 'false';
    const readings: Reading[] = [];
    for (let minute = 0; minute <= 180; minute += 1) {
      const atMs = clock('10:00') + minute * MINUTE_MS;
      readings.push({
        atMs,
        freshUntilMs: atMs + 10 * MINUTE_MS,
        side: minute % 2 ? 'beyond' : 'near',
        station: 'mast',
      });
      const { truth } = latch(readings, atMs, 15 * MINUTE_MS, null);
      if (truth !== was) turns += 1;
      was = truth;
    }
    expect(turns).toBe(1);
  });
});
