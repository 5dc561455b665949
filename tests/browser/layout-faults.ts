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
    .map((e) => ({ e, ...box(e) }))
    .filter(({ width, height }) => width > 0 && (height < 43.9 || width < 43.9))
    .map(({ e, width, height }) => `${e.tagName} ${e.textContent} ${width} x ${height}`);
  // Each box is asked for once: there are hundreds of words.
  const boxes = (selector: string, drawing: Drawn) =>
    all(selector, drawing).map((e) => {
      const { left, right, top, bottom } = box(e);
      return { word: e.textContent, left, right, top, bottom };
    });
  const cutOff = (drawing: Drawn): string[] => {
    const { left, right } = box(drawing);
    return boxes('text', drawing)
      .filter((text) => text.left < left - 1 || text.right > right + 1)
      .map((text) => `${text.word} is cut off: ${text.left} to ${text.right}`);
  };
  const overlaid = (row: ReturnType<typeof boxes>): string[] =>
    row.flatMap((p, i) =>
      row
        .slice(i + 1)
        .filter((q) => p.left < q.right && q.left < p.right && p.top < q.bottom - 3 && q.top < p.bottom - 3)
        .map((q) => `${p.word} lies over ${q.word}`),
    );
  const drawings = all('.day > svg, .day > div > svg');
  const words = drawings.flatMap((drawing) => [
    ...cutOff(drawing),
    ...['.nr', '.hr', '.l', '.m:not(.l)'].flatMap((kind) => overlaid(boxes(kind, drawing))),
  ]);
  const age = all('.age')[0];
  return {
    sideways: html.scrollWidth - html.clientWidth,
    small,
    words: drawings.length === 0 ? ['nothing is drawn'] : words,
    ageEndsAt: age ? box(age).bottom : Number.POSITIVE_INFINITY,
  };
}

export const layoutOf = (page: Page): Promise<Layout> => page.locator('html').evaluate(look);
