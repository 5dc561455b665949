import { describe, expect, it } from 'vitest';
import type { Observation } from '#core/watch/observation.ts';
import { DEFAULT_WATCH } from '#core/watch/watch-settings.ts';
import { windShift } from '#core/watch/wind-shift.ts';
import { AIRPORT, clock, every, ON_SITE, seen } from '../../builders/watch.ts';
import { OPEN_BURN, type WatchText, watchContextOf } from '../../builders/watch-input.ts';

const KNOT = 1852 / 3600;
const shift = (observations: readonly Observation[], text: WatchText = {}) =>
  windShift(watchContextOf({ observations, ...text }));
const truthOf = (...given: Parameters<typeof shift>) => shift(...given).truth;
const byHandbook: WatchText = { settings: { shift: { ...DEFAULT_WATCH.shift, definition: 'fmh-1' } } };
const knots = (from: number, kt: number) => `${from} ${kt * KNOT}`;

/** From 180 until `at`, from there on another wind; one observation every `everyMin` until 13:00. */
const turning = (at: string, to: string, { everyMin = 5, before = '180 5', from = '11:00' } = {}) => [
  ...every(everyMin, from, '13:00', before).filter((o) => o.observedAtMs < clock(at)),
  ...every(everyMin, at, '13:00', to),
];

describe('a turn of the wind by our definition', () => {
  // NWCG glossary, wind shift: 45° or more; 15 min, 5 kt and the means are ours.
  it.each([
    ['of 45 is one', '225 5', 'true'],
    ['of 44.9 is none', '224.9 5', 'false'],
    ['of 45 the other way is one', '135 5', 'true'],
    ['to the opposite is one', '360 5', 'true'],
    ['over north', '90 5', 'true'],
    ['at 5 kt is one', knots(270, 5), 'true'],
    ['below 5 kt is none', knots(270, 4.9), 'false'],
  ])('%s', (_, to, truth) => {
    expect(truthOf(turning('12:50', to))).toBe(truth);
  });

  it('tells what it was, what it is, since when, by which definition and whose observation', () => {
    expect(shift(turning('12:50', '270 5'))).toMatchObject({
      truth: 'true',
      verdict: 'hold',
      basis: 'observed',
      asOfMs: clock('13:00'),
      figures: {
        wasFromDeg: expect.closeTo(180, 6),
        windFromDeg: expect.closeTo(270, 6),
        windSpeedMps: 5,
        atMs: clock('12:50'),
        betweenMs: null,
        station: 'mast',
        what: 'ours',
      },
    });
  });

  it('is uncertain while it has not lasted, and none where it came back', () => {
    expect(truthOf(turning('13:00', '270 5'))).toBe('unknown');
    const once = turning('12:55', '270 5').map((o) =>
      o.observedAtMs === clock('13:00') ? seen('13:00', '180 5') : o,
    );
    expect(truthOf(once)).toBe('false');
  });

  it('has lasted at once where the observation is itself a mean of ten minutes', () => {
    const mean = { ...ON_SITE, periodMin: 10, windAveragingS: 600 };
    expect(truthOf(turning('13:00', '270 5', { everyMin: 10 }), { stations: [mean] })).toBe('true');
  });

  it('by one observation a minute is seen five minutes after', () => {
    expect(truthOf(turning('12:55', '270 5', { everyMin: 1 }))).toBe('true');
    expect(truthOf(turning('12:58', '270 5', { everyMin: 1 }))).not.toBe('true');
  });

  it('that takes longer than a quarter of an hour is none: that is a drift', () => {
    const slow = every(5, '11:00', '13:00', (m) => `${180 + Math.max(0, Math.min(90, (m - 60) * 1.5))} 5`);
    expect(truthOf(slow)).toBe('false');
    const quick = every(5, '11:00', '13:00', (m) => `${180 + Math.max(0, Math.min(90, (m - 105) * 6))} 5`);
    expect(truthOf(quick)).toBe('true');
  });

  it('lasts half an hour without a fire, and before it was lit: then the new wind is the wind', () => {
    const lit = { ...OPEN_BURN, openedAtMs: clock('12:28'), litAtMs: clock('12:28') };
    for (const burn of [null, lit]) {
      expect(truthOf(turning('12:25', '270 5'), { burn, now: '12:55' })).toBe('true');
      expect(truthOf(turning('12:25', '270 5'), { burn })).toBe('false');
    }
    expect(truthOf(turning('12:30', '270 5'), { burn: null })).toBe('true');
  });

  it('there and back within a quarter of an hour is told for as long', () => {
    const both = [
      ...turning('12:35', '270 5').filter((o) => o.observedAtMs < clock('12:45')),
      ...every(5, '12:45', '13:00', '180 5'),
    ];
    expect(shift(both)).toMatchObject({ truth: 'true', figures: { atMs: clock('12:35') } });
  });

  it('over a calm is seen from the wind before it', () => {
    const sprung = turning('12:50', '270 5').map((o) =>
      o.observedAtMs >= clock('12:30') && o.observedAtMs < clock('12:50') ? seen(o.observedAtMs, 'calm') : o,
    );
    expect(truthOf(sprung)).toBe('true');
  });

  it('is none while it is calm, or variable and light', () => {
    expect(truthOf(turning('12:50', 'calm'))).toBe('false');
    expect(truthOf(turning('12:50', 'VRB 1'))).toBe('false');
  });

  it('cannot be told of a wind that swings about', () => {
    expect(truthOf(every(5, '11:00', '13:00', 'VRB 5'))).toBe('unknown');
    expect(truthOf(every(1, '11:00', '13:00', (m) => `${m % 2 ? 90 : 250} 5`))).toBe('unknown');
  });
});

describe("a turn of the wind by the observers' handbook", () => {
  // FMH-1 and AFMAN 15-111 (2019) 7.4.5: 45° or more in less than 15 minutes with 10 kt or more throughout.
  const two = (apartMin: number, to: string, from = knots(180, 10)) => [
    seen(clock('12:45') - 1000, from),
    seen(clock('12:45') - 1000 + apartMin * 60_000, to),
  ];
  it.each([
    ['180 to 225 in 14 min at 10 kt is one', two(14, knots(225, 10)), 'true'],
    ['44° at 15 kt is none', two(14, knots(224, 15), knots(180, 15)), 'false'],
    ['with 9.9 kt at the end is none', two(14, knots(225, 9.9)), 'false'],
    ['with 9.9 kt at the beginning is none', two(14, knots(225, 10), knots(180, 9.9)), 'false'],
    [
      'with less than 10 kt between is none',
      [...two(14, knots(225, 12), knots(180, 12)), seen('12:52', knots(200, 8))],
      'false',
    ],
  ])('%s', (_, observations, truth) => {
    expect(truthOf(observations, { ...byHandbook, now: '12:59' })).toBe(truth);
  });

  it('in 15 min is none where there is an observation between', () => {
    const inFifteen = [
      seen('12:44', knots(180, 12)),
      seen('12:52', knots(200, 12)),
      seen('12:59', knots(225, 12)),
    ];
    expect(truthOf(inFifteen, byHandbook)).toBe('false');
    expect(truthOf([...inFifteen, seen('12:45', knots(180, 12))], byHandbook)).toBe('true');
  });

  it('names its definition', () => {
    expect(shift(turning('12:50', '270 8'), byHandbook).figures.what).toBe('fmh-1');
    expect(truthOf(turning('12:50', '270 5'), byHandbook)).toBe('false');
  });
});

describe('a station by the hour', () => {
  const airport: WatchText = { stations: [AIRPORT] };
  const hourly = (winds: readonly string[]) =>
    winds.map((wind, i) =>
      seen(clock('12:53') - (winds.length - 1 - i) * 3_600_000, wind, { station: 'KXYZ' }),
    );

  it.each(['ours', 'fmh-1'] as const)(
    'cannot see a quarter of an hour and says between which two it was (%s)',
    (definition) => {
      const text = { ...airport, settings: { shift: { ...DEFAULT_WATCH.shift, definition } } };
      expect(shift(hourly(['180 6', '180 6', '230 6']), text)).toMatchObject({
        truth: 'true',
        figures: { atMs: null, betweenMs: [clock('11:53'), clock('12:53')], station: 'KXYZ' },
      });
      expect(truthOf(hourly(['180 6', '180 6', '220 6']), text)).toBe('false');
    },
  );

  it('tells of it for its hour', () => {
    const text = { ...airport, burn: null };
    expect(truthOf(hourly(['180 6', '230 6']), { ...text, now: '13:53' })).toBe('true');
    expect(truthOf(hourly(['180 6', '230 6']), { ...text, now: '13:54' })).toBe('false');
    expect(truthOf(hourly(['180 6', '230 6']), { ...airport, now: '13:54' })).toBe('true');
  });

  it('whose report says so itself has turned (WSHFT remark), even where another is the chosen one', () => {
    const remark = seen('12:53', '270 6', { station: 'KXYZ', windShiftAtMs: clock('12:35') });
    const steady = every(5, '11:00', '13:00', '180 5');
    expect(shift([...steady, remark], { stations: [ON_SITE, AIRPORT] })).toMatchObject({
      truth: 'true',
      figures: { what: 'WSHFT', atMs: clock('12:35'), station: 'KXYZ', windFromDeg: expect.closeTo(270, 6) },
    });
    expect(truthOf([...steady, remark], { stations: [ON_SITE, AIRPORT], ...byHandbook })).toBe('true');
    const far = { ...AIRPORT, distanceM: 90_000 };
    expect(truthOf([...steady, remark], { stations: [ON_SITE, far] })).toBe('false');
  });

  it('over longer than an hour compares nothing', () => {
    const apart = [seen('11:30', '180 6'), seen('13:00', '270 6')];
    expect(truthOf(apart)).toBe('unknown');
  });
});

describe('what went missing', () => {
  it('is unknown: no observation, one alone, a stale one, blanks', () => {
    expect(truthOf([seen('13:00', '180 5')])).toBe('unknown');
    expect(truthOf(every(5, '11:00', '12:47', '180 5'))).toBe('unknown');
    expect(truthOf(every(5, '11:00', '13:00', 'none'))).toBe('unknown');
    expect(shift(every(5, '11:00', '12:40', '180 5')).verdict).toBe('hold');
  });

  it('is left to the forecast where nobody at the site tells the wind at all, or holds if the site says so', () => {
    expect(shift([])).toMatchObject({ truth: 'unknown', verdict: 'go' });
    expect(shift([], { settings: { unobserved: 'hold' } })).toMatchObject({
      truth: 'unknown',
      verdict: 'hold',
    });
  });

  it('once known holds, also where no observation is left', () => {
    const known = shift(every(5, '11:00', '13:00', '180 5'));
    expect(shift([], { before: [known] })).toMatchObject({ truth: 'unknown', verdict: 'hold' });
  });

  it('a blank between does not make a north of it', () => {
    const blank = turning('12:50', '180 5').map((o) =>
      o.observedAtMs === clock('12:30') ? seen('12:30', 'none 5') : o,
    );
    expect(truthOf(blank)).toBe('false');
  });
});

describe('what came out of order', () => {
  const inTime = (from: string, to: string) =>
    every(5, '11:00', '13:00', '180 5').filter(
      (o) => o.observedAtMs < clock(from) || o.observedAtMs > clock(to),
    );
  const late = (from: string, to: string) => every(5, from, to, '270 5', { receivedAtMs: clock('13:00') });

  it('turns nothing where it tells of moments more than twenty minutes ago', () => {
    expect(truthOf([...inTime('12:25', '12:35'), ...late('12:25', '12:35')])).toBe('false');
    expect(truthOf([...inTime('12:25', '12:40'), ...late('12:25', '12:40')])).toBe('false');
  });

  it('turns it where the moments are near enough', () => {
    expect(truthOf([...inTime('12:45', '12:55'), ...late('12:45', '12:55')])).toBe('true');
  });

  it('counts the same in whatever order it is given', () => {
    const turned = turning('12:50', '270 5');
    expect(shift([...turned].reverse())).toEqual(shift(turned));
  });
});
