// The page of a day in a real browser, without script: every kind of day at every width, both looks, both languages.

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { hasBrowser, launch } from './browser.ts';
import { drawnDay, type LookName, lookNames } from './drawn-day.ts';
import { layoutOf } from './layout-faults.ts';

/** 195 px: a phone of 390 px at twice the size; 600 px: a desk of 1200 px likewise. */
const WIDTHS = [195, 320, 390, 600, 1200];
const PHONE = { width: 390, height: 844 };
/** Letter less its margins, at 96 px to the inch; A4 is narrower by 22 px and longer by 66. */
const SHEET = { width: 733, height: 980 };
const IN_ENGLISH = ['go', 'hold', 'stop', 'stale'] as const;
const AXE = fileURLToPath(import.meta.resolve('axe-core/axe.min.js'));

describe.skipIf(!hasBrowser)('the page of a day', { timeout: 90_000 }, () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await launch();
    page = await (await browser.newContext({ javaScriptEnabled: false, viewport: PHONE })).newPage();
  });
  afterAll(() => browser?.close());
  beforeEach(async () => {
    await page.setViewportSize(PHONE);
    await page.emulateMedia({ media: 'screen', colorScheme: 'light', forcedColors: 'none' });
  });

  /** Every kind of day in Spanish, which is the longer, and each state in English too. */
  const eachDay = async (work: (name: string, html: string) => Promise<void>): Promise<void> => {
    for (const name of lookNames) await work(`${name} es`, drawnDay(name, { language: 'es' }));
    for (const name of IN_ENGLISH) await work(name, drawnDay(name));
  };
  const styleOf = (selector: string, property: string): Promise<string[]> =>
    page
      .locator(selector)
      .evaluateAll(
        (all, name) => all.map((e) => e.ownerDocument.defaultView?.getComputedStyle(e)[name] ?? ''),
        property as 'fill',
      );

  it('scrolls nowhere sideways, cuts no word off and has nothing too small for a finger; a phone’s first screen holds answer, times and age', async () => {
    const faults: unknown[] = [];
    await eachDay(async (name, html) => {
      await page.setContent(html);
      for (const width of WIDTHS) {
        await page.setViewportSize({ ...PHONE, width });
        const { ageEndsAt, ...layout } = await layoutOf(page);
        if (layout.sideways > 0 || layout.small.length > 0 || layout.words.length > 0)
          faults.push({ name, width, ...layout });
        if (width === PHONE.width && ageEndsAt > PHONE.height) faults.push({ name, ageEndsAt });
      }
    });
    expect(faults).toEqual([]);
  });

  it('comes in one answer of at most 15 KB, and asks for nothing more', async () => {
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await eachDay(async (name, html) => {
      expect(gzipSync(html).length, name).toBeLessThanOrEqual(15 * 1024);
    });
    await page.setContent(drawnDay('go'));
    expect(asked).toEqual([]);
  });

  it('prints on one sheet of Letter or A4, in ink on white whatever the look', async () => {
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize(SHEET);
    const long: unknown[] = [];
    await eachDay(async (name, html) => {
      await page.setContent(html);
      const box = await page.locator('body').boundingBox();
      if (box === null || box.height > SHEET.height) long.push([name, box?.height]);
    });
    expect(long).toEqual([]);
    for (const name of ['stale', 'farNorthSummer'] as const) {
      await page.setContent(drawnDay(name, { language: 'es', look: 'night' }));
      expect(await styleOf('body', 'backgroundColor')).toEqual(['rgb(255, 255, 255)']);
      for (const format of ['Letter', 'A4']) {
        const pdf = (await page.pdf({ format })).toString('latin1');
        expect(pdf.match(/\/Type \/Page\b(?!s)/g), `${name} ${format}`).toHaveLength(1);
      }
    }
  });

  it('has nothing against it by axe, in either look and either language', async () => {
    const source = readFileSync(AXE, 'utf8');
    const held = async (name: LookName, look: 'day' | 'night', language: 'en' | 'es') => {
      const context = await browser.newContext({ viewport: PHONE });
      const scripted = await context.newPage();
      await scripted.setContent(drawnDay(name, { look, language }));
      await scripted.evaluate(source);
      const found = await scripted.evaluate(async () => {
        const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
        const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
        const { violations, passes } = await axe.run({ runOnly: tags, resultTypes: ['violations'] });
        return { rules: passes.length, against: violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`) };
      });
      await context.close();
      return { name, look, language, ...found };
    };
    const all = await Promise.all([
      held('go', 'day', 'en'),
      held('goToday', 'night', 'es'),
      held('missingLayer', 'day', 'es'),
      held('stale', 'night', 'en'),
    ]);
    expect(all.filter(({ against }) => against.length > 0)).toEqual([]);
    for (const { name, rules } of all) expect(rules, `rules that ${name} was held to`).toBeGreaterThan(20);
  });

  it('takes its look from the system unless the reader chose one, and keeps the choice in its links', async () => {
    const [DAY, NIGHT] = ['rgb(255, 255, 255)', 'rgb(13, 12, 10)'];
    for (const [colorScheme, look, ground] of [
      ['light', null, DAY],
      ['dark', null, NIGHT],
      ['dark', 'day', DAY],
      ['light', 'night', NIGHT],
    ] as const) {
      await page.emulateMedia({ colorScheme });
      await page.setContent(drawnDay('go', { look }));
      expect(await styleOf('body', 'backgroundColor'), `${colorScheme} ${look}`).toEqual([ground]);
      const other = ground === DAY ? 'Night look' : 'Day look';
      expect(await page.getByRole('link', { name: /look/ }).allTextContents()).toEqual([other]);
      const links = await page.locator('.week a').evaluateAll((a) => a.map((e) => e.getAttribute('href')));
      expect(links.length).toBe(7);
      if (look !== null) expect(links.every((href) => href?.includes(`look=${look}`))).toBe(true);
    }
  });

  it('keeps words, shapes and patterns where the system forces its colours', async () => {
    await page.emulateMedia({ forcedColors: 'active' });
    for (const name of ['go', 'hold', 'stop', 'stale'] as const) {
      await page.setContent(drawnDay(name));
      const inks = await styleOf('.call .v, .chip, .demo', 'color');
      const grounds = await styleOf('.call .v, .chip, .demo', 'backgroundColor');
      expect(inks.filter((ink, i) => ink === grounds[i])).toEqual([]);
      const patterned = await styleOf('.day .b-hold, .day .b-stop, .day .b-shut', 'fill');
      expect(patterned.length).toBeGreaterThan(0);
      expect(patterned.filter((fill) => !fill.includes('url'))).toEqual([]);
    }
  });

  it('is worked by the keyboard alone: what is closed opens, and where one is is seen', async () => {
    await page.setContent(drawnDay('go'));
    const summary = page.locator('summary').last();
    const isThere = () => summary.evaluate((e) => e === e.ownerDocument.activeElement);
    for (let i = 0; i < 40 && !(await isThere()); i += 1) await page.keyboard.press('Tab');
    expect(await styleOf('summary:focus', 'outlineStyle')).toEqual(['solid']);
    const hour = page.getByRole('rowheader', { name: '11:00 pm' });
    expect(await hour.isVisible()).toBe(false);
    await page.keyboard.press('Enter');
    expect(await hour.isVisible()).toBe(true);
  });
});
