// A stretch in which a value is missing: no line and no ground, but the word for it.

import type { Span } from '#core/units/time.ts';
import { html, type Markup } from '#publish/page/html.ts';
import { across } from './across.ts';
import { ANCHOR_CLASS, breadthOf, placeWords } from './place-words.ts';
import type { TimeScale } from './time-scale.ts';

interface GapLook {
  readonly height: number;
  readonly word: string;
  readonly baseline: number;
}

/** The word may be wider than a short gap; it stays within the drawing. */
export function gap(span: Span, scale: TimeScale, { height, word, baseline }: GapLook): Markup {
  const middle = (scale.x(span.fromMs) + scale.x(span.toMs)) / 2;
  const [placed] = placeWords(
    [{ x: Math.round(middle * 100) / 100, breadth: breadthOf(word, true), weight: 0 }],
    0,
  );
  const { x, anchor } = placed ?? { x: middle, anchor: 'middle' };
  return html`<rect class="gap" ${across(span, scale)} height="${height}"/><text class="gw${ANCHOR_CLASS[anchor]}" x="${x}%" y="${baseline}">${word}</text>`;
}
