import { expect, it } from 'vitest';
import { createSlowFigure } from '#service/slow-figure.ts';

it('a slow figure is told as it was last found, found again in time, and not told where it cannot be found', async () => {
  let nowMs = 0;
  let asked = 0;
  const find = async (): Promise<number> => {
    asked += 1;
    if (asked === 2) throw new Error('gone');
    return asked;
  };
  const figure = createSlowFigure({ find, everyMs: 100, steadyMs: () => nowMs });
  const settled = () => new Promise((resolve) => setImmediate(resolve));
  const told: (number | null)[] = [];
  for (const ms of [0, 50, 99, 100, 150, 200, 250]) {
    nowMs = ms;
    told.push(figure());
    await settled();
  }
  expect(told).toEqual([null, 1, 1, 1, null, null, 3]);
  expect(asked).toBe(3);
});
