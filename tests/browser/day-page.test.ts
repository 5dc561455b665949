// The page of a day in a real browser, without script: every kind of day at every width, both looks, both languages.

import { mkdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sitePage } from '#publish/page/site-page.ts';
import { type Story, siteView } from '../publish/page/invented-days.ts';
import { LOOKS } from '../publish/page/looks.ts';
import { hasBrowser, launch } from './browser.ts';
import { layoutOf } from './layout-faults.ts';

const names = Object.keys(LOOKS) as (keyof typeof LOOKS)[];
/** Where every kind of day is drawn for whoever wants to look. */
const SHOTS = fileURLToPath(new URL('../../.tmp-looks/', import.meta.url));
const AXE = fileURLToPath(import.meta.resolve('axe-core/axe.min.js'));

interface Wanted {
  readonly language?: 'en' | 'es';
  readonly look?: 'day' | 'night' | null;
}

/** Made once each: planning a day takes longer than drawing it. */
const made = new Map<string, string>();
function htmlOf(name: keyof typeof LOOKS, { language = 'en', look = null }: Wanted = {}): string {
  const key = `${name} ${language} ${look}`;
  const story: Story = { ...LOOKS[name], language };
  const known = made.get(key);
  if (known !== undefined) return known;
  const view = siteView(story);
  const page = sitePage({
    ...view,
    query: { ...view.query, lang: language, ...(look === null ? {} : { look }) },
  });
  made.set(key, page);
  return page;
}

describe.skipIf(!hasBrowser)('the page of a day', { timeout: 120_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  async function withPage<T>(options: BrowserContextOptions, work: (page: Page) => Promise<T>): Promise<T> {
    const context = await browser.newContext({
      javaScriptEnabled: false,
      viewport: { width: 390, height: 844 },
      ...options,
    });
    try {
      return await work(await context.newPage());
    } finally {
      await context.close();
    }
  }

  it.each(['en', 'es'] as const)(
    'in %s has answer, times and age on the first screen of a phone',
    async (language) => {
      await withPage({}, async (page) => {
        for (const name of names) {
          await page.setContent(htmlOf(name, { language }));
          const { ageEndsAt } = await layoutOf(page);
          expect(ageEndsAt, name).toBeLessThanOrEqual(844);
        }
      });
    },
  );

  // 195 px: a phone of 390 px at twice the size; 600 px: a desk of 1200 px likewise.
  it.each([195, 320, 390, 600, 1200])(
    'at %i px scrolls nowhere sideways, cuts no word off, and has nothing too small for a finger',
    async (width) => {
      await withPage({ viewport: { width, height: 844 } }, async (page) => {
        for (const [i, name] of names.entries()) {
          const language = i % 2 === 0 ? 'en' : 'es';
          await page.setContent(htmlOf(name, { language }));
          const { sideways, small, words } = await layoutOf(page);
          expect({ sideways, small, words }, `${name} ${language}`).toEqual({
            sideways: 0,
            small: [],
            words: [],
          });
        }
      });
    },
  );

  it.each([
    ['go', 'day', 'en'],
    ['go', 'night', 'en'],
    ['go', 'day', 'es'],
    ['go', 'night', 'es'],
    ['stop', 'night', 'es'],
    ['stale', 'day', 'en'],
    ['missingLayer', 'night', 'en'],
    ['longNames', 'day', 'es'],
  ] as const)('axe finds nothing against it: %s, %s, %s', async (name, look, language) => {
    const source = readFileSync(AXE, 'utf8');
    const violations = await withPage({ javaScriptEnabled: true }, async (page) => {
      await page.setContent(htmlOf(name, { look, language }));
      await page.evaluate(source);
      return page.evaluate(async () => {
        const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
        const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
        const found = await axe.run({ runOnly: tags, resultTypes: ['violations'] });
        return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
      });
    });
    expect(violations).toEqual([]);
  });

  it('takes its look from the system unless the reader chose one, and keeps the choice in its links', async () => {
    const groundOf = (page: Page): Promise<string> =>
      page
        .locator('body')
        .evaluate((b) => b.ownerDocument.defaultView?.getComputedStyle(b).backgroundColor ?? '');
    const [DAY, NIGHT] = ['rgb(255, 255, 255)', 'rgb(13, 12, 10)'];
    for (const [colorScheme, look, ground] of [
      ['light', null, DAY],
      ['dark', null, NIGHT],
      ['dark', 'day', DAY],
      ['light', 'night', NIGHT],
    ] as const) {
      await withPage({ colorScheme }, async (page) => {
        await page.setContent(htmlOf('go', { look }));
        expect(await groundOf(page), `${colorScheme} ${look}`).toBe(ground);
        const other = ground === DAY ? 'Night look' : 'Day look';
        expect(await page.getByRole('link', { name: /look/ }).allTextContents()).toEqual([other]);
        if (look === null) return;
        const links = await page.locator('.week a').evaluateAll((a) => a.map((e) => e.getAttribute('href')));
        expect(links.every((href) => href?.includes(`look=${look}`))).toBe(true);
      });
    }
  });

  it('keeps words, shapes and patterns where the system forces its colours', async () => {
    await withPage({ forcedColors: 'active' }, async (page) => {
      for (const name of ['go', 'hold', 'stop', 'stale'] as const) {
        await page.setContent(htmlOf(name));
        const seen = await page.locator('.call .v, .chip, .demo').evaluateAll((all) =>
          all.map((e) => {
            const style = e.ownerDocument.defaultView?.getComputedStyle(e);
            return { color: style?.color, ground: style?.backgroundColor };
          }),
        );
        expect(seen.filter(({ color, ground }) => color === ground)).toEqual([]);
        const fills = await page
          .locator('.day rect.b-go, .day rect.b-hold, .day rect.b-stop, .day rect.b-shut')
          .evaluateAll((all) => [
            ...new Set(
              all.map(
                (e) => `${e.getAttribute('class')} ${e.ownerDocument.defaultView?.getComputedStyle(e).fill}`,
              ),
            ),
          ]);
        const [plain, patterned] = [
          fills.filter((f) => f.startsWith('b-go')),
          fills.filter((f) => !f.startsWith('b-go')),
        ];
        expect(plain.every((f) => !f.includes('url'))).toBe(true);
        expect(patterned.length > 0 && patterned.every((f) => f.includes('url'))).toBe(true);
      }
    });
  });

  it('is worked by the keyboard alone: what is closed opens, and where one is is seen', async () => {
    await withPage({}, async (page) => {
      await page.setContent(htmlOf('go'));
      const summary = page.locator('summary').last();
      for (let i = 0; i < 40 && !(await summary.evaluate((e) => e === e.ownerDocument.activeElement)); i += 1)
        await page.keyboard.press('Tab');
      const outline = await summary.evaluate(
        (e) => e.ownerDocument.defaultView?.getComputedStyle(e).outlineStyle,
      );
      expect(outline).toBe('solid');
      expect(await page.getByRole('rowheader', { name: '11:00 pm' }).isVisible()).toBe(false);
      await page.keyboard.press('Enter');
      expect(await page.getByRole('rowheader', { name: '11:00 pm' }).isVisible()).toBe(true);
    });
  });

  // PITWARD_LOOKS=all draws every width, look and language: to be looked at, not compared.
  it('is drawn for whoever wants to look at it', async () => {
    mkdirSync(SHOTS, { recursive: true });
    const isAll = process.env['PITWARD_LOOKS'] === 'all';
    const widths = isAll ? [320, 390, 1200] : [390];
    for (const width of widths) {
      await withPage({ viewport: { width, height: 844 } }, async (page) => {
        for (const [i, name] of names.entries()) {
          for (const look of isAll
            ? (['day', 'night'] as const)
            : ([i % 2 === 0 ? 'day' : 'night'] as const)) {
            for (const language of isAll ? (['en', 'es'] as const) : ([i % 4 < 2 ? 'en' : 'es'] as const)) {
              await page.setContent(htmlOf(name, { look, language }));
              const shot = await page.screenshot({
                path: `${SHOTS}${name}-${look}-${language}-${width}.png`,
                fullPage: true,
              });
              expect(shot.length).toBeGreaterThan(10_000);
            }
          }
        }
      });
    }
  });
});
