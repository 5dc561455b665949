import { describe, expect, it } from 'vitest';
import { type Dimension, differenceInUnit, inUnit, parseQuantity, unitsOf } from '#core/units/quantity.ts';

const value = (text: string | number, dimension: Dimension): number => {
  const parsed = parseQuantity(text, dimension);
  if ('fault' in parsed) throw new Error(parsed.fault);
  return parsed.value;
};

// Exact definitions: NIST Special Publication 811 (2008), appendix B; from memory, confirmed by docs/sources.md J.1.
describe('quantities become core units by their exact definitions', () => {
  it.each<[string, Dimension, number]>([
    ['1 mph', 'speed', 0.44704],
    ['1 kt', 'speed', 1852 / 3600],
    ['36 km/h', 'speed', 10],
    ['7.5 m/s', 'speed', 7.5],
    ['300 ft', 'length', 91.44], // J.1 row 15
    ['1000 ft', 'length', 304.8], // J.1 row 15
    ['1 mi', 'length', 1609.344],
    ['2 km', 'length', 2000],
    ['1 yd', 'length', 0.9144],
    ['0.10 in', 'precipitation', 2.54],
    ['3 mm', 'precipitation', 3],
    ['30 %', 'percent', 30],
    ['45 deg', 'angle', 45],
    ['45 °', 'angle', 45],
    ['1 kt-ft', 'ventilation', 0.1568025], // J.1 row 1
    ['1 mph-ft', 'ventilation', 0.1362578], // J.1 row 2
    ['30000 kt-ft', 'ventilation', 4704.08], // J.1 row 6
    ['60000 kt-ft', 'ventilation', 9408.15], // J.1 row 7
    ['37500 kt-ft', 'ventilation', 5880.1], // J.1 row 8
    ['2400 m²/s', 'ventilation', 2400],
    ['2400 m2/s', 'ventilation', 2400],
    ['12 hPa', 'pressure', 12],
    ['1.5 h', 'duration', 90],
    ['45 min', 'duration', 45],
  ])('%s as %s', (text, dimension, expected) => {
    expect(Math.abs(value(text, dimension) - expected)).toBeLessThanOrEqual(
      Math.max(1e-6, expected * 1.2e-6),
    );
  });

  // Fixed points of the two scales, by definition.
  it.each<[string, number]>([
    ['32 °F', 0],
    ['212 °F', 100],
    ['-40 degF', -40],
    ['20 °C', 20],
    ['-5 degC', -5],
  ])('%s as temperature', (text, expected) => {
    expect(value(text, 'temperature')).toBeCloseTo(expected, 10);
  });

  // J.1 row 3 prints 1.1507784, a slip of the pen: the two definitions give 1852 / 1609.344 = 1.15077945.
  it('one knot is 1852 m against 1609.344 m of a mile; the Texas wind bounds are 5.2139 and 19.9865 kt (J.1 row 14)', () => {
    expect(inUnit(value('1 kt', 'speed'), 'mph')).toBeCloseTo(1852 / 1609.344, 9);
    expect(inUnit(value('6 mph', 'speed'), 'kt')).toBeCloseTo(5.2139, 3);
    expect(inUnit(value('23 mph', 'speed'), 'kt')).toBeCloseTo(19.9865, 3);
  });

  it('2,400 m²/s is 15,305.9 kt-ft (J.1 row 9)', () => {
    expect(Math.abs(inUnit(2400, 'kt-ft') - 15_305.9)).toBeLessThan(1);
  });
});

describe('what is no quantity is refused, never guessed', () => {
  it.each<[string | number, Dimension]>([
    ['', 'speed'],
    ['15', 'speed'],
    [15, 'speed'],
    ['mph', 'speed'],
    ['15 kph', 'speed'],
    ['15 MPH', 'speed'],
    ['15 ft', 'speed'],
    ['15 mph mph', 'speed'],
    ['1 5 mph', 'speed'],
    ['15 to 20 mph', 'speed'],
    ['1,700 ft', 'length'],
    ['1,5 mi', 'length'],
    ['1e3 m', 'length'],
    ['.5 mi', 'length'],
    ['5. mi', 'length'],
    ['0x10 m', 'length'],
    ['NaN m', 'length'],
    ['Infinity m', 'length'],
    ['30 percent', 'percent'],
    ['30', 'percent'],
    ['20 in', 'length'],
    ['20 F', 'temperature'],
    ['1 hour', 'duration'],
    ['8 deg', 'plain'],
    ['8 toString', 'plain'],
    ['1 constructor', 'speed'],
    [Number.NaN, 'plain'],
    [Number.POSITIVE_INFINITY, 'plain'],
  ])('%s is no %s', (text, dimension) => {
    const parsed = parseQuantity(text, dimension);
    expect(parsed).toHaveProperty('fault');
    expect('fault' in parsed && parsed.fault).toContain(`found "${text}"`);
  });

  it('a plain index may be a bare number, with or without a sign', () => {
    expect([value(8, 'plain'), value('8', 'plain'), value(' +8.5 ', 'plain'), value(-1, 'plain')]).toEqual([
      8, 8, 8.5, -1,
    ]);
  });

  it('a plain index has no unit, not even the name of the plain unit itself', () => {
    expect(parseQuantity('8 1', 'plain')).toHaveProperty('fault');
  });

  it('a number too long for the machine is refused: an infinite bound would never hold', () => {
    expect(parseQuantity(`${'9'.repeat(400)} mph`, 'speed')).toHaveProperty('fault');
  });

  it('the sentence names every unit that would have fitted', () => {
    const parsed = parseQuantity('15 kph', 'speed');
    expect('fault' in parsed && parsed.fault).toBe(
      `expected a number with one of the units ${unitsOf('speed').join(', ')}, found "15 kph"`,
    );
  });
});

describe('turning back', () => {
  it('gives what was written, for every unit of every dimension', () => {
    const dimensions: Dimension[] = [
      'speed',
      'length',
      'precipitation',
      'temperature',
      'percent',
      'angle',
      'ventilation',
      'pressure',
      'duration',
    ];
    for (const dimension of dimensions) {
      expect(unitsOf(dimension).length).toBeGreaterThan(0);
      for (const unit of unitsOf(dimension))
        expect(inUnit(value(`17.25 ${unit}`, dimension), unit)).toBeCloseTo(17.25, 9);
    }
  });

  it('a difference of temperatures knows no zero point: 10 °C are 18 °F', () => {
    expect(differenceInUnit(10, '°F')).toBeCloseTo(18, 12);
    expect(differenceInUnit(10, '°C')).toBe(10);
  });

  it('throws on a unit that the table lacks', () => {
    expect(() => inUnit(1, 'furlong')).toThrow(RangeError);
    expect(() => differenceInUnit(1, 'furlong')).toThrow(RangeError);
  });
});
