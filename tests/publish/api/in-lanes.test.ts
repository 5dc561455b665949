import { expect, it } from 'vitest';
import { inLanes } from '#publish/api/in-lanes.ts';

it('gives what was made of each in their order, whichever was done first, with no more than a few at work', async () => {
  let atWork = 0;
  let most = 0;
  const full = Promise.withResolvers<void>();
  const made = await inLanes([...Array(40).keys()], async (n) => {
    atWork += 1;
    most = Math.max(most, atWork);
    if (atWork === 8) full.resolve();
    await full.promise;
    for (let i = 0; i < (40 - n) % 7; i += 1) await Promise.resolve();
    atWork -= 1;
    return n * 2;
  });
  expect(made).toEqual([...Array(40).keys()].map((n) => n * 2));
  expect(most).toBe(8);
  expect(await inLanes([], () => Promise.reject(new Error('asked')))).toEqual([]);
});

it('lets others be answered while it works', async () => {
  let others = 0;
  let isOver = false;
  const other = (): void => {
    others += 1;
    if (!isOver) setImmediate(other);
  };
  setImmediate(other);
  await inLanes([...Array(10).keys()], async () => {
    // As long as a slice lasts, by the clock that it goes by.
    const untilMs = performance.now() + 25;
    while (performance.now() < untilMs);
  });
  isOver = true;
  expect(others).toBeGreaterThanOrEqual(2);
});

it('a fault ends it', async () => {
  const work = inLanes([1, 2, 3], (n) => (n === 2 ? Promise.reject(new Error('two')) : Promise.resolve(n)));
  await expect(work).rejects.toThrow('two');
});
