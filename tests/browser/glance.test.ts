// The glance in a real browser without script, through a burn: legible, large enough for gloves, and worked by its forms.

import { mkdirSync } from 'node:fs';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TEN, TURNED } from '../service/watch/start-burning.ts';
import { startWatchedDemo, type WatchedDemo } from '../service/watch/watched-demo.ts';
import { hasBrowser, launch } from './browser.ts';
import { heldByAxe } from './held-by-axe.ts';

const PHONE = { width: 390, height: 844 };
/** Runs in the browser. */
function layoutOf(html: Drawn) {
  const small = [...html.querySelectorAll('button, a, summary, input:not([type=hidden])')]
    .map((e) => ({ text: e.textContent, box: e.getBoundingClientRect() }))
    .filter(({ box }) => box.width > 0 && (box.height < 43.9 || box.width < 43.9));
  return { sideways: html.scrollWidth - html.clientWidth, small };
}

/** What is asked of an element; the program itself knows no document. */
interface Drawn {
  readonly textContent: string | null;
  readonly scrollWidth: number;
  readonly clientWidth: number;
  querySelectorAll(selector: string): Iterable<Drawn>;
  getBoundingClientRect(): { readonly width: number; readonly height: number };
}

const LOOKS = process.env['PITWARD_LOOKS'] ? '.tmp-looks' : null;

describe.skipIf(!hasBrowser)('the glance in a browser without script', { timeout: 90_000 }, () => {
  let demo: WatchedDemo;
  let browser: Browser;
  let base = '';
  beforeAll(async () => {
    demo = await startWatchedDemo(TEN);
    await demo.reads();
    base = await demo.service.app.listen({ host: '127.0.0.1', port: 0 });
    browser = await launch();
    if (LOOKS) mkdirSync(LOOKS, { recursive: true });
  });
  afterAll(async () => {
    await browser?.close();
    await demo?.close();
  });

  const withPage = async <T>(
    options: BrowserContextOptions,
    work: (page: Page) => Promise<T>,
  ): Promise<T> => {
    const context = await browser.newContext({ viewport: PHONE, javaScriptEnabled: false, ...options });
    try {
      return await work(await context.newPage());
    } finally {
      await context.close();
    }
  };

  type Shown = readonly [look: 'day' | 'night', lang: 'en' | 'es'];
  /** Colours are those of the look, words those of the language: each is seen once. */
  const ALL: readonly Shown[] = [
    ['day', 'en'],
    ['night', 'es'],
  ];

  /** Of the layout at three widths, and by axe. */
  async function faultsOf(name: string, shown: readonly Shown[]): Promise<unknown[]> {
    const urlOf = ([look, lang]: Shown) => `${base}/sites/north-block/now?look=${look}&lang=${lang}`;
    const layout = await withPage({}, async (page) => {
      const faults: unknown[] = [];
      for (const one of shown) {
        await page.goto(urlOf(one));
        for (const width of [320, 390, 1280]) {
          await page.setViewportSize({ ...PHONE, width });
          const found = await page.locator('html').evaluate(layoutOf);
          if (found.sideways > 0 || found.small.length > 0) faults.push({ name, one, width, ...found });
          if (LOOKS && width > 320)
            await page.screenshot({ path: `${LOOKS}/glance-${name}-${one.join('-')}-${width}.png` });
        }
      }
      return faults;
    });
    const byAxe = await withPage({ javaScriptEnabled: true, bypassCSP: true }, async (page) => {
      const faults: unknown[] = [];
      for (const one of shown) {
        await page.goto(urlOf(one));
        const { rules, against } = await heldByAxe(page);
        expect(rules).toBeGreaterThan(15);
        if (against.length > 0) faults.push({ name, one, against });
      }
      return faults;
    });
    return [...layout, ...byAxe];
  }

  it('is legible and whole in every state of a burn, in both looks and languages', async () => {
    const faults = await faultsOf('go', ALL);
    await demo.lights();
    await demo.minute();
    demo.pass(5);
    await demo.reads(TURNED);
    await demo.tells();
    faults.push(...(await faultsOf('stop', ALL)));
    demo.pass(60);
    faults.push(...(await faultsOf('unsaid', ALL)));
    expect(faults).toEqual([]);
  });

  it('has the word at 96 px on a phone, and what is pressed at 64 px', async () => {
    demo.pass(5);
    await demo.reads(TURNED);
    await demo.minute();
    await withPage({}, async (page) => {
      await page.goto(`${base}/sites/north-block/now`);
      const size = await page
        .locator('.big .w')
        .evaluate((word) =>
          Number.parseFloat(word.ownerDocument.defaultView?.getComputedStyle(word).fontSize ?? ''),
        );
      expect(size).toBeGreaterThanOrEqual(95);
      expect((await page.getByText('STOP').first().boundingBox())?.y).toBeLessThan(400);
      for (const name of ['I have seen this', 'Put out early']) {
        const box = await page.getByRole('button', { name, exact: true }).boundingBox();
        expect(box?.height, name).toBeGreaterThanOrEqual(64);
      }
      const seen = await page.getByRole('button', { name: 'I have seen this' }).boundingBox();
      expect((seen?.y ?? 0) + (seen?.height ?? 0), 'on the first screen').toBeLessThanOrEqual(PHONE.height);
    });
  });

  it('is worked by the keyboard alone: name, tap, and "I have seen this"', async () => {
    await withPage({}, async (page) => {
      await page.goto(`${base}/sites/north-block/now`);
      const focus = async (label: string) => {
        for (let i = 0; i < 30; i += 1) {
          await page.keyboard.press('Tab');
          const at = page.locator(':focus');
          if ((await at.textContent()) === label || (await at.getAttribute('id')) === label) return;
        }
        throw new Error(`${label} is not reached`);
      };
      await focus('I have seen this');
      await page.keyboard.press('Enter');
      await page.getByText('Seen by this machine.').waitFor();
      await focus('Put out early');
      await page.keyboard.press('Enter');
      await page.getByRole('button', { name: 'Covered' }).first().waitFor();
      const { body } = await demo.api('GET', '/v1/sites/north-block/now');
      expect((body['burn'] as { state: string }).state).toBe('put-out-early');
    });
  });
});
