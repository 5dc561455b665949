import { describe, expect, it } from 'vitest';
import { limitList } from '#config/limits.ts';

const read = (more: object) => limitList.safeParse([{ element: 'windSpeed', source: 'permit', ...more }]);
const faultsOf = (more: object) => read(more).error?.issues.map(({ path }) => path.slice(1).join('.')) ?? [];
const MOST = { atMost: { hold: '12 mph' } };
const LEAST = { atLeast: { hold: '3 mph' } };

describe('the height and averaging of a limit on wind', () => {
  it('are read, each by itself, and are what a forecast is of where nothing is said', () => {
    const of = (more: object) => read({ ...MOST, ...more }).data?.elements[0]?.measured;
    expect(of({})).toBeUndefined();
    expect(of({ height: '20 ft', averaging: '10 min' })).toEqual({
      heightM: expect.closeTo(6.096, 9),
      averagingS: 600,
    });
    expect(of({ height: '2 m' })).toEqual({ heightM: 2, averagingS: 120 });
    expect(of({ averaging: '10 min' })).toEqual({ heightM: 10, averagingS: 600 });
  });

  it.each([
    [{ ...MOST, height: '20 m' }, 'height'],
    [{ ...LEAST, height: '2 m' }, 'height'],
    [{ ...MOST, averaging: '3 s' }, 'averaging'],
    [{ ...LEAST, averaging: '10 min' }, 'averaging'],
    [{ ...MOST, height: '0.1 m' }, 'height'],
    [{ ...MOST, element: 'windGust', averaging: '3 s' }, 'averaging'],
    [{ element: 'relativeHumidity', atLeast: { hold: '30 %' }, height: '2 m' }, 'height'],
  ])('%j would be judged too laxly by the forecast, or means nothing: a fault of %s', (more, key) => {
    expect(faultsOf(more)).toEqual([key]);
  });

  it('of a stricter reading are taken', () => {
    for (const more of [
      { ...LEAST, height: '20 m' },
      { ...LEAST, averaging: '1 min' },
      { ...MOST, height: '2 m' },
    ])
      expect(faultsOf(more)).toEqual([]);
  });
});
