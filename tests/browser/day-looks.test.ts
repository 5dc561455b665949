// Draws every kind of day at every width, in both looks and both languages, to be looked at, not compared. Only when asked:
// PITWARD_LOOKS=all, or the name of one day.

import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasBrowser, launch } from './browser.ts';
import { drawnDay, lookNames } from './drawn-day.ts';

const SHOTS = fileURLToPath(new URL('../../.tmp-looks/', import.meta.url));
const asked = process.env['PITWARD_LOOKS'] ?? '';
const wanted = lookNames.filter((name) => asked === 'all' || asked === name);

describe.skipIf(!hasBrowser || wanted.length === 0)('days to be looked at', { timeout: 600_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
    mkdirSync(SHOTS, { recursive: true });
  });
  afterAll(() => browser?.close());

  it.each(wanted)('%s', async (name) => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    for (const look of ['day', 'night'] as const) {
      for (const language of ['en', 'es'] as const) {
        await page.setContent(drawnDay(name, { look, language }));
        for (const width of [320, 390, 1200]) {
          await page.setViewportSize({ width, height: 844 });
          const path = `${SHOTS}${name}-${look}-${language}-${width}.png`;
          const shot = await page.screenshot({ path, fullPage: true });
          expect(shot.length).toBeGreaterThan(10_000);
        }
      }
    }
    await context.close();
  });
});
