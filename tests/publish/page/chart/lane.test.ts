import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HOUR_MS } from '#core/units/time.ts';
import {
  beyondEdges,
  type Frame,
  type Lane,
  type LaneBound,
  type LaneHour,
  laneScale,
  laneSvg,
  PLOT_PX,
} from '#publish/page/chart/lane.ts';
import { runs } from '#publish/page/chart/runs.ts';
import { timeScale } from '#publish/page/chart/time-scale.ts';
import { valueScale } from '#publish/page/chart/value-scale.ts';
import { html, textOf } from '#publish/page/html.ts';

const bound = (side: LaneBound['side'], verdict: LaneBound['verdict'], value: number): LaneBound => ({
  value,
  side,
  verdict,
  label: `${verdict} ${value}`,
});
const MOST_20 = bound('atMost', 'hold', 20);
const MOST_25 = bound('atMost', 'stop', 25);
const LEAST_4 = bound('atLeast', 'hold', 4);

/** One hour after the other from midnight; null is missing. */
const hoursOf = (
  values: readonly (number | null)[],
  change: (hour: LaneHour, i: number) => LaneHour = (h) => h,
) =>
  values.map((value, i) =>
    change(
      {
        fromMs: i * HOUR_MS,
        value,
        text: String(value),
        beyond: null,
        applies: true,
        derived: false,
        weight: 1,
      },
      i,
    ),
  );

const frameOf = (hours: number, more: Partial<Frame> = {}): Frame => ({
  scale: timeScale({ fromMs: 0, toMs: hours * HOUR_MS }),
  axis: html``,
  loading: null,
  marksMs: [],
  ...more,
});
const laneOf = (hours: readonly LaneHour[], bounds: readonly LaneBound[] = [MOST_20]): Lane => ({
  hours,
  bounds,
  told: 'told',
  missingWord: 'missing',
});
const drawn = (lane: Lane, more: Partial<Frame> = {}): string =>
  textOf(laneSvg(lane, frameOf(lane.hours.length, more)));

describe('the height of a value', () => {
  it('is in proportion, the larger the higher, within the air above and below', () => {
    const { y } = valueScale([0, 10], { pad: 14, height: 74 });
    expect([y(0), y(5), y(10)]).toEqual([60, 37, 14]);
    expect([y(-3), y(12)]).toEqual([60, 14]);
  });

  it('is the middle where there is one value only', () => {
    expect(valueScale([7], { pad: 14, height: 74 }).y(7)).toBe(37);
  });
});

describe('a lane', () => {
  it('holds all its values and all its bounds, on their sides of each other', () => {
    const value = fc.double({ min: -50, max: 5000, noNaN: true });
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 24 }), value, (values, cut) => {
        const lane = laneOf(hoursOf(values), [bound('atMost', 'hold', cut)]);
        const { y, least, most } = laneScale(lane);
        for (const v of [...values, cut]) {
          expect(y(v)).toBeGreaterThanOrEqual(0);
          expect(y(v)).toBeLessThanOrEqual(PLOT_PX);
          // A tenth of a pixel is what can be drawn.
          if (v > cut + (most - least) / 400) expect(y(v)).toBeLessThan(y(cut));
          if (v < cut - (most - least) / 400) expect(y(v)).toBeGreaterThan(y(cut));
        }
      }),
    );
  });

  it('hatches beyond a bound: above what is a maximum, below what is a minimum, to where the stop begins', () => {
    const bounds = [MOST_20, MOST_25, LEAST_4];
    const values = laneScale({ hours: hoursOf([3, 30]), bounds });
    const { y } = values;
    expect(beyondEdges(MOST_25, bounds, values)).toEqual([0, y(25)]);
    expect(beyondEdges(MOST_20, bounds, values)).toEqual([y(25), y(20)]);
    expect(beyondEdges(LEAST_4, bounds, values)).toEqual([y(4), PLOT_PX]);
  });

  it('draws the line through the middles of the hours', () => {
    expect(drawn(laneOf(hoursOf([0, 20, 10, 0])))).toContain('<path d="M125 60L375 14L625 37L875 60"/>');
  });

  it('breaks the line where a value is missing, and says so in the gap', () => {
    const svg = drawn(laneOf(hoursOf([0, 20, null, null, 10, 0])));
    expect(svg).toMatch(/<path d="M83 60L250 14M750 37L917 60"\/>/);
    expect(svg).toContain('<rect class="gap" x="33.33%" width="33.34%" height="74"/>');
    expect(svg).toMatch(/<text class="gw" x="50%" y="\d+">missing<\/text>/);
  });

  it('says it at the edge too, within the drawing', () => {
    expect(drawn(laneOf(hoursOf([null, 5, 5, 5, 5, 5, 5, 5])))).toMatch(/class="gw ts" x="0%"/);
    expect(drawn(laneOf(hoursOf([5, 5, 5, 5, 5, 5, 5, null])))).toMatch(/class="gw te" x="100%"/);
  });

  it('marks numbers beyond a bound by square, weight and line, and no others', () => {
    const svg = drawn(
      laneOf(hoursOf([10, 22, 10], (hour, i) => (i === 1 ? { ...hour, beyond: 'hold' } : hour))),
    );
    expect(svg.match(/class="pt-o"/g)).toHaveLength(1);
    expect(svg).toContain('<text class="nr o" x="50%" y="88">22</text>');
    expect(svg).toContain('<text class="nr" x="16.67%" y="88">10</text>');
  });

  it('marks derived values by ring and letter, and a value between gaps by a dot', () => {
    const svg = drawn(
      laneOf(hoursOf([10, null, 12, null, 9], (hour, i) => (i === 0 ? { ...hour, derived: true } : hour))),
    );
    expect(svg.match(/<circle class="pt-d"/g)).toHaveLength(1);
    expect(svg.match(/<circle class="pt"/g)).toHaveLength(2);
    expect(svg).toContain('>10<tspan class="d">d</tspan>');
  });

  it('hatches only the hours for which the limit was written', () => {
    const svg = drawn(laneOf(hoursOf([10, 10, 10, 10], (hour, i) => ({ ...hour, applies: i >= 2 }))));
    expect(svg.match(/<rect class="h-hold"[^>]*>/g)).toEqual([
      '<rect class="h-hold" x="50%" width="50%" y="0" height="14"/>',
    ]);
  });

  it('shows the time of loading, and the marks run through it', () => {
    const svg = drawn(laneOf(hoursOf([1, 2, 3, 4])), {
      loading: { fromMs: HOUR_MS, toMs: 3 * HOUR_MS },
      marksMs: [HOUR_MS],
    });
    expect(svg).toContain('<rect class="load" x="25%" width="50%" height="74"/>');
    expect(svg).toContain('<line class="mk" x1="25%" x2="25%" y2="74"/>');
  });

  it('is a gap and nothing else where every value is missing', () => {
    const svg = drawn(laneOf(hoursOf([null, null])));
    expect(svg).toContain('<rect class="gap" x="0%" width="100%" height="74"/>');
    expect(svg).not.toContain('NaN');
  });

  it('has a text for who cannot see it', () => {
    expect(drawn(laneOf(hoursOf([1])))).toMatch(/^<svg class="lane" [^>]*role="img" aria-label="told">/);
  });
});

describe('runs', () => {
  it('take neighbours together, and are ended by what has no key', () => {
    expect(
      runs([1, 1, 2, 0, 2, 2], (n) => (n === 0 ? null : n)).map(({ key, items }) => [key, items.length]),
    ).toEqual([
      [1, 2],
      [2, 1],
      [2, 2],
    ]);
  });
});
