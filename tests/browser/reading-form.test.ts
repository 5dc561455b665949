// The form for hand-held meters in a browser without script, on a telephone.

import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startWatchedDemo, type WatchedDemo } from '../service/watch/watched-demo.ts';

const PATH = process.env['PITWARD_BROWSER'] || '/usr/bin/chromium';
const here = existsSync(PATH);
if (!here) console.log(`tests/browser skipped: no browser at ${PATH}`);

describe.skipIf(!here)('the form for hand-held meters', { timeout: 90_000 }, () => {
  let demo: WatchedDemo;
  let browser: Browser;
  let base = '';
  beforeAll(async () => {
    demo = await startWatchedDemo('2026-04-14T17:00:00Z');
    await demo.api('POST', '/v1/sites/north-block/burns', { tap: 'lit', by: 'Ana' });
    base = await demo.service.app.listen({ host: '127.0.0.1', port: 0 });
    browser = await chromium.launch({
      executablePath: PATH,
      args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'],
    });
  });
  afterAll(async () => {
    await browser?.close();
    await demo?.close();
  });

  it('is put right and sent with the thumb, and says that it is kept', async () => {
    const context = await browser.newContext({
      javaScriptEnabled: false,
      viewport: { width: 390, height: 844 },
    });
    const page = await context.newPage();
    await page.goto(`${base}/sites/north-block`);
    // Found by what is written beside them. Targets for gloves: 44 px (WCAG 2.2, 2.5.5).
    const targets = [
      page.getByLabel('Measured at'),
      page.getByLabel('Wind', { exact: true }),
      page.getByLabel('Gust', { exact: true }),
      page.getByLabel('Unit', { exact: true }),
      page.getByRole('textbox', { name: 'The wind blows from' }),
      page.getByText('Calm', { exact: true }),
      page.getByText('Variable: from no one direction'),
      page.getByLabel('Direction by'),
      page.getByRole('textbox', { name: 'Humidity' }),
      page.getByRole('button', { name: 'Keep the reading' }),
    ];
    for (const target of targets) {
      expect((await target.boundingBox())?.height, target.toString()).toBeGreaterThanOrEqual(44);
    }
    await page.getByLabel('Wind', { exact: true }).fill('9');
    await page.getByLabel('Gust', { exact: true }).fill('7');
    await page.getByRole('textbox', { name: 'The wind blows from' }).fill('sw');
    await page.getByRole('button', { name: 'Keep the reading' }).click();
    expect(await page.getByText('A gust is never weaker than the wind.').isVisible()).toBe(true);
    expect(await page.getByLabel('Wind', { exact: true }).inputValue()).toBe('9');
    const wide = await page.locator('html').evaluate((html) => [html.scrollWidth, html.clientWidth]);
    expect(wide[0]).toBeLessThanOrEqual(wide[1] ?? 0);
    await page.getByLabel('Gust', { exact: true }).fill('12');
    await page.getByRole('button', { name: 'Keep the reading' }).click();
    expect(page.url()).toBe(`${base}/sites/north-block?kept=1#reading`);
    expect(await page.getByText('The reading is kept.').isVisible()).toBe(true);
    expect(await page.getByText('wind 9 mph from WSW (237°), gust 12 mph').isVisible()).toBe(true);
    await context.close();
  });
});
