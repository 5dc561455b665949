// The glance with its script, in a real browser: it follows the stream, asks anew where that breaks, keeps the screen awake
// while a pit burns, and sounds when it gets worse.

import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { TEN, TURNED } from '../service/watch/start-burning.ts';
import { startWatchedDemo, type WatchedDemo } from '../service/watch/watched-demo.ts';
import { hasBrowser, launch } from './browser.ts';
import { heldByAxe } from './held-by-axe.ts';
import { type ShakyLine, startShakyLine } from './shaky-line.ts';

const GLANCE = '/sites/north-block/now';

/** What the browser was asked to do, noted by its own stand-ins. */
const NOTED = `
globalThis.noted = { awake: 0, released: 0, tones: 0 };
Object.defineProperty(navigator, 'wakeLock', { value: { request: async () => {
  noted.awake += 1;
  return { released: false, async release() { this.released = true; noted.released += 1; } };
} } });
globalThis.AudioContext = class {
  currentTime = 0;
  destination = {};
  createOscillator() { return { frequency: {}, connect() {}, start() { noted.tones += 1; }, stop() {} }; }
  async close() {}
};`;

describe.skipIf(!hasBrowser)('the glance with its script', { timeout: 120_000 }, () => {
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
    await page.addInitScript(NOTED);
  });
  afterEach(async () => {
    await context?.close();
    await line?.close();
    await demo?.close();
  });

  const noted = () =>
    page.evaluate(
      () => (globalThis as unknown as { noted: Record<'awake' | 'released' | 'tones', number> }).noted,
    );
  const soon = <T>(look: () => T) => expect.poll(look, { timeout: 30_000 });
  /** Begins when the stream is heard: what changes from then on is told by it. */
  async function open(): Promise<void> {
    await page.goto(line.base + GLANCE);
    await soon(() => demo.service.streams.count()).toBe(1);
  }

  it('shows a change when the stream tells it, and what a person types meanwhile stays', async () => {
    await open();
    await page.getByLabel('Who taps').fill('An');
    await demo.lights();
    await demo.service.streams.tick();
    await page.getByRole('button', { name: 'Charging', exact: true }).first().waitFor();
    expect(await page.getByLabel('Who taps').inputValue()).toBe('An');
    expect(await page.evaluate('document.activeElement.id')).toBe('by');
    await demo.minute();
    demo.pass(5);
    await demo.reads(TURNED);
    await demo.service.streams.tick();
    await page.locator('.big.stop').waitFor();
    expect(await page.title()).toMatch(/^STOP: North block/);
    expect((await heldByAxe(page)).against).toEqual([]);
  });

  it('keeps the screen awake while a pit burns, and no longer', async () => {
    await open();
    expect((await noted()).awake).toBe(0);
    const burn = await demo.lights();
    await demo.service.streams.tick();
    await soon(async () => (await noted()).awake).toBe(1);
    await demo.api('POST', `/v1/sites/north-block/burns/${burn}/taps`, { tap: 'covered', by: 'Ana' });
    await demo.service.streams.tick();
    await soon(async () => (await noted()).released).toBe(1);
  });

  it('sounds when it gets worse, once somebody has switched that on, and not when it gets better', async () => {
    const burn = await demo.lights();
    await demo.minute();
    await open();
    const button = page.locator('#sound');
    expect(await button.textContent()).toBe('Sound when it gets worse');
    await button.click();
    expect([await button.textContent(), await button.getAttribute('aria-pressed')]).toEqual([
      'Sound is on',
      'true',
    ]);
    const before = (await noted()).tones;
    demo.pass(5);
    await demo.reads(TURNED);
    await demo.service.streams.tick();
    await page.locator('.big.stop').waitFor();
    const worse = (await noted()).tones;
    expect(worse).toBeGreaterThan(before);
    await demo.api('POST', `/v1/sites/north-block/burns/${burn}/taps`, { tap: 'covered', by: 'Ana' });
    for (let i = 0; i < 6; i += 1) {
      demo.pass(5);
      await demo.reads();
      await demo.minute();
    }
    await demo.service.streams.tick();
    await page.locator('.big:not(.stop)').waitFor();
    expect((await noted()).tones).toBe(worse);
  });

  it('asks anew every half minute where the stream is broken, and says that it hears nothing', async () => {
    await page.clock.install();
    line.instead = (asked) => (asked.includes('/now/stream') ? { status: 503, body: '{}' } : null);
    await page.goto(line.base + GLANCE);
    await page.locator('#sound').waitFor();
    await demo.lights();
    await page.clock.fastForward(30_000);
    await page.getByRole('button', { name: 'Charging', exact: true }).first().waitFor();
    await line.cut();
    await page.clock.fastForward(3 * 60_000);
    await page.getByText(/No word from the server; asking again\. this page is \d min old\./).waitFor();
    await line.mend();
    await page.clock.fastForward(30_000);
    await soon(() => page.locator('#lost').textContent()).toBe('');
  });

  it('is worked by the keyboard alone', async () => {
    await open();
    for (let i = 0; i < 30; i += 1) {
      await page.keyboard.press('Tab');
      if ((await page.locator(':focus').textContent()) === 'Lit') break;
    }
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Charging', exact: true }).first().waitFor();
  });
});
