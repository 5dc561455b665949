// The day sheet as a page in a real browser: on a phone, and printed on one side of Letter or A4 in black and white.

import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inventedSheet, type SheetName, sheetHtml } from '../publish/sheet/invented-sheets.ts';
import { readPdf } from '../publish/sheet/read-pdf.ts';
import { type Running, startRunning } from '../service/running.ts';
import { heldToAxe } from './axe.ts';
import { hasBrowser, launch } from './browser.ts';
import { sidewaysOf, smallOf } from './sizes.ts';

const SHOTS = fileURLToPath(new URL('../../.tmp-looks/', import.meta.url));
const IN_ENGLISH: readonly SheetName[] = ['go', 'stale'];
/** The fullest of them, and each state. */
const IN_SPANISH: readonly SheetName[] = [
  'go',
  'stop',
  'pause',
  'longNames',
  'farNorthSummer',
  'autumn',
  'metric',
  'missingLayer',
];

describe.skipIf(!hasBrowser)('the day sheet', { timeout: 90_000 }, () => {
  let browser: Browser;
  let page: Page;
  let running: Running;
  let base = '';
  beforeAll(async () => {
    running = await startRunning('2026-03-03T01:10:00Z');
    base = await running.service.app.listen({ host: '127.0.0.1', port: 0 });
    browser = await launch();
    page = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    await running?.close();
  });

  const eachSheet = async (work: (name: string, html: string) => Promise<void>): Promise<void> => {
    for (const name of IN_SPANISH)
      await work(`${name} es`, sheetHtml(inventedSheet(name, { language: 'es' })));
    for (const name of IN_ENGLISH) await work(name, sheetHtml(inventedSheet(name)));
  };

  it('prints on one side of Letter and of A4, with nothing beside the paper', async () => {
    const faults: unknown[] = [];
    await eachSheet(async (name, html) => {
      await page.setContent(html);
      for (const format of ['Letter', 'A4']) {
        const { pages, outside } = await readPdf(await page.pdf({ format }));
        if (pages !== 1 || outside.length > 0) faults.push({ name, format, pages, outside });
      }
    });
    expect(faults).toEqual([]);
  });

  it('is ink on white whatever the look', async () => {
    for (const look of ['night', 'day']) {
      await page.emulateMedia({ colorScheme: look === 'night' ? 'dark' : 'light' });
      await page.setContent(sheetHtml(inventedSheet('stop'), { look }));
      const colours = await page.locator('body, .sheet .chip, .void, .sheet td').evaluateAll((all) =>
        all.flatMap((e) => {
          const style = e.ownerDocument.defaultView?.getComputedStyle(e);
          return [style?.color, style?.backgroundColor];
        }),
      );
      expect([...new Set(colours)].sort()).toEqual([
        'rgb(0, 0, 0)',
        'rgb(255, 255, 255)',
        'rgba(0, 0, 0, 0)',
      ]);
    }
  });

  it('scrolls nowhere sideways on a phone, and its links are large enough', async () => {
    await eachSheet(async (name, html) => {
      await page.setContent(html);
      for (const width of [320, 390, 1280]) {
        await page.setViewportSize({ width, height: 844 });
        expect([name, width, await sidewaysOf(page), await smallOf(page)]).toEqual([name, width, 0, []]);
      }
    });
    if (!process.env['PITWARD_LOOKS']) return;
    mkdirSync(SHOTS, { recursive: true });
    for (const [name, width, media] of [
      ['go', 390, 'screen'],
      ['go', 1280, 'screen'],
      ['go', 733, 'print'],
      ['longNames', 733, 'print'],
    ] as const) {
      await page.emulateMedia({ media });
      await page.setContent(sheetHtml(inventedSheet(name, { language: 'es' })));
      await page.setViewportSize({ width, height: 980 });
      await page.screenshot({ path: `${SHOTS}sheet-${name}-${width}.png`, fullPage: true });
    }
    await page.emulateMedia({ media: 'screen' });
  });

  it('has nothing against it by axe, in both looks and both languages, and leads to both papers', async () => {
    for (const query of ['look=day', 'look=night&lang=es']) {
      const url = `${base}/sites/north-block/sheet?day=tomorrow&${query}`;
      const { rules, against } = await heldToAxe(browser, url);
      expect([query, against]).toEqual([query, []]);
      expect(rules).toBeGreaterThan(20);
    }
    const context = await browser.newContext({ javaScriptEnabled: false });
    const scriptless = await context.newPage();
    await scriptless.goto(`${base}/sites/north-block?day=tomorrow&lang=es`);
    await scriptless.getByRole('link', { name: 'Hoja del día para imprimir' }).press('Enter');
    await scriptless.waitForURL(/\/sheet/);
    const links = await scriptless
      .locator('.acts a')
      .evaluateAll((all) => all.map((a) => a.getAttribute('href')));
    expect(links.filter((href) => href?.includes('sheet.pdf'))).toEqual([
      '/sites/north-block/sheet.pdf?day=2026-03-03&lang=es&paper=letter',
      '/sites/north-block/sheet.pdf?day=2026-03-03&lang=es&paper=a4',
    ]);
    await context.close();
  });
});
