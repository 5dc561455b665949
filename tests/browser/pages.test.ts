import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createPlayDesk } from '#play/create-play-desk.ts';
import { invented } from '../play/invented-play.ts';
import { type Running, startRunning } from '../service/running.ts';
import { hasBrowser, launch } from './browser.ts';

describe.skipIf(!hasBrowser)('the first pages in a browser without script', { timeout: 90_000 }, () => {
  let running: Running;
  let browser: Browser;
  let base = '';
  beforeAll(async () => {
    const play = createPlayDesk((seed) => Promise.resolve(invented(seed)));
    running = await startRunning('2026-03-03T01:10:00Z', undefined, true, { play });
    base = await running.service.app.listen({ host: '127.0.0.1', port: 0 });
    browser = await launch();
  });
  afterAll(async () => {
    await browser?.close();
    await running?.close();
  });

  const open = async (path: string, width = 390) => {
    const context = await browser.newContext({ javaScriptEnabled: false, viewport: { width, height: 844 } });
    const page = await context.newPage();
    const answer = await page.goto(`${base}${path}`);
    expect(answer?.status()).toBe(200);
    return { page, close: () => context.close() };
  };

  it('a phone’s first screen holds the answer, the three times and the age', async () => {
    const { page, close } = await open('/sites/north-block?day=tomorrow');
    for (const text of ['GO', 'Light-up from', 'Last charge', 'Covered by', 'Forecast made', 'DEMO']) {
      const box = await page.getByText(text).filter({ visible: true }).first().boundingBox();
      expect(box, text).not.toBeNull();
      expect((box?.y ?? 0) + (box?.height ?? 0), text).toBeLessThanOrEqual(844);
    }
    await close();
  });

  it.each(['/', '/sites/ridge-block?lang=es', '/docs'])(
    '%s does not scroll sideways on a narrow phone, a phone and a desk',
    async (path) => {
      const { page, close } = await open(path);
      for (const width of [320, 390, 1200]) {
        await page.setViewportSize({ width, height: 844 });
        // The page itself runs no script; this asks the browser from outside.
        const box = await page.locator('html').evaluate((html) => [html.scrollWidth, html.clientWidth]);
        expect(box[0], `${width} px`).toBeLessThanOrEqual(box[1] ?? 0);
      }
      await close();
    },
  );

  it('the simulated shift plays at the press of its button', async () => {
    const { page, close } = await open('/demo/play?lang=es');
    await page.getByRole('spinbutton').fill('7');
    await page.getByRole('button').click();
    expect(page.url()).toBe(`${base}/demo/play?lang=es&seed=7`);
    for (const text of ['Lo que pasó', 'El viento gira', 'ALTO', 'DEMO']) {
      expect(await page.getByText(text).first().isVisible(), text).toBe(true);
    }
    const box = await page.locator('html').evaluate((html) => [html.scrollWidth, html.clientWidth]);
    expect(box[0]).toBeLessThanOrEqual(box[1] ?? 0);
    await close();
  });

  it('each verdict is a word on the page, and the hour table has a row for each hour', async () => {
    for (const [site, word] of [
      ['north-block', 'GO'],
      ['ridge-block', 'STOP'],
    ] as const) {
      const { page, close } = await open(`/sites/${site}?day=tomorrow`);
      expect(await page.locator('h1:visible').textContent()).toContain(word);
      expect(await page.locator('tbody tr').count()).toBe(24);
      await close();
    }
  });

  it('prints as a clean sheet: the hours of the drawing as a table though it is closed on the screen, no links of the screen', async () => {
    const { page, close } = await open('/sites/north-block?day=tomorrow&look=night', 725);
    const hour = (name: string) => page.getByRole('rowheader', { name, exact: true });
    expect(await hour('12:00 pm').isVisible()).toBe(false);
    await page.emulateMedia({ media: 'print' });
    expect(await hour('12:00 pm').isVisible()).toBe(true);
    expect(await hour('11:00 pm').isVisible(), 'dark, and no shift').toBe(false);
    expect(await page.locator('nav').isVisible()).toBe(false);
    const width = await page.locator('table').evaluate((table) => table.scrollWidth);
    expect(width, 'the table fits the paper').toBeLessThanOrEqual(725);
    const ground = await page
      .locator('body')
      .evaluate((body) => body.ownerDocument.defaultView?.getComputedStyle(body).backgroundColor);
    expect(ground, 'ink on white, whatever the look').toBe('rgb(255, 255, 255)');
    await close();
  });

  it.each(['north-block', 'creek-block', 'ridge-block'])(
    'prints %s on one page of Letter or A4',
    async (site) => {
      const { page, close } = await open(`/sites/${site}?day=tomorrow`);
      for (const format of ['Letter', 'A4']) {
        const pdf = (await page.pdf({ format })).toString('latin1');
        expect(pdf.match(/\/Type \/Page\b(?!s)/g), format).toHaveLength(1);
      }
      await close();
    },
  );
});
