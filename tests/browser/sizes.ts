// How far a page scrolls sideways, and what on it is too small for a finger: asked of the browser itself. No test in here.

import type { Page } from 'playwright-core';

export const sidewaysOf = (page: Page): Promise<number> =>
  page.locator('html').evaluate((html) => html.scrollWidth - html.clientWidth);

/** Links within a sentence are let off (WCAG 2.2, 2.5.8, Inline). */
export const smallOf = (page: Page): Promise<string[]> =>
  page.locator('a, summary, button, input:not([type=hidden]), select').evaluateAll((all) =>
    all
      .map((e) => ({ text: `${e.tagName} ${e.textContent}`, ...e.getBoundingClientRect().toJSON() }))
      .filter(({ width, height }) => width > 0 && (height < 43.9 || width < 43.9))
      .map(({ text, width, height }) => `${text} ${width} x ${height}`),
  );
