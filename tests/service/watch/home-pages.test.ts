// Many sites are listed a hundred at a time, the ones that need somebody first; what was made for a forecast is remembered.

import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Running, startRunning } from '../running.ts';

const COUNT = 130;
const name = (i: number): string => `block-${String(i).padStart(3, '0')}`;

/** The demo's first site, and as many more at the same place as make two pages. */
const withMany = (yaml: string): string => {
  const end = yaml.indexOf('\n  - id: creek-block');
  const at = /at: (\[[^\]]+\])/.exec(yaml)?.[1];
  const shift = '{ days: [mon, tue, wed, thu, fri, sat, sun], from: "07:00", to: "17:00" }';
  const site = (i: number) =>
    `\n  - { id: ${name(i)}, name: ${name(i)}, at: ${at}, limits: valley, shift: ${shift} }`;
  return `${yaml.slice(0, end)}${Array.from({ length: COUNT }, (_, i) => site(i)).join('')}\n`;
};

let demo: Running;
beforeAll(async () => {
  demo = await startRunning('2026-04-14T17:00:00Z', withMany);
}, 60_000);
afterAll(() => demo.close());

const page = async (url = '/'): Promise<string> => (await demo.service.app.inject({ url })).body;
/** Above them every word is counted. */
const rowsOf = (body: string): string => body.slice(body.indexOf('<ul class="rows sites">'));
const idsOn = (body: string): string[] =>
  [...body.matchAll(/<h2><a href="\/sites\/([^"?]+)/g)].map((m) => m[1] ?? '');

it('a hundred sites stand on a page, each of them on one', async () => {
  const [first, second] = [await page(), await page('/?page=2')].map(idsOn);
  expect([first?.length, second?.length]).toEqual([100, COUNT + 1 - 100]);
  expect(new Set([...(first ?? []), ...(second ?? [])]).size).toBe(COUNT + 1);
  expect(idsOn(await page('/?page=9'))).toEqual(second);
  expect((await demo.service.app.inject({ url: '/?page=0' })).statusCode).toBe(400);
});

it('the pages are linked by number, and the reader keeps what they chose', async () => {
  expect(await page('/?lang=es&page=2')).toMatch(
    /<a href="\?lang=es&amp;page=1">1<\/a> <b aria-current="page">2<\/b>/,
  );
});

it('a site where a fire burns stands on the first page, wherever its name is', async () => {
  expect(idsOn(await page())).not.toContain(name(COUNT - 1));
  const url = `/v1/sites/${name(COUNT - 1)}/burns`;
  const { statusCode } = await demo.service.app.inject({
    method: 'POST',
    url,
    payload: { tap: 'lit', by: 'Ana' },
  });
  expect(statusCode).toBe(201);
  expect(idsOn(await page())[0]).toBe(name(COUNT - 1));
});

it('what was remembered is no longer said when the forecast has grown too old', async () => {
  const goes = (body: string): number =>
    [...rowsOf(body).matchAll(/class="chip[^"]*">(.*?)<\/span>/gs)].filter(([, word]) =>
      /\bGO\b/.test(word ?? ''),
    ).length;
  expect(goes(await page())).toBeGreaterThan(50);
  demo.clock.nowMs += 15 * 3_600_000;
  const after = await page();
  expect(idsOn(after).length).toBe(100);
  expect(goes(after)).toBe(0);
});
