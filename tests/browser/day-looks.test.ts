// Draws kinds of day to be looked at, not compared: a few of them at the width of a phone, or, when asked, every kind at every
// width, in both looks and both languages. PITWARD_LOOKS=all, or the name of one day.

import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { homePage } from '#publish/page/home-page.ts';
import { homeOf } from '../publish/page/invented-days.ts';
import { hasBrowser, launch } from './browser.ts';
import { drawnDay, type LookName, lookNames } from './drawn-day.ts';

const SHOTS = fileURLToPath(new URL('../../.tmp-looks/', import.meta.url));
const asked = process.env['PITWARD_LOOKS'] ?? '';
const wanted = lookNames.filter((name) => asked === 'all' || asked === name);

/** One of each kind that has gone wrong before, or is rarely looked at: [day, look, language]. */
const FEW = [
  ['stale', 'day', 'en'],
  ['missingLayer', 'night', 'en'],
  ['twoWindows', 'night', 'es'],
  ['noWindow', 'day', 'es'],
  ['spring', 'day', 'en'],
  ['autumn', 'night', 'en'],
  ['farNorthSummer', 'day', 'es'],
  ['farNorthWinter', 'night', 'en'],
  ['longNames', 'day', 'es'],
] as const satisfies readonly (readonly [LookName, 'day' | 'night', 'en' | 'es'])[];

describe.skipIf(!hasBrowser)('days to be looked at', { timeout: 600_000 }, () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await launch();
    page = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
    mkdirSync(SHOTS, { recursive: true });
  });
  afterAll(() => browser?.close());

  async function draw(
    name: LookName,
    look: 'day' | 'night',
    language: 'en' | 'es',
    widths: readonly number[],
  ) {
    await page.setContent(drawnDay(name, { look, language }));
    for (const width of widths) await shoot(`${name}-${look}-${language}`, width);
  }

  async function shoot(name: string, width: number): Promise<void> {
    await page.setViewportSize({ width, height: 844 });
    const shot = await page.screenshot({ path: `${SHOTS}${name}-${width}.png`, fullPage: true });
    expect(shot.length).toBeGreaterThan(10_000);
    // Where anything stands out at the side, the picture is wider than the screen (PNG, section 11.2.1: width at byte 16).
    expect(shot.readUInt32BE(16)).toBe(width);
  }

  it.skipIf(asked !== '').each(FEW)('%s by %s in %s', (name, look, language) =>
    draw(name, look, language, [390]),
  );

  it.skipIf(asked !== '' && asked !== 'all')('the list where no site is set up', async () => {
    await page.setContent(homePage(homeOf([])));
    await shoot('noSite-day-en', 390);
  });

  it.skipIf(wanted.length === 0).each(wanted)('%s', async (name) => {
    for (const look of ['day', 'night'] as const) {
      for (const language of ['en', 'es'] as const) await draw(name, look, language, [320, 390, 1200]);
    }
  });
});
