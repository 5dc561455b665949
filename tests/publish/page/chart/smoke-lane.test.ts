import { describe, expect, it } from 'vitest';
import { HOUR_MS } from '#core/units/time.ts';
import { type SmokeHour, smokeSvg } from '#publish/page/chart/smoke-lane.ts';
import { timeScale } from '#publish/page/chart/time-scale.ts';
import { html, textOf } from '#publish/page/html.ts';

const hour = (i: number, towardDeg: number | null, more: Partial<SmokeHour> = {}): SmokeHour => ({
  fromMs: i * HOUR_MS,
  towardDeg,
  point: towardDeg === 90 ? 'E' : 'N',
  isUnsure: false,
  ...more,
});
const drawn = (
  hours: readonly SmokeHour[],
  reaches: Parameters<typeof smokeSvg>[0]['reaches'] = [],
): string =>
  textOf(
    smokeSvg(
      { hours, reaches, told: 'told', missingWord: 'missing' },
      {
        scale: timeScale({ fromMs: 0, toMs: hours.length * HOUR_MS }),
        axis: html``,
        loading: null,
        marksMs: [],
      },
    ),
  );

describe('the lane of the smoke', () => {
  it('points where the smoke goes, clockwise from north, in the middle of its hour', () => {
    const svg = drawn([hour(0, 0), hour(1, 90)]);
    expect(svg).toContain('<svg x="25%" y="17"><use href="#i-to" transform="rotate(0)"/></svg>');
    expect(svg).toContain('<svg x="75%" y="17"><use href="#i-to" transform="rotate(90)"/></svg>');
    expect(svg).toMatch(/x="75%" y="48">E<\/text>/);
  });

  it('has a ring and no arrow where the wind is too light to say, and a gap where it is missing', () => {
    const svg = drawn([hour(0, 90, { isUnsure: true }), hour(1, null), hour(2, 90)]);
    expect(svg.match(/#i-to/g)).toHaveLength(1);
    expect(svg.match(/<circle/g)).toHaveLength(1);
    expect(svg).toContain('>missing</text>');
    expect(svg.match(/>E<\/text>/g)).toHaveLength(1);
  });

  it('hatches the time in which smoke reaches a place, by its verdict', () => {
    const svg = drawn([hour(0, 90), hour(1, 90)], [{ fromMs: 0, toMs: HOUR_MS, verdict: 'stop' }]);
    expect(svg).toContain('<rect class="h-stop" x="0%" width="50%" height="34"/>');
  });

  it('leaves arrows out where a long day has no room for one in every hour', () => {
    const svg = drawn(Array.from({ length: 24 }, (_, i) => hour(i, 90)));
    expect(svg.match(/#i-to/g)).toHaveLength(12);
  });
});
