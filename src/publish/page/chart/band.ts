// The day as a band: one block per window with its pattern, its word above it, and the marks of the burn.

import type { Span } from '#core/units/time.ts';
import { html, type Markup } from '#publish/page/html.ts';
import { across } from './across.ts';
import type { DayMark } from './day-marks.ts';
import type { Frame } from './lane.ts';
import { ANCHOR_CLASS, breadthOf, NARROWEST } from './place-words.ts';

const ROW_PX = 17;
const BAND_PX = 30;
const AXIS_PX = 24;

export interface Block extends Span {
  readonly kind: 'go' | 'hold' | 'stop' | 'shut';
  /** Null: it has none, as dark hours have. */
  readonly word: string | null;
}

export interface Band {
  readonly blocks: readonly Block[];
  /** Dark and off-shift time, laid over the blocks. */
  readonly shut: readonly Span[];
  readonly marks: readonly DayMark[];
  /** What the drawing says, for who cannot see it. */
  readonly told: string;
}

export function bandSvg({ blocks, shut, marks, told }: Band, { scale, axis }: Frame): Markup {
  // Each mark has a row for its words, and the words of the blocks have one.
  const top = (marks.length + 1) * ROW_PX + 4;
  const boxes = [...blocks, ...shut.map((s) => ({ ...s, kind: 'shut' as const }))].map((block) =>
    scale.x(block.toMs) > scale.x(block.fromMs)
      ? html`<rect class="b-${block.kind}" ${across(block, scale)} y="${top}" height="${BAND_PX}"/>`
      : null,
  );
  const cuts = [...marks.map(({ ms }) => ms), ...shut.flatMap((s) => [s.fromMs, s.toMs])];
  const words = blocks.map((block) => {
    const x = block.word === null ? null : wordPlace(block, block.word, cuts, shut, scale.x);
    return x === null ? null : html`<text class="m" x="${x}%" y="${top - 6}">${block.word}</text>`;
  });
  const lines = marks.map(
    ({ x, row }) =>
      html`<line class="mk" x1="${x}%" x2="${x}%" y1="${row * ROW_PX + 3}" y2="${top + BAND_PX}"/>`,
  );
  return html`<svg class="band" width="100%" height="${top + BAND_PX + AXIS_PX}" role="img" aria-label="${told}">${boxes}<svg y="${top + BAND_PX}">${axis}</svg>${lines}${words}${marks.map(markWords)}</svg>`;
}

function markWords({ wordsX, label, clock, row, anchor }: DayMark): Markup {
  const apart = { start: 5, middle: 0, end: -5 }[anchor];
  return html`<text class="m l${ANCHOR_CLASS[anchor]}" x="${wordsX}%" y="${row * ROW_PX + 14}" dx="${apart}">${label} <tspan>${clock}</tspan></text>`;
}

/** The middle of the widest part of a block that neither dots nor a mark cut [%]; null where its word fits in none. */
export function wordPlace(
  block: Span,
  word: string,
  cutsMs: readonly number[],
  shut: readonly Span[],
  x: (ms: number) => number,
): number | null {
  const inside = cutsMs.filter((ms) => ms > block.fromMs && ms < block.toMs).sort((a, b) => a - b);
  const points = [block.fromMs, ...inside, block.toMs];
  let best: { from: number; to: number } | null = null;
  for (const [i, toMs] of points.slice(1).entries()) {
    const fromMs = points[i] ?? toMs;
    if (shut.some((s) => s.fromMs <= fromMs && toMs <= s.toMs)) continue;
    const [from, to] = [x(fromMs), x(toMs)];
    if (best === null || to - from > best.to - best.from) best = { from, to };
  }
  if (best === null || ((best.to - best.from) / 100) * NARROWEST < breadthOf(word, true) + 6) return null;
  return Math.round((best.from + best.to) * 50) / 100;
}
