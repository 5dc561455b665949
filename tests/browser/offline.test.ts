// A phone at a pit without signal, in a real browser: copies that say that they are copies and withdraw their own go, taps
// that wait and arrive once, and a new version that is there at the next visit with signal.

import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { TEN } from '../service/watch/start-burning.ts';
import { SITE, startWatchedDemo, type WatchedDemo } from '../service/watch/watched-demo.ts';
import { hasBrowser, launch } from './browser.ts';
import { heldByAxe } from './held-by-axe.ts';
import { askAgain, cacheNames, isKept, keptAt, makeOlder } from './phone-caches.ts';
import { type ShakyLine, startShakyLine } from './shaky-line.ts';

const GLANCE = '/sites/north-block/now';
const DAY = '/sites/north-block';
const TOMORROW = `${DAY}?day=tomorrow`;
const MINUTE = 60_000;

/** Of what a browser does by itself, on a machine that may be busy. */
const soon = <T>(look: () => T) => expect.poll(look, { timeout: 30_000 });

describe.skipIf(!hasBrowser)('a phone without signal', { timeout: 120_000 }, () => {
  let browser: Browser;
  let demo: WatchedDemo;
  let line: ShakyLine;
  let context: BrowserContext;
  let page: Page;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());
  beforeEach(async () => {
    demo = await startWatchedDemo(TEN);
    await demo.reads();
    line = await startShakyLine(demo.service.app);
    context = await browser.newContext({ viewport: { width: 390, height: 844 } });
    page = await context.newPage();
  });
  afterEach(async () => {
    await context?.close();
    await line?.close();
    await demo?.close();
  });

  /** Opens pages with signal and waits until their copies are there. */
  async function visit(...paths: string[]): Promise<void> {
    for (const path of paths) {
      await page.goto(line.base + path);
      await soon(() => isKept(page, line.base + path)).toBe(true);
    }
  }

  /**
   * The same, and leaves them for the day, which asks for nothing by itself: whatever the others had asked for is kept, or
   * overtaken. A late answer would be as new as it is.
   */
  async function visitAndLeave(...paths: string[]): Promise<void> {
    await visit(...paths);
    await page.goto(line.base + DAY);
    for (const path of new Set([...paths, DAY])) {
      const askedAtMs = await askAgain(page, line.base + path);
      await soon(() => keptAt(page, line.base + path)).toBeGreaterThanOrEqual(askedAtMs);
    }
  }

  const ages = (ms: number): Promise<void> => makeOlder(page, ms);
  const tapsOf = async () => {
    const { body } = await demo.api('GET', `${SITE}/burns`);
    const burns = body['burns'] as {
      taps: { tap: string; tappedAt: string; by: string; note: string; from: string }[];
    }[];
    return burns.flatMap(({ taps }) => taps);
  };
  const press = (name: string) => page.getByRole('button', { name, exact: true }).first().click();
  const queue = () => page.locator('#queue');
  const isVoid = () => page.locator('.if-void').isVisible();

  it('opens the day and the glance from their copies, marked as copies before anything else, and nothing else', async () => {
    await visitAndLeave(DAY, GLANCE);
    expect(await page.locator('.if-copy').isVisible(), 'with signal').toBe(false);
    await line.cut();
    await ages(5 * MINUTE);
    for (const path of [DAY, GLANCE]) {
      await page.goto(line.base + path);
      const copy = page.locator('.if-copy');
      expect(await copy.textContent()).toMatch(
        /A copy kept on this phone\. The server wrote it Tue, Apr 14, 10:00 am, site time\. It is 5 min old\./,
      );
      expect((await copy.boundingBox())?.y, 'at the top').toBeLessThan(20);
      expect(await isVoid()).toBe(false);
      expect(await page.getByText('GO', { exact: true }).first().isVisible()).toBe(true);
    }
    const other = await page.goto(`${line.base}/sites/creek-block`);
    expect(other?.status()).toBe(503);
    expect(await page.locator('main').textContent()).toMatch(
      /No copy of this page.*CAN'T SAY.*do not light/s,
    );
    expect(await heldByAxe(page)).toMatchObject({ against: [] });
  });

  it('withdraws the go of a copy at its time, whether the page is opened after it or stays open', async () => {
    await visitAndLeave(DAY, TOMORROW, GLANCE);
    await line.cut();
    // What stands now is good for ten minutes, on either page; another day as long as its forecast.
    await ages(11 * MINUTE);
    await page.goto(line.base + GLANCE);
    expect([await isVoid(), await page.locator('.big').isVisible()]).toEqual([true, false]);
    expect(await page.locator('.if-copy').textContent()).toContain('It is 11 min old.');
    await page.goto(line.base + DAY);
    expect([await isVoid(), await page.locator('.call').isVisible()]).toEqual([true, false]);
    await page.goto(line.base + TOMORROW);
    expect([await isVoid(), await page.locator('.call').isVisible()]).toEqual([false, true]);
    await ages(24 * 60 * MINUTE);
    await page.goto(line.base + TOMORROW);
    expect([await isVoid(), await page.locator('.call').isVisible()]).toEqual([true, false]);
    expect((await heldByAxe(page)).against).toEqual([]);
  });

  it('withdraws it on a page that stays open, by the time that passes and not by the clock of the phone', async () => {
    await page.clock.install();
    await page.goto(line.base + GLANCE);
    await page.locator('#sound').waitFor();
    await line.cut();
    await page.clock.fastForward(9 * MINUTE);
    expect([await isVoid(), await page.locator('.big').isVisible()]).toEqual([false, true]);
    await page.clock.fastForward(2 * MINUTE);
    await page.locator('.if-void').waitFor();
    expect(await page.locator('.big').isVisible()).toBe(false);
    await page.getByText('this page is 11 min old').waitFor();
  });

  it('gives no go where it cannot tell how old a copy is: the clock of the phone was set back', async () => {
    await visitAndLeave(GLANCE);
    await line.cut();
    await ages(-60 * MINUTE);
    await page.goto(line.base + GLANCE);
    expect(await isVoid()).toBe(true);
    expect(await page.locator('.if-copy').textContent()).toContain('cannot tell how old it is');
  });

  it('keeps taps, shows that they wait, and sends each once with its own time when the server is back', async () => {
    await visitAndLeave(GLANCE);
    await line.cut();
    await ages(5 * MINUTE);
    await page.goto(line.base + GLANCE);
    await page.getByLabel('Who taps').fill('Ana');
    await press('Lit');
    await queue().getByText('1 tap waits for signal: Lit.').waitFor();
    await press('Charging');
    await queue().getByText('2 taps wait for signal: Lit, Charging.').waitFor();
    expect(await tapsOf()).toEqual([]);
    await line.mend();
    demo.pass(30);
    await page.goto(line.base + GLANCE);
    await page.getByRole('button', { name: 'Burning down', exact: true }).first().waitFor();
    // The place is empty, too, for a moment after a page was swapped.
    await soon(async () => (await tapsOf()).length).toBe(2);
    await soon(async () => (await queue().textContent())?.trim()).toBe('');
    const taps = await tapsOf();
    expect(taps.map(({ tap, by, from }) => [tap, by, from])).toEqual([
      ['lit', 'Ana', 'phone'],
      ['charging', 'Ana', 'phone'],
    ]);
    // Five minutes after the page was written, by the server's clock; the phone's is months ahead of it.
    for (const { tappedAt, note } of taps) {
      expect(tappedAt).toMatch(/^2026-04-14T10:05:/);
      expect(note).toMatch(
        /^time by the server's clock when last heard; the phone's clock was \d+ min ahead$/,
      );
    }
  });

  it('sends them from whichever page is opened next, though the one on which they were tapped was closed', async () => {
    await visit(DAY, GLANCE);
    await line.cut();
    await press('Lit');
    await queue().getByText('1 tap waits for signal').waitFor();
    await page.close();
    await line.mend();
    page = await context.newPage();
    await page.goto(line.base + DAY);
    await soon(async () => (await tapsOf()).map(({ tap }) => tap)).toEqual(['lit']);
  });

  it('counts a tap once whose answer was lost after the server had written it', async () => {
    await visit(GLANCE);
    line.lose = /^POST /;
    await press('Lit');
    await soon(async () => (await tapsOf()).length).toBe(1);
    await queue().getByText('1 tap waits for signal').waitFor();
    line.lose = null;
    await page.reload();
    const posts = () => line.asked.filter((one) => one === 'POST /v1/sites/north-block/burns').length;
    await soon(posts).toBeGreaterThan(1);
    await soon(async () => (await queue().textContent())?.trim()).toBe('');
    expect((await tapsOf()).map(({ tap }) => tap)).toEqual(['lit']);
  });

  it('shows a tap that was refused with its reason until somebody has read it, and sends those after it', async () => {
    await visit(GLANCE);
    const detail = 'at: lies more than 7 days in the past';
    let refused = 0;
    line.instead = (asked) => {
      if (asked !== 'POST /v1/sites/north-block/burns' || refused > 0) return null;
      refused += 1;
      return { status: 400, body: JSON.stringify({ detail }) };
    };
    await press('Lit');
    await queue().getByText(`Not taken: Lit. ${detail}`).waitFor();
    await page.reload();
    await queue().getByText(detail).waitFor();
    await press('Lit');
    await soon(async () => (await tapsOf()).length).toBe(1);
    await queue().getByRole('button', { name: 'I have read this' }).click();
    await soon(async () => (await queue().textContent())?.trim()).toBe('');
  });

  it('keeps taps through a sign-in that has ended meanwhile, and says so', async () => {
    await visit(GLANCE);
    line.instead = (asked) => (asked.startsWith('POST') ? { status: 401, body: '{}' } : null);
    await press('Lit');
    await queue().getByText('Sign in again to send them; they are kept.').waitFor();
    line.instead = () => null;
    await page.reload();
    await soon(async () => (await tapsOf()).length).toBe(1);
  });

  it('shows no page and sends no tap of one reader as another’s', async () => {
    await visit(DAY, GLANCE);
    await line.cut();
    await press('Lit');
    await queue().getByText('1 tap waits for signal').waitFor();
    // Somebody else has signed in: the server refuses what was tapped by another.
    line.instead = (asked) => (asked.startsWith('POST') ? { status: 401, body: '{}' } : null);
    line.change = (_path, body) => body.replace(/data-reader="[^"]*"/, 'data-reader="somebody-else"');
    await line.mend();
    await page.goto(line.base + GLANCE);
    await queue().getByText('1 tap waits for signal of another sign-in').waitFor();
    expect(await tapsOf()).toEqual([]);
    await soon(() => isKept(page, line.base + DAY)).toBe(false);
    await line.cut();
    expect((await page.goto(line.base + DAY))?.status(), 'the copy of the other is gone').toBe(503);
    line.change = (_path, body) => body;
    line.instead = () => null;
    await line.mend();
    await page.goto(line.base + GLANCE);
    await soon(async () => (await tapsOf()).length).toBe(1);
  });

  it('has a new version at the next visit with signal, and no copy of the old one', async () => {
    await visit(DAY, GLANCE);
    line.change = (path, body) =>
      path === '/sw.js' ? body.replace(/^const VERSION="[^"]*"/, 'const VERSION="next"') : body;
    await page.goto(line.base + DAY);
    await soon(() => cacheNames(page)).toEqual(['pitward-next']);
    await soon(() => isKept(page, line.base + DAY)).toBe(true);
    await line.cut();
    expect((await page.goto(line.base + DAY))?.status()).toBe(200);
    expect((await page.goto(line.base + GLANCE))?.status()).toBe(503);
  });

  it('is the page of now wherever the server answers', async () => {
    await visit(DAY, GLANCE);
    demo.pass(7);
    for (const path of [GLANCE, DAY]) {
      await page.goto(line.base + path);
      expect(await page.locator('.if-copy').isVisible()).toBe(false);
      expect(await page.locator('html').getAttribute('data-copy')).toBeNull();
    }
    expect(await page.locator('body').getAttribute('data-now')).toBe(String(demo.clock.nowMs));
  });
});
