// The page of a past day in a real browser: without script, at every width, in both looks and languages, and on paper.

import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startWatchedDemo, type WatchedDemo } from '../service/watch/watched-demo.ts';
import { heldToAxe } from './axe.ts';
import { hasBrowser, launch } from './browser.ts';
import { sidewaysOf, smallOf } from './sizes.ts';

const SHOTS = fileURLToPath(new URL('../../.tmp-looks/', import.meta.url));
const PATH = '/sites/north-block/history?day=2026-04-14';

describe.skipIf(!hasBrowser)('the page of a past day', { timeout: 90_000 }, () => {
  let demo: WatchedDemo;
  let browser: Browser;
  let base = '';
  beforeAll(async () => {
    demo = await startWatchedDemo('2026-04-14T00:06:00Z');
    await demo.minute();
    demo.clock.nowMs = Date.parse('2026-04-14T17:00:00Z');
    await demo.service.keeper.pullAll();
    await demo.reads();
    await demo.lights();
    for (let i = 0; i < 5; i += 1) {
      demo.pass(5);
      await demo.reads({ fromDeg: 290, mph: 20 });
      await demo.minute();
    }
    base = await demo.service.app.listen({ host: '127.0.0.1', port: 0 });
    browser = await launch();
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    await demo?.close();
  });

  const open = async (path: string): Promise<Page> => {
    const context = await browser.newContext({
      javaScriptEnabled: false,
      viewport: { width: 390, height: 844 },
    });
    const page = await context.newPage();
    expect((await page.goto(`${base}${path}`))?.status()).toBe(200);
    return page;
  };

  it('scrolls nowhere sideways and has nothing too small for a finger', async () => {
    for (const path of [PATH, `${PATH}&lang=es&look=night`, '/sites/north-block/history?day=2019-03-01']) {
      const page = await open(path);
      for (const width of [320, 390, 1280]) {
        await page.setViewportSize({ width, height: 844 });
        expect([path, width, await sidewaysOf(page), await smallOf(page)]).toEqual([path, width, 0, []]);
      }
      if (process.env['PITWARD_LOOKS']) {
        mkdirSync(SHOTS, { recursive: true });
        for (const width of [390, 1280]) {
          await page.setViewportSize({ width, height: 844 });
          const name = path.includes('2019') ? 'gone' : path.slice(PATH.length).replaceAll(/\W+/g, '-');
          await page.screenshot({ path: `${SHOTS}history${name}-${width}.png`, fullPage: true });
        }
      }
      await page.context().close();
    }
  });

  it('has nothing against it by axe, in both looks and both languages', async () => {
    for (const query of ['look=day&at=10:40', 'look=night&lang=es']) {
      const { rules, against } = await heldToAxe(browser, `${base}${PATH}&${query}`);
      expect([query, against]).toEqual([query, []]);
      expect(rules).toBeGreaterThan(20);
    }
  });

  it('another time of the day is chosen by the keyboard alone, and the choices are kept', async () => {
    const page = await open(`${PATH}&lang=es`);
    await page.locator('input[type=time]').fill('10:10');
    await page.locator('input[type=time]').press('Enter');
    await page.waitForURL(/at=10/);
    expect(page.url()).toContain('lang=es');
    expect(await page.locator('main').textContent()).toContain('Como se sabía a las 10:10 am');
    await page.context().close();
  });
});
