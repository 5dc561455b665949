// What axe-core holds against the page that is open (WCAG 2.2 A and AA, and its best practices). No test in here.

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';

const SOURCE = readFileSync(fileURLToPath(import.meta.resolve('axe-core/axe.min.js')), 'utf8');
const FEWEST_RULES = 15;

/** The page must be in a context with script, past its own policy. */
export async function faultsOfAccess(page: Page): Promise<string[]> {
  await page.evaluate(SOURCE);
  const { passes, against } = await page.evaluate(async () => {
    const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const { violations, passes: held } = await axe.run({ runOnly: tags, resultTypes: ['violations'] });
    return { passes: held.length, against: violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`) };
  });
  return passes < FEWEST_RULES ? [...against, `held to ${passes} rules only`] : against;
}
