// The list of sites in a real browser: without script, by the keyboard, at every width, in both looks and languages.

import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startWatchedDemo, type WatchedDemo } from '../service/watch/watched-demo.ts';
import { heldToAxe } from './axe.ts';
import { hasBrowser, launch } from './browser.ts';
import { sidewaysOf, smallOf } from './sizes.ts';

const SHOTS = fileURLToPath(new URL('../../.tmp-looks/', import.meta.url));

describe.skipIf(!hasBrowser)('the list of sites', { timeout: 90_000 }, () => {
  let demo: WatchedDemo;
  let browser: Browser;
  let base = '';
  beforeAll(async () => {
    demo = await startWatchedDemo('2026-04-14T17:00:00Z');
    await demo.reads();
    await demo.lights();
    await demo.minute();
    for (let i = 0; i < 6; i += 1) {
      demo.pass(5);
      await demo.reads({ fromDeg: 290, mph: 10 });
      await demo.minute();
    }
    base = await demo.service.app.listen({ host: '127.0.0.1', port: 0 });
    browser = await launch();
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    await demo?.close();
  });

  const open = async (path: string, width = 390): Promise<Page> => {
    const context = await browser.newContext({ javaScriptEnabled: false, viewport: { width, height: 844 } });
    const page = await context.newPage();
    expect((await page.goto(`${base}${path}`))?.status()).toBe(200);
    return page;
  };

  it('scrolls nowhere sideways and has nothing too small for a finger', async () => {
    for (const path of ['/', '/?lang=es&look=night', '/?show=needs']) {
      const page = await open(path);
      for (const width of [320, 390, 1280]) {
        await page.setViewportSize({ width, height: 844 });
        expect([path, width, await sidewaysOf(page), await smallOf(page)]).toEqual([path, width, 0, []]);
      }
      if (process.env['PITWARD_LOOKS']) await shoot(page, `office-${path.replaceAll(/\W+/g, '-')}`);
      await page.context().close();
    }
  });

  it('has nothing against it by axe, in both looks and both languages', async () => {
    for (const query of ['look=day', 'look=night&lang=es&show=needs']) {
      const { rules, against } = await heldToAxe(browser, `${base}/?${query}`);
      expect([query, against]).toEqual([query, []]);
      expect(rules).toBeGreaterThan(20);
    }
  });

  it('is narrowed by the keyboard alone and without script, and the address keeps it', async () => {
    const page = await open('/?lang=en');
    const focused = page.locator(':focus');
    for (let i = 0; i < 60; i += 1) {
      await page.keyboard.press('Tab');
      if ((await focused.getAttribute('name')) === 'q') break;
    }
    await page.keyboard.type('north');
    await page.keyboard.press('Enter');
    await page.waitForURL(/q=north/);
    expect(page.url()).toContain('lang=en');
    expect(await page.locator('.sites > li').count()).toBe(1);
    expect(await page.locator('.needs').textContent()).toContain('A fire is open under STOP');
    await page.getByRole('searchbox').fill('nowhere');
    await page.keyboard.press('Enter');
    await page.waitForURL(/q=nowhere/);
    expect(await page.locator('.found').textContent()).toContain('No site is like that.');
    await page.context().close();
  });
});

async function shoot(page: Page, name: string): Promise<void> {
  mkdirSync(SHOTS, { recursive: true });
  for (const width of [390, 1280]) {
    await page.setViewportSize({ width, height: 844 });
    await page.screenshot({ path: `${SHOTS}${name}-${width}.png`, fullPage: true });
  }
}
