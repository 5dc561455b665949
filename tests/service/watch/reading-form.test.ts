// The form for hand-held meters on the page of a pit that burns: over the real service, as a browser without script sends it.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

/** 10:00 at the north block, in its go. */
const TEN = '2026-04-14T17:00:00Z';
let demo: WatchedDemo;
beforeAll(async () => {
  demo = await startWatchedDemo(TEN);
});
afterAll(() => demo.close());

const page = async (query = '') =>
  (await demo.service.app.inject({ url: `/sites/north-block${query}` })).body;

const send = (fields: Record<string, string>, query = '', site = 'north-block') =>
  demo.service.app.inject({
    method: 'POST',
    url: `/sites/${site}/readings${query}`,
    headers: { 'content-type': 'application/x-www-form-urlencoded' },
    payload: new URLSearchParams({ station: 'meter', speedUnit: 'mph', blows: 'from', ...fields }).toString(),
  });

const FULL = { windSpeed: '8', windGust: '12', windDirection: 'SW', relativeHumidity: '41', time: '' };

const newest = async () => {
  const { body } = await demo.api('GET', '/v1/sites/north-block/now');
  return body['observation'] as Record<string, unknown>;
};

/** What stands as wrong at the input of that name, as a browser ties them together. */
function faultAt(html: string, name: string): string | null {
  const input = new RegExp(`<(?:input|select) id="r-${name}"[^>]*>`).exec(html)?.[0] ?? '';
  if (!input.includes('aria-invalid="true"')) return null;
  const [, pointers = ''] = /aria-describedby="([^"]*)"/.exec(input) ?? [];
  const id = pointers.split(' ').find((one) => one.endsWith('-bad'));
  return new RegExp(`id="${id}">([^<]*)<`).exec(html)?.[1] ?? null;
}

describe('the form for hand-held meters', () => {
  it('is not on the page of a pit that does not burn', async () => {
    const { statusCode, body, headers } = await demo.service.app.inject({ url: '/sites/north-block' });
    expect([statusCode, body.includes('<form')]).toEqual([200, false]);
    expect(headers['content-security-policy']).toContain("form-action 'none'");
  });

  it('stands on the page of one that burns, each label tied to its input', async () => {
    await demo.lights();
    const html = await page();
    for (const name of ['time', 'windSpeed', 'windGust', 'windDirection', 'reference', 'relativeHumidity']) {
      expect(html, name).toMatch(new RegExp(`<label[^>]* for="r-${name}"`));
      expect(html, name).toMatch(new RegExp(`<(input|select) id="r-${name}" name="${name}"`));
    }
    expect(html).toMatch(/<option value="magnetic" selected>/);
    // Of its own script alone; the form needs none.
    expect(html.match(/<script[^>]*>/g)).toEqual([
      expect.stringMatching(/^<script src="\/s\/[\w-]{16}\.js" defer>$/),
    ]);
  });

  it('lets a browser send it here and nowhere else', async () => {
    const { headers } = await demo.service.app.inject({ url: '/sites/north-block' });
    expect(headers['content-security-policy']).toContain("form-action 'self'");
    const elsewhere = await demo.service.app.inject({
      method: 'POST',
      url: '/sites/north-block/readings',
      headers: {
        'content-type': 'application/x-www-form-urlencoded',
        origin: 'https://elsewhere.example',
      },
      payload: 'station=meter&windSpeed=8',
    });
    expect(elsewhere.statusCode).toBe(403);
  });

  it('is kept as measured: turned from the compass to true north, dated now where no time is given', async () => {
    const sent = await send(FULL, '?lang=es');
    expect([sent.statusCode, sent.headers.location]).toEqual([
      303,
      '/sites/north-block?lang=es&kept=1#reading',
    ]);
    // 225 by the compass with 12 degrees east is 237 true. 8 and 12 mph: NIST SP 811, appendix B.8.
    expect(await newest()).toMatchObject({
      station: 'meter',
      wind: 'blowing',
      windFrom: 237,
      windSpeedMps: expect.closeTo(3.57632, 6),
      gustMps: expect.closeTo(5.36448, 6),
      relativeHumidityPct: 41,
      windHeightM: 2,
      observedAt: '2026-04-14T10:00:00-07:00',
    });
    const back = await page('?lang=es&kept=1');
    expect(back).toContain('La lectura quedó guardada.');
    expect(back).toMatch(/Última lectura.*meter.*viento 8 mph del OSO/);
    // The word of it stays on this one page.
    expect(back).not.toMatch(/href="[^"]*kept/);
  });

  it('sent twice counts once, and at the same moment with other figures corrects', async () => {
    demo.pass(5);
    for (const [windSpeed, mps] of [
      ['8', 3.57632],
      ['8', 3.57632],
      ['10', 4.4704],
    ] as const) {
      expect((await send({ ...FULL, windSpeed, time: '10:03', reference: 'true' })).statusCode).toBe(303);
      expect(await newest()).toMatchObject({
        observedAt: '2026-04-14T10:03:00-07:00',
        windSpeedMps: expect.closeTo(mps, 6),
        windFrom: 225,
      });
      // Received at another moment each time.
      demo.clock.nowMs += 1000;
    }
    const { body } = await demo.api('GET', '/v1/sites/north-block/observations');
    expect((body['observations'] as unknown[]).length).toBe(2);
  });

  it('takes calm and variable in the place of a direction', async () => {
    demo.pass(1);
    expect(
      (await send({ ...FULL, windDirection: '', windSpeed: '', windGust: '', blows: 'calm' })).statusCode,
    ).toBe(303);
    expect(await newest()).toMatchObject({ wind: 'calm', windFrom: null, windSpeedMps: 0 });
    demo.pass(1);
    const variable = await send({ ...FULL, windDirection: '', windSpeed: '4 kt', blows: 'variable' });
    expect(variable.statusCode).toBe(303);
    // 4 kt: 1 kt is 1852 m in an hour (NIST SP 811, appendix B.8).
    expect(await newest()).toMatchObject({ wind: 'variable', windSpeedMps: expect.closeTo(2.0578, 4) });
  });

  it.each([
    ['windSpeed', { windSpeed: 'strong' }, 'Give a number such as 8 or 8.5.', 'Dé un número como 8 o 8.5.'],
    ['windSpeed', { windSpeed: '800' }, 'This is beyond what can be.', 'Está fuera de lo posible.'],
    [
      'windGust',
      { windGust: '5' },
      'A gust is never weaker than the wind.',
      'Una ráfaga nunca es más débil que el viento.',
    ],
    [
      'windDirection',
      { windDirection: 'to the road' },
      'Give where it blows from: SW or 225.',
      'Dé de dónde viene: SO o 225.',
    ],
    ['windDirection', { windDirection: '400' }, 'Degrees go from 0 to 360.', 'Los grados van de 0 a 360.'],
    [
      'windDirection',
      { blows: 'calm' },
      'A direction, and calm or variable as well: which of them is it?',
      'Una dirección, y también calma o variable: ¿cuál es?',
    ],
    [
      'windDirection',
      { windDirection: '', blows: 'calm' },
      'Calm, and yet a wind speed: which of them is it?',
      'Calma, y a la vez una velocidad de viento: ¿cuál de las dos es?',
    ],
    ['time', { time: '25:10' }, 'Give a clock time such as 14:05.', 'Dé una hora como 14:05.'],
    // Two in the afternoon has not come yet, so that it is yesterday's.
    ['time', { time: '14:00' }, 'This is too long ago to count.', 'Es demasiado antigua para contar.'],
    [
      'relativeHumidity',
      { relativeHumidity: '0' },
      'This is beyond what can be.',
      'Está fuera de lo posible.',
    ],
  ])('what is wrong with %s (%o) is said at the field, in both languages', async (field, change, en, es) => {
    const before = await newest();
    const sent = await send({ ...FULL, ...change });
    expect(sent.statusCode).toBe(400);
    expect(faultAt(sent.body, field)).toBe(en);
    expect(faultAt((await send({ ...FULL, ...change }, '?lang=es')).body, field)).toBe(es);
    expect(sent.body).toContain('role="alert"');
    // What was typed is still there, and nothing was kept.
    expect(sent.body).toContain('name="relativeHumidity" inputmode="decimal"');
    expect(await newest()).toEqual(before);
  });

  it('without anything measured, and for a meter that is none, says so', async () => {
    const none = await send({ windSpeed: '', windGust: '', windDirection: '', relativeHumidity: '' });
    expect([none.statusCode, none.body]).toEqual([
      400,
      expect.stringContaining('Nothing was entered that was measured.'),
    ]);
    // An instrument tells for itself: nobody types in its name.
    for (const station of ['mast', 'nobody']) {
      const sent = await send({ ...FULL, station });
      expect([sent.statusCode, faultAt(sent.body, 'station')]).toEqual([400, 'Choose a meter of this site.']);
    }
  });

  it('what was typed comes back as text, whatever it is', async () => {
    const { body } = await send({ ...FULL, windSpeed: '"><b>8' });
    expect(body).toContain('value="&quot;&gt;&lt;b&gt;8"');
  });

  it('of an unknown field or site is refused', async () => {
    expect((await send({ ...FULL, verdict: 'go' })).statusCode).toBe(400);
    expect((await send(FULL, '', 'nowhere')).statusCode).toBe(404);
  });

  it('a reading on it turns the verdict as one that is posted does', async () => {
    demo.pass(1);
    expect((await send({ ...FULL, windSpeed: '9', windGust: '26' })).statusCode).toBe(303);
    const { body } = await demo.api('GET', '/v1/sites/north-block/now');
    expect(body['verdict']).toBe('stop');
    expect(await page()).toMatch(/<section class="call stop">/);
  });
});
