// The board in a browser: without script, by keyboard, at every width, in both looks and languages. Drawn to be looked at
// where PITWARD_LOOKS says so.

import { mkdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Running } from '../service/running.ts';
import { startBoardScene } from './board-scene.ts';
import { hasBrowser, launch } from './browser.ts';
import { layoutOf } from './layout-faults.ts';

const AXE = fileURLToPath(import.meta.resolve('axe-core/axe.min.js'));
const SHOTS = fileURLToPath(new URL('../../.tmp-looks/', import.meta.url));
const draws = process.env['PITWARD_LOOKS'] === 'board';
const LOOKS = ['day', 'night'] as const;
const LANGUAGES = ['en', 'es'] as const;
const ASKED = 'at=36.42,-120.13';

describe.skipIf(!hasBrowser)('the board in a browser', { timeout: 120_000 }, () => {
  let running: Running;
  let browser: Browser;
  let base = '';
  beforeAll(async () => {
    running = await startBoardScene();
    base = await running.service.app.listen({ host: '127.0.0.1', port: 0 });
    browser = await launch();
    mkdirSync(SHOTS, { recursive: true });
  });
  afterAll(async () => {
    await browser?.close();
    await running?.close();
  });

  const open = async (query: string, width = 390, script = false): Promise<Page> => {
    const context = await browser.newContext({
      javaScriptEnabled: script,
      bypassCSP: script,
      viewport: { width, height: 844 },
    });
    const page = await context.newPage();
    const answer = await page.goto(`${base}/board?${query}`);
    expect(answer?.status()).toBe(200);
    return page;
  };

  it('scrolls sideways at no width, and has no target that a glove misses', async () => {
    const page = await open(ASKED);
    for (const look of LOOKS) {
      for (const language of LANGUAGES) {
        await page.goto(`${base}/board?${ASKED}&look=${look}&lang=${language}`);
        for (const width of [320, 390, 1280]) {
          await page.setViewportSize({ width, height: 844 });
          const { sideways, small } = await layoutOf(page);
          expect([sideways, small], `${look} ${language} ${width}`).toEqual([0, []]);
          if (draws)
            await page.screenshot({ path: `${SHOTS}board-${look}-${language}-${width}.png`, fullPage: true });
        }
      }
    }
    await page.context().close();
  });

  it('has nothing against it by axe, in either look and either language', async () => {
    const page = await open(ASKED, 390, true);
    // Colours are those of the look, words those of the language: each is seen once.
    const looks = ['look=day&lang=en', 'look=night&lang=es'];
    const asked = looks.map((look) => `${ASKED}&${look}`);
    for (const query of [...asked, 'at=nowhere&time=', 'every=60']) {
      await page.goto(`${base}/board?${query}`);
      await page.addScriptTag({ content: readFileSync(AXE, 'utf8') });
      const { violations, passes } = await page.evaluate(async () => {
        const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
        const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
        return axe.run({ runOnly: tags, resultTypes: ['violations'] });
      });
      expect(
        violations.map(({ id, nodes }) => `${id}: ${nodes.map((n) => n.html).join(' | ')}`),
        query,
      ).toEqual([]);
      expect(passes.length).toBeGreaterThan(20);
    }
    await page.context().close();
  });

  it('is asked with the keyboard alone, and the answer comes with an address', async () => {
    const page = await open('lang=en', 1280);
    const at = page.getByLabel('Where it is seen');
    for (let i = 0; i < 80 && !(await at.evaluate((input) => input.matches(':focus'))); i += 1)
      await page.keyboard.press('Tab');
    await page.keyboard.type('36.42, -120.13');
    await page.keyboard.press('Enter');
    await page.waitForURL(/at=36\.42%2C\+-120\.13/);
    expect(await page.getByRole('heading', { name: /Its smoke went there/ }).isVisible()).toBe(true);
    expect(await page.getByText('Cannot be excluded').isVisible()).toBe(true);
    await page.context().close();
  });

  it('in forced colours the map keeps its lines, signs and fans apart from the ground', async () => {
    const page = await open(ASKED, 1280);
    await page.emulateMedia({ forcedColors: 'active' });
    const drawn = await page.locator('.map').evaluate((map) => {
      const style = (selector: string) => {
        const element = map.querySelector(selector);
        return element && map.ownerDocument.defaultView?.getComputedStyle(element);
      };
      const ground = map.ownerDocument.defaultView?.getComputedStyle(map.ownerDocument.body).backgroundColor;
      const strokes = ['.lines', '.fan', '.ring', 'use', '.edge', '.bar path'].map(
        (one) => style(one)?.stroke,
      );
      return { ground, strokes };
    });
    for (const stroke of drawn.strokes) expect([undefined, 'none', drawn.ground]).not.toContain(stroke);
    if (draws) await page.screenshot({ path: `${SHOTS}board-forced.png`, fullPage: true });
    await page.context().close();
  });

  it('prints without what only a screen can do, the map with it', async () => {
    const page = await open(ASKED, 725);
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByRole('button').isVisible()).toBe(false);
    expect(await page.locator('.map svg').isVisible()).toBe(true);
    expect((await layoutOf(page)).sideways).toBe(0);
    if (draws) await page.screenshot({ path: `${SHOTS}board-print.png`, fullPage: true });
    await page.context().close();
  });

  it('says how old it is as it grows old, though no script runs', async () => {
    const page = await open('lang=en');
    const shown = () =>
      page
        .locator('.aging')
        .evaluateAll((all) =>
          all
            .filter((one) => one.ownerDocument.defaultView?.getComputedStyle(one).visibility === 'visible')
            .map((one) => one.getAttribute('data-t')),
        );
    expect(await shown()).toEqual([]);
    const pass = (s: number) =>
      page.locator('html').evaluate((html, ms) => {
        for (const animation of html.ownerDocument.getAnimations()) animation.currentTime = ms;
      }, s * 1000);
    await pass(61);
    expect(await shown()).toEqual(['More than a minute old by now.']);
    await pass(301);
    expect((await shown()).at(-1)).toBe('More than five minutes old by now: refresh it.');
    await pass(1801);
    expect((await shown()).at(-1)).toBe('More than half an hour old: do not go by it.');
    await page.context().close();
  });
});
