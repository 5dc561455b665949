import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayMarks } from '#publish/page/chart/day-marks.ts';
import { breadthOf, NARROWEST, type Placed, placeWords, type Wish } from '#publish/page/chart/place-words.ts';
import { timeScale } from '#publish/page/chart/time-scale.ts';

const wish = fc.record({
  x: fc.double({ min: 0, max: 100, noNaN: true }),
  breadth: fc.integer({ min: 4, max: 90 }),
  weight: fc.integer({ min: 0, max: 3 }),
});

/** From and to of a placed word on the narrowest screen [px]. */
function boxOf({ wish: { breadth }, x, anchor }: Placed<Wish>): [number, number] {
  const at = (x / 100) * NARROWEST;
  const from = { start: at, middle: at - breadth / 2, end: at - breadth }[anchor];
  return [from, from + breadth];
}

describe('words along the axis', () => {
  it('never meet, nor leave the drawing', () => {
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 30 }), (wishes) => {
        const boxes = placeWords(wishes, 6).map(boxOf);
        for (const [i, [from, to]] of boxes.entries()) {
          expect(from).toBeGreaterThanOrEqual(-0.01);
          expect(to).toBeLessThanOrEqual(NARROWEST + 0.01);
          if (i > 0) expect(from).toBeGreaterThanOrEqual((boxes[i - 1]?.[1] ?? 0) + 5.99);
        }
      }),
    );
  });

  it('give way to those that weigh more, and only where they would meet', () => {
    const placed = placeWords(
      [
        { x: 50, breadth: 20, weight: 1 },
        { x: 52, breadth: 20, weight: 2 },
        { x: 80, breadth: 20, weight: 0 },
      ],
      6,
    );
    expect(placed.map(({ wish: { x } }) => x)).toEqual([52, 80]);
  });
});

describe('the marks of a burn', () => {
  const scale = timeScale({ fromMs: 0, toMs: 1000 });
  const mark = (ms: number, label = 'last charge') => ({ ms, label, moment: '1:30 pm', clock: '1:30 pm' });

  it('have a row each, and words within the drawing wherever they stand', () => {
    const place = fc.integer({ min: 0, max: 1000 });
    fc.assert(
      fc.property(place, place, place, (a, b, c) => {
        const marks = dayMarks(
          [a, b, c].sort((x, y) => x - y).map((ms) => mark(ms)),
          scale,
        );
        expect(new Set(marks.map(({ row }) => row)).size).toBe(3);
        for (const { wordsX, anchor, label, clock } of marks) {
          const breadth = breadthOf(`${label} `) + breadthOf(clock, true);
          const at =
            (wordsX / 100) * NARROWEST + { start: 5, middle: -breadth / 2, end: -5 - breadth }[anchor];
          expect(at).toBeGreaterThanOrEqual(-0.01);
          expect(at + breadth).toBeLessThanOrEqual(NARROWEST + 0.01);
        }
      }),
    );
  });

  it('keep their lines at their moments, and leave the date away where it has no room', () => {
    const dated = { ...mark(520), moment: 'Thu, Nov 26, 1:30 pm' };
    const [first] = dayMarks([dated], scale);
    expect([first?.x, first?.clock]).toEqual([52, '1:30 pm']);
    const [early] = dayMarks([{ ...dated, ms: 10 }], scale);
    expect(early?.clock).toBe('Thu, Nov 26, 1:30 pm');
  });
});
