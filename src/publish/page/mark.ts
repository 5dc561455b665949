// Go, hold, stop and can't say: word, shape and pattern together, never colour alone.

import type { Words } from '#publish/wording/words.ts';
import { html, type Markup, trusted } from './html.ts';
import type { Mark } from './standing.ts';

/** The signs of a recorder: run, pause, stop; a diamond for what nobody can say. */
const SHAPES: Readonly<Record<Mark, string>> = {
  go: '<path d="M6 3.5 20 12 6 20.5z"/>',
  hold: '<path d="M6 4h4.5v16H6zM13.5 4H18v16h-4.5z"/>',
  stop: '<path d="M4.5 4.5h15v15h-15z"/>',
  unsaid: '<path d="M12 3.5 20.5 12 12 20.5 3.5 12z" fill="none" stroke="currentColor" stroke-width="2.4"/>',
};

/** Shapes and patterns that the page refers to; once per document. */
export const SPRITE: Markup = trusted(
  `<svg class="sprite" width="0" height="0" aria-hidden="true"><defs>${Object.entries(SHAPES)
    .map(([mark, shape]) => `<symbol id="i-${mark}" viewBox="0 0 24 24">${shape}</symbol>`)
    .join('')}
<pattern id="p-hold" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="f-hold" d="M0 0h9v9H0z"/><path class="l-hold" d="M0 0h3v9H0z"/></pattern>
<pattern id="p-stop" width="8" height="8" patternUnits="userSpaceOnUse"><path class="f-stop" d="M0 0h8v8H0z"/><path class="l-stop" d="M0 0l8 8M8 0L0 8"/></pattern>
<pattern id="p-shut" width="7" height="7" patternUnits="userSpaceOnUse"><path class="f-shut" d="M0 0h7v7H0z"/><circle class="l-shut" cx="2" cy="2" r="1.1"/></pattern>
<pattern id="h-hold" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="l-beyond" d="M0 0v7"/></pattern>
<pattern id="h-stop" width="6" height="6" patternUnits="userSpaceOnUse"><path class="l-beyond" d="M0 0l6 6M6 0L0 6"/></pattern>
<path id="i-to" class="to" d="M0 10V-9M-5-3 0-10 5-3"/>
</defs></svg>`,
);

export const wordOf = (mark: Mark, words: Words): string =>
  mark === 'unsaid' ? words.cannotSay : words.verdicts[mark];

export const shape = (mark: Mark): Markup =>
  html`<svg class="i" fill="currentColor" aria-hidden="true"><use href="#i-${mark}"/></svg>`;

/** A small label with shape, word and pattern. */
export const chip = (mark: Mark, words: Words): Markup =>
  html`<span class="chip ${mark}">${shape(mark)}${wordOf(mark, words)}</span>`;
