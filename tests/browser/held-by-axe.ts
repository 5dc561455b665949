// What axe has against the page that is open. No test in here.

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';

const SOURCE = readFileSync(fileURLToPath(import.meta.resolve('axe-core/axe.min.js')), 'utf8');

/** WCAG 2.2 A and AA and axe's own best practices; `rules`: how many the page was held to. */
export async function heldByAxe(page: Page): Promise<{ rules: number; against: string[] }> {
  await page.evaluate(SOURCE);
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const { violations, passes } = await axe.run({ runOnly: tags, resultTypes: ['violations'] });
    return { rules: passes.length, against: violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`) };
  });
}
