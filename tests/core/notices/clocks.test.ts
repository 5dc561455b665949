// Clocks that are set back or leap: nothing is lost, nothing is told twice, nothing waits for the clock to catch up.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { gust, shift, watched } from '../../builders/notices.ts';

it('set back by hours, what is pending is told after its own time and not hours later', () => {
  const w = watched();
  for (const minute of [0, 1, 2]) w.step(minute, [shift('true')]);
  // Set back by two hours: two of its five minutes have passed.
  for (const minute of [-118, -117]) w.step(minute, [shift('true')]);
  expect(w.said).toEqual([]);
  w.step(-115, [shift('true')]);
  expect(w.said).toEqual(['-115 raised hold wind-shifted']);
});

it('set back by hours, what is getting better takes its own time and no more', () => {
  const w = watched();
  w.step(0, [gust('true')]);
  for (const minute of [1, 2, 3, 4, 5]) w.step(minute, [gust('false')]);
  for (let minute = -115; minute < -109; minute += 1) w.step(minute, [gust('false')]);
  expect(w.said).toHaveLength(1);
  w.step(-109, [gust('false')]);
  expect(w.said.at(-1)).toBe('-109 over go observed-beyond-limit');
});

it('set on by hours, nothing is over because of that: of what nobody saw five minutes count', () => {
  const w = watched();
  w.step(0, [gust('true')]);
  w.step(1, [gust('false')]);
  w.step(241, [gust('false')]);
  expect(w.said).toHaveLength(1);
  for (const minute of [242, 243, 244, 245]) w.step(minute, [gust('false')]);
  expect(w.said).toHaveLength(1);
  w.step(246, [gust('false')]);
  expect(w.said.at(-1)).toBe('246 over go observed-beyond-limit');
});

it('an unsteadiness is not over because the clock leapt, nor lasts for hours because it was set back', () => {
  const unsteady = () => {
    const w = watched();
    for (const minute of [0, 5, 10, 15]) w.step(minute, [gust(minute % 10 === 0 ? 'true' : 'false')]);
    expect(w.said.at(-1)).toBe('15 unsteady hold observed-beyond-limit');
    return w;
  };
  const leapt = unsteady();
  for (let minute = 315; minute < 340; minute += 1) leapt.step(minute, [gust('false')]);
  expect(leapt.said).toHaveLength(2);
  leapt.step(340, [gust('false')]);
  expect(leapt.said.at(-1)).toBe('340 over go observed-beyond-limit');
  const back = unsteady();
  for (let minute = -300; minute < -260; minute += 1) back.step(minute, [gust('false')]);
  expect(back.said.at(-1)).toBe('-270 over go observed-beyond-limit');
});

it('set back by hours, what was over long ago has not come back soon', () => {
  const w = watched();
  w.step(0, [shift('true', 'hold', { holdsForMs: 0 })]);
  for (let minute = 1; minute <= 11; minute += 1) w.step(minute, [shift('false')]);
  // Two hours later it is true again, and before that can be told the clock is set back.
  for (const minute of [130, 131, -60, -58, -56]) w.step(minute, [shift('true')]);
  expect(w.said.at(-1)).toBe('-56 raised hold wind-shifted');
});

it('an episode that begins at the same moment as one before it, or earlier, has another name', () => {
  const w = watched();
  w.step(0, [gust('true')]);
  w.step(1, []);
  w.step(0, [gust('true')]);
  w.step(0.5, []);
  w.step(-500, [gust('true')]);
  const episodes = w.told.filter((t) => t.number === 1).map((t) => t.episode);
  expect(new Set(episodes).size).toBe(3);
});

it('whatever the clock does, a thing that is true is told once, and one that is false long enough is over once', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -200, max: 200 }), { maxLength: 12 }), (leaps) => {
      const w = watched();
      let minute = 0;
      const judged = (truth: 'true' | 'false', count: number): void => {
        for (let i = 0; i < count; i += 1) {
          minute += 1;
          w.step(minute, [gust(truth)]);
        }
      };
      for (const leap of leaps) {
        judged('true', 2);
        minute += leap;
      }
      judged('true', 1);
      expect(w.told.map((t) => t.kind)).toEqual(['raised']);
      judged('false', 11);
      expect(w.told.map((t) => t.kind)).toEqual(['raised', 'over']);
    }),
  );
});
