// What is wrong with the layout of the page that is open: asked of the browser itself. No test in here.

import type { Page } from 'playwright-core';

export interface Layout {
  /** How far the page can be scrolled sideways [px]. */
  readonly sideways: number;
  /** Links and the like that a gloved finger misses. */
  readonly small: readonly string[];
  /** Words of drawings that are cut off at a side, or lie over each other. */
  readonly words: readonly string[];
  /** Bottom of the age of the forecast [px]. */
  readonly ageEndsAt: number;
}

/** What is asked of an element here; the program itself knows no document. */
interface Drawn {
  readonly tagName: string;
  readonly textContent: string | null;
  readonly scrollWidth: number;
  readonly clientWidth: number;
  querySelectorAll(selector: string): Iterable<Drawn>;
  getBoundingClientRect(): Record<'left' | 'right' | 'top' | 'bottom' | 'width' | 'height', number>;
}

/** Runs in the browser: it must not use anything from outside of itself. */
function look(html: Drawn): Layout {
  const all = (selector: string, within: Drawn = html): Drawn[] => [...within.querySelectorAll(selector)];
  const box = (element: Drawn) => element.getBoundingClientRect();
  const small = all('a, summary, button, input, select')
    .filter((e) => box(e).width > 0 && (box(e).height < 43.9 || box(e).width < 43.9))
    .map((e) => `${e.tagName} ${e.textContent} ${box(e).width} x ${box(e).height}`);
  const words: string[] = [];
  for (const drawing of all('.day > svg')) {
    const { left, right } = box(drawing);
    for (const text of all('text', drawing)) {
      if (box(text).left < left - 1 || box(text).right > right + 1)
        words.push(`${text.textContent} is cut off: ${box(text).left} to ${box(text).right}`);
    }
    for (const kind of ['.nr', '.hr', '.l', '.m:not(.l)']) {
      const row = all(kind, drawing);
      for (const [i, a] of row.entries()) {
        for (const b of row.slice(i + 1)) {
          const [p, q] = [box(a), box(b)];
          const meet = p.left < q.right && q.left < p.right && p.top < q.bottom - 3 && q.top < p.bottom - 3;
          if (meet) words.push(`${a.textContent} lies over ${b.textContent}`);
        }
      }
    }
  }
  const age = all('.age')[0];
  return {
    sideways: html.scrollWidth - html.clientWidth,
    small,
    words,
    ageEndsAt: age ? box(age).bottom : Number.POSITIVE_INFINITY,
  };
}

export const layoutOf = (page: Page): Promise<Layout> => page.locator('html').evaluate(look);
