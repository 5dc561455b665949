// What axe-core has against the page that is open in a browser. No test in here.

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';

const AXE = fileURLToPath(import.meta.resolve('axe-core/axe.min.js'));

export interface Held {
  /** Rules that it was held to and kept. */
  readonly rules: number;
  readonly against: readonly string[];
}

/** Opens an address in a window of its own. The rules are asked from outside of the page's own policy. */
export async function heldToAxe(browser: Browser, url: string, width = 390): Promise<Held> {
  const context = await browser.newContext({ viewport: { width, height: 844 }, bypassCSP: true });
  const page = await context.newPage();
  await page.goto(url);
  await page.evaluate(readFileSync(AXE, 'utf8'));
  const found = await page.evaluate(async () => {
    const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const { violations, passes } = await axe.run({ runOnly: tags, resultTypes: ['violations'] });
    return {
      rules: passes.length,
      against: violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' | ')}`),
    };
  });
  await context.close();
  return found;
}
