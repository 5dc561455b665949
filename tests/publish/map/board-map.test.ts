// The map of a board against what is known of the ground: county seats and their counties (from memory), distances by
// GeographicLib (geographiclib-geodesic 2.2.0).

import { gzipSync } from 'node:zlib';
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { createBaseMaps } from '#publish/map/base-map.ts';
import { boardMap, type MapPin } from '#publish/map/board-map.ts';
import { viewOf } from '#publish/map/view.ts';
import { textOf } from '#publish/page/html.ts';

const WGS84 = geographiclib.Geodesic.WGS84;
const US = { language: 'en', units: 'us' } as const;

const pin = (letter: string, latDeg: number, lonDeg: number, more: Partial<MapPin> = {}): MapPin => ({
  pin: letter,
  name: `Site ${letter}`,
  word: 'GO',
  place: { latDeg, lonDeg },
  mark: 'go',
  smoke: { towardDeg: 45, halfWidthDeg: 20 },
  ...more,
});

async function drawn(
  pins: readonly MapPin[],
  more: Partial<Parameters<typeof boardMap>[0]> = {},
): Promise<string> {
  const map = await boardMap({ pins, asked: null, reader: US, ...more });
  return map === null ? '' : textOf(map);
}

const labelOf = (svg: string): string => /aria-label="([^"]*)"/.exec(svg)?.[1] ?? '';

describe('the map of a board', () => {
  it.each([
    ['Fresno', 36.74, -119.79],
    ['Bibb', 32.84, -83.63],
    ['Harris', 29.76, -95.36],
    ['Aleutians West', 51.88, -176.65],
    ['North Slope', 71.29, -156.79],
    ['Honolulu', 21.31, -157.86],
  ])('knows that it lies in %s', async (county, lat, lon) => {
    const label = labelOf(await drawn([pin('A', lat, lon)]));
    expect(label).toContain(county);
  });

  it.each<readonly [string, readonly MapPin[]]>([
    ['one pit', [pin('A', 32.84, -83.63)]],
    ['a state of 159 counties', [pin('A', 34.6, -84.9), pin('B', 30.8, -82.1)]],
    ['a state of 254 counties', [pin('A', 35.5, -101.5), pin('B', 27, -98)]],
    ['a state with cities that are counties', [pin('A', 38.9, -77.4), pin('B', 36.8, -82)]],
    ['a coast of islands', [pin('A', 57, -135.4), pin('B', 60.5, -145.8)]],
    ['the whole country', [pin('A', 47, -122), pin('B', 26, -80.5), pin('C', 44, -69), pin('D', 61, -150)]],
  ])('costs no more than 15 KB on the way: %s', async (_, pins) => {
    const svg = await drawn(pins);
    expect(gzipSync(svg).length).toBeLessThanOrEqual(15 * 1024);
    expect(svg).toContain('US Census Bureau, public domain');
  });

  it.each<readonly [string, readonly MapPin[]]>([
    ['over the antimeridian', [pin('A', 51.9, 179.3), pin('B', 52.2, -177)]],
    ['beside the pole', [pin('A', 89.5, 20), pin('B', 89.5, -170)]],
    ['in the valley', [pin('A', 36.44, -120.23), pin('B', 36.37, -120.16)]],
    ['in another country', [pin('A', 50.1, 10.2), pin('B', 50.3, 11)]],
  ])('shows every pit, and every distance at its scale: %s', async (_, pins) => {
    const view = viewOf(pins.map(({ place }) => place));
    if (view === null) throw new Error('no view');
    const { at } = await createBaseMaps()(view);
    const [a, b] = pins.map(({ place }) => at(place));
    if (!(a && b && pins[0] && pins[1])) throw new Error('a pit is not on the map');
    const drawnPx = Math.hypot(a[0] - b[0], a[1] - b[1]);
    const [from, to] = [pins[0].place, pins[1].place];
    const { s12 = Number.NaN } = WGS84.Inverse(from.latDeg, from.lonDeg, to.latDeg, to.lonDeg);
    const bar = /translate\(10 348\)"><path d="M0-6V0H([\d.]+)V-6"\/><text x="4" y="-5">(\d+) mi</.exec(
      await drawn(pins),
    );
    const metresPerPx = (Number(bar?.[2]) * 1609.344) / Number(bar?.[1]);
    // A sphere is at most 0.56 % off, the projection less about its middle, the bar is told to a tenth of a pixel.
    expect(Math.abs((drawnPx * metresPerPx) / s12 - 1)).toBeLessThan(0.015);
  });

  it.each([
    [0, 0, -1],
    [90, 1, 0],
    [180, 0, 1],
    [270, -1, 0],
  ])('smoke toward %i° is drawn that way', async (towardDeg, right, down) => {
    const svg = await drawn([pin('A', 36.44, -120.23, { smoke: { towardDeg, halfWidthDeg: 20 } })]);
    const path = /class="fan" d="M([^"]*)Z"/.exec(svg)?.[1] ?? '';
    const points = path.split('L').map((text) => text.split(' ').map(Number));
    const [[x = 0, y = 0] = [], ...arc] = points;
    const mean = (i: 0 | 1): number => arc.reduce((sum, p) => sum + (p[i] ?? 0), 0) / arc.length;
    expect((mean(0) - x) / 45).toBeCloseTo(right, 0);
    expect((mean(1) - y) / 45).toBeCloseTo(down, 0);
  });

  it('says in words what it shows: signs, smoke, the ground', async () => {
    const label = labelOf(
      await drawn([
        pin('A', 36.44, -120.23),
        pin('B', 36.3, -120.4, { word: 'STOP', mark: 'stop', smoke: null }),
      ]),
    );
    expect(label).toContain('A Site A: GO, smoke toward NE (45°).');
    expect(label).toContain('B Site B: STOP, smoke without a direction.');
    expect(label).toContain('Fresno county');
  });

  it('draws a sign of its own for each verdict, and a ring where smoke has no direction', async () => {
    const marks = ['go', 'hold', 'stop', 'unsaid'] as const;
    const svg = await drawn(
      marks.map((mark, i) => pin('ABCD'[i] ?? '', 36 + i / 10, -120, { mark, smoke: null })),
    );
    for (const mark of marks) expect(svg).toContain(`href="#i-${mark}"`);
    expect(svg.match(/class="ring"/g)?.length).toBe(4);
    expect(svg).not.toContain('class="fan"');
  });

  it('letters of pits side by side do not lie over each other', async () => {
    const svg = await drawn('ABCD'.split('').map((letter, i) => pin(letter, 36.4 + i * 0.03, -120.2)));
    const letters = [...svg.matchAll(/class="letter" x="([\d.]+)" y="([\d.]+)">(\w)</g)].map((m) => [
      Number(m[1]),
      Number(m[2]),
    ]);
    expect(letters.length).toBe(4);
    for (const [i, [x = 0, y = 0]] of letters.entries())
      for (const [x2 = 0, y2 = 0] of letters.slice(i + 1))
        expect(Math.abs(x - x2) >= 11 || Math.abs(y - y2) >= 15).toBe(true);
  });

  it('outside of the United States it has the net of degrees alone, and says so', async () => {
    const svg = await drawn([pin('A', 50.1, 10.2)]);
    expect(svg).toContain('No county lines here: the lines are degrees, one every 0.25°.');
    expect(svg).not.toContain('Census');
    expect(/class="lines"[^>]* d="M/.test(svg)).toBe(true);
    const spanish = await drawn([pin('A', 50.1, 10.2)], { reader: { language: 'es', units: 'si' } });
    expect(spanish).toContain('Aquí no hay límites de condados');
    expect(spanish).toMatch(/<text x="4" y="-5">\d+ km</);
  });

  it('shows the place of a question', async () => {
    const asked = { latDeg: 36.5, lonDeg: -120.1 };
    expect(await drawn([pin('A', 36.44, -120.23)], { asked })).toContain('class="asked"');
  });

  it('is nothing where there is no pit', async () => {
    expect(await drawn([])).toBe('');
    expect(await drawn([], { asked: { latDeg: 1, lonDeg: 1 } })).toBe('');
  });

  it('takes nothing that a name holds for markup', async () => {
    const svg = await drawn([pin('A', 36.44, -120.23, { name: '"><script>' })]);
    expect(svg).not.toContain('<script>');
  });
});
