import { describe, expect, it } from 'vitest';
import { stepsOf, valueAt, withValue } from '#publish/page/settings/body-path.ts';

const LIMITS = [
  { element: 'windSpeed', atLeast: { hold: '3 mph' }, source: 'a' },
  { clock: { outBy: '17:00' }, source: 'b' },
];

describe('a place within a body', () => {
  it.each([
    ['[0].atMost.hold', [0, 'atMost', 'hold']],
    ['ways[1].to', ['ways', 1, 'to']],
    ['name', ['name']],
    ['', []],
  ])('"%s" is %j', (path, steps) => {
    expect(stepsOf(path)).toEqual(steps);
  });

  it('gives what stands there, and nothing that is not its own', () => {
    expect(valueAt(LIMITS, '[1].clock.outBy')).toBe('17:00');
    for (const path of ['[2].element', '[0].atMost.hold', '[0].element.length', '[0].toString', '__proto__'])
      expect([path, valueAt(LIMITS, path)]).toEqual([path, undefined]);
  });

  it('is set in its place, and everything else stays the very same', () => {
    const made = withValue(LIMITS, '[0].atLeast.hold', '4 mph') as typeof LIMITS;
    expect(JSON.stringify(made)).toBe(JSON.stringify(LIMITS).replace('3 mph', '4 mph'));
    expect(made[1]).toBe(LIMITS[1]);
    expect(LIMITS[0]?.atLeast?.hold).toBe('3 mph');
    expect(withValue(LIMITS, '[0].atMost.stop', '9 mph')).toEqual([
      { ...LIMITS[0], atMost: { stop: '9 mph' } },
      LIMITS[1],
    ]);
  });

  it('that is emptied takes what is then empty around it along, but no row', () => {
    expect(withValue(LIMITS, '[0].atLeast.hold', undefined)).toEqual([
      { element: 'windSpeed', source: 'a' },
      LIMITS[1],
    ]);
    expect(withValue([{ name: 'x' }], '[0].name', undefined)).toEqual([{}]);
    expect(withValue(LIMITS, '[0]', undefined)).toEqual([LIMITS[1]]);
  });

  it('is not set within a word, nor in what all objects share', () => {
    expect(withValue({ daylight: 'none' }, 'daylight.outBeforeSunset', '1 h')).toEqual({ daylight: 'none' });
    withValue({}, '__proto__.polluted', 'yes');
    withValue({}, 'constructor.prototype.polluted', 'yes');
    expect(({} as { polluted?: string }).polluted).toBeUndefined();
  });
});
