// What comes and goes: told as unsteady once, then held until it has been quiet. Of texts that come again and again
// people stop reading any. The figures (4 turns in an hour, half an hour quiet) are ours: no source.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gust, shift, watched } from '../../builders/notices.ts';

/** Judges a gust every `everyMin` for three hours; `isOver` says whether it is beyond the limit then. */
function threeHours(everyMin: number, isOver: (minute: number) => boolean, clearsForMin = 15) {
  const w = watched();
  for (let minute = 0; minute <= 180; minute += everyMin) {
    w.step(minute, [gust(isOver(minute) ? 'true' : 'false', 'hold', { clearsForMs: clearsForMin * 60_000 })]);
  }
  return w;
}

describe('one around a limit for three hours gives at most two texts', () => {
  it.each([1, 2, 5, 10, 15])('where the value turns every %i minutes', (turnMin) => {
    const w = threeHours(1, (minute) => Math.floor(minute / turnMin) % 2 === 0);
    expect(w.said).toHaveLength(2);
    expect(w.said[0]).toBe('0 raised hold observed-beyond-limit');
    expect(w.said[1]).toBe(`${turnMin * 3} unsteady hold observed-beyond-limit`);
  });

  it('where it turns every 20 minutes too, with a clear time of 20', () => {
    const w = threeHours(1, (minute) => Math.floor(minute / 20) % 2 === 0, 20);
    expect(w.said.length).toBeLessThanOrEqual(2);
  });

  it('in any order of values, where none stays away for as long as the clear time', () => {
    fc.assert(
      fc.property(
        fc.array(fc.boolean(), { minLength: 37, maxLength: 37 }),
        // Every third value is beyond: at 5 minutes no calm lasts 15.
        (values) => {
          const w = threeHours(5, (minute) => minute % 15 === 0 || values[minute / 5] === true);
          expect(w.said.length).toBeLessThanOrEqual(2);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('in any order of values at all at most six, and never more than four in an hour', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 91, maxLength: 91 }), (values) => {
        const w = threeHours(2, (minute) => values[minute / 2] === true, 10);
        expect(w.said.length).toBeLessThanOrEqual(6);
        const minutes = w.said.map((line) => Number(line.split(' ')[0]));
        for (const from of minutes) {
          expect(minutes.filter((m) => m >= from && m < from + 60).length).toBeLessThanOrEqual(4);
        }
      }),
      { numRuns: 100 },
    );
  });

  it('and one gust every half hour gives three: told, over, and then unsteady for good', () => {
    const w = threeHours(1, (minute) => minute % 32 === 0, 10);
    expect(w.said).toEqual([
      '0 raised hold observed-beyond-limit',
      '11 over go observed-beyond-limit',
      '32 unsteady hold observed-beyond-limit',
    ]);
  });
});

it('is held until it has been quiet for half an hour, and then is over once', () => {
  const w = watched();
  const seen = (minute: number) => (minute <= 12 ? Math.floor(minute / 4) % 2 === 0 : false);
  for (let minute = 0; minute <= 60; minute += 1) w.step(minute, [gust(seen(minute) ? 'true' : 'false')]);
  expect(w.said).toEqual([
    '0 raised hold observed-beyond-limit',
    // It last turned at minute 12, the fourth time.
    '12 unsteady hold observed-beyond-limit',
    '42 over go observed-beyond-limit',
  ]);
});

it('unknown is not quiet', () => {
  const w = watched();
  for (let minute = 0; minute <= 15; minute += 5)
    w.step(minute, [gust(minute % 10 === 0 ? 'true' : 'false')]);
  expect(w.said.at(-1)).toBe('15 unsteady hold observed-beyond-limit');
  for (let minute = 16; minute <= 60; minute += 1) w.step(minute, [gust('unknown')]);
  for (let minute = 61; minute <= 89; minute += 1) w.step(minute, [gust('false')]);
  expect(w.said.filter((line) => line.includes('over'))).toEqual([]);
  for (let minute = 90; minute <= 95; minute += 1) w.step(minute, [gust('false')]);
  expect(w.said.at(-1)).toBe('90 over go observed-beyond-limit');
});

it('is told as a hold where it never lasts long enough to be told by itself', () => {
  const w = watched();
  for (let minute = 0; minute < 60; minute += 1) {
    const truth = Math.floor(minute / 3) % 2 === 0 ? 'true' : 'false';
    w.step(minute, [shift(truth, 'stop')]);
  }
  expect(w.said).toEqual(['9 unsteady hold wind-shifted']);
});

it('around a stop stays a stop, and a hold that comes and goes still becomes one at once', () => {
  const w = watched();
  for (let minute = 0; minute < 40; minute += 1) {
    w.step(minute, [gust('true', Math.floor(minute / 5) % 2 === 0 ? 'stop' : 'hold')]);
  }
  expect(w.said).toEqual(['0 raised stop observed-beyond-limit', '15 unsteady stop observed-beyond-limit']);
  const rising = watched();
  for (let minute = 0; minute < 30; minute += 1)
    rising.step(minute, [gust(minute % 2 === 0 ? 'true' : 'false')]);
  rising.step(30, [gust('true', 'stop')]);
  expect(rising.said.at(-1)).toBe('30 worse stop observed-beyond-limit');
});

it('a stop that comes back soon after it was over is told as what it is, and then kept for longer', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  for (let minute = 1; minute <= 11; minute += 1) w.step(minute, [gust('false', 'stop')]);
  w.step(20, [gust('true', 'stop')]);
  for (let minute = 21; minute <= 140; minute += 1) w.step(minute, [gust('false', 'stop')]);
  expect(w.said).toEqual([
    '0 raised stop observed-beyond-limit',
    '11 over go observed-beyond-limit',
    '20 raised stop observed-beyond-limit',
    '81 over go observed-beyond-limit',
  ]);
});

it('news that comes and goes is no unsteadiness, and never becomes a hold', () => {
  const w = watched();
  for (let minute = 0; minute < 60; minute += 1) {
    w.step(minute, [gust(Math.floor(minute / 4) % 2 === 0 ? 'true' : 'false', 'go')]);
  }
  expect(w.said).toEqual(['0 raised go observed-beyond-limit']);
});
