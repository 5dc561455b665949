// The parts of the sheet: each knows how high it is, and draws itself.

import type { Sheet } from '#publish/page/sheet/sheet.ts';
import type { SheetCell } from '#publish/page/sheet/sheet-hours.ts';
import { sheetWords } from '#publish/wording/sheet-words.ts';
import type { Pen, TextStyle } from './pen.ts';

export interface Block {
  height(width: number): number;
  draw(x: number, y: number, width: number): void;
}

const SMALL: TextStyle = { size: 8 };
const PLAIN: TextStyle = { size: 9 };
const TITLE: TextStyle = { size: 10, bold: true };

const text = (pen: Pen, words: string, style: TextStyle, after = 1.5): Block => ({
  height: (width) => pen.heightOf(words, width, style) + after * pen.scale,
  draw: (x, y, width) => pen.text(words, x, y, width, style),
});

/** One under the other. */
export const stacked = (blocks: readonly Block[]): Block => ({
  height: (width) => blocks.reduce((sum, block) => sum + block.height(width), 0),
  draw(x, y, width) {
    let at = y;
    for (const block of blocks) {
      block.draw(x, at, width);
      at += block.height(width);
    }
  },
});

/** Side by side in two columns; the height is that of the higher. */
export function twoColumns(left: Block, right: Block, gap: number): Block {
  const half = (width: number): number => (width - gap) / 2;
  return {
    height: (width) => Math.max(left.height(half(width)), right.height(half(width))),
    draw(x, y, width) {
      left.draw(x, y, half(width));
      right.draw(x + half(width) + gap, y, half(width));
    },
  };
}

export function heading(pen: Pen, words: string): Block {
  const above = 5 * pen.scale;
  return {
    height: (width) => above + pen.heightOf(words, width, TITLE) + 2 * pen.scale,
    draw(x, y, width) {
      pen.line(x, y + above - 2 * pen.scale, x + width, y + above - 2 * pen.scale, 1.6);
      pen.text(words, x, y + above, width, TITLE);
    },
  };
}

export function headBlock(pen: Pen, sheet: Sheet): Block {
  const lines = [...(sheet.demo === null ? [] : [`${sheet.demo}.`]), ...sheet.head];
  return stacked([
    text(pen, lines.join(' '), SMALL),
    text(pen, `${sheet.site}. ${sheet.day}`, { size: 17, bold: true }),
  ]);
}

export function voidBlock(pen: Pen, { voidAfter, voidNotes }: Sheet): Block {
  const pad = 4 * pen.scale;
  const inside = stacked([
    text(pen, voidAfter, { size: 15, bold: true }, 1),
    ...(voidNotes.length === 0 ? [] : [text(pen, voidNotes.join('. '), PLAIN, 0)]),
  ]);
  return {
    height: (width) => inside.height(width - 2 * pad) + 2 * pad + 4 * pen.scale,
    draw(x, y, width) {
      const height = inside.height(width - 2 * pad) + 2 * pad;
      pen.frame({ x: x + 1.2, y, width: width - 2.4, height }, 2.4);
      inside.draw(x + pad, y + pad, width - 2 * pad);
    },
  };
}

export function answerBlock(pen: Pen, { mark, word, reason, pauses }: Sheet): Block {
  const size = 15 * pen.scale;
  const style: TextStyle = { size: 18, bold: true };
  const beside = stacked([reason ?? '', ...pauses].map((words) => text(pen, words, PLAIN, 0)));
  const lead = (): number => size + 5 + pen.widthOf(word, style) + 10;
  return {
    height: (width) => Math.max(22 * pen.scale, beside.height(width - lead())) + 4 * pen.scale,
    draw(x, y, width) {
      pen.mark(x, y + 1.5 * pen.scale, size, mark);
      pen.text(word, x + size + 5, y, width, style);
      beside.draw(x + lead(), y + 3 * pen.scale, width - lead());
    },
  };
}

export function timesBlock(pen: Pen, { times }: Sheet): Block {
  const height = 36 * pen.scale;
  return {
    height: () => height + 3 * pen.scale,
    draw(x, y, width) {
      const each = width / times.length;
      pen.frame({ x, y, width, height }, 1.4);
      for (const [i, [label, clock]] of times.entries()) {
        const left = x + i * each;
        if (i > 0) pen.line(left, y, left, y + height, 1.4);
        pen.text(label, left + 5, y + 4 * pen.scale, each - 8, SMALL);
        const size = fitting(pen, clock, each - 10, 17);
        pen.text(clock, left + 5, y + 14 * pen.scale, each - 8, { size, bold: true });
      }
    },
  };
}

/** The largest size up to `most` in which the words stand on one line. */
export function fitting(pen: Pen, words: string, width: number, most: number): number {
  const broad = pen.widthOf(words, { size: most, bold: true });
  return broad <= width ? most : (most * width) / (broad * 1.01);
}

/** The band and the figures below it stand on one axis. */
export function hoursBlock(pen: Pen, sheet: Sheet): Block {
  const own = sheetWords(sheet.language);
  const bandHeight = 18 * pen.scale;
  const lead = 138;
  const smokeHeight = 21 * pen.scale;
  const headHeight = 10 * pen.scale;
  const label = (row: Sheet['rows'][number]): string => `${row.name}: ${row.limit}`;
  const labelStyle: TextStyle = { size: 7 };
  const rowHeight = (row: Sheet['rows'][number]): number =>
    Math.max(11 * pen.scale, pen.heightOf(label(row), lead - 6, labelStyle) + 2 * pen.scale);
  const note = text(pen, own.outOf, { size: 7 }, 0);
  const rowsHeight = (): number => sheet.rows.reduce((sum, row) => sum + rowHeight(row), 0);
  return {
    height: (width) =>
      bandHeight + headHeight + rowsHeight() + smokeHeight + note.height(width) + 4 * pen.scale,
    draw(x, y, width) {
      const breadth = width - lead;
      const left = x + lead;
      drawBand(pen, sheet, { x: left, y, width: breadth, height: bandHeight });
      const each = breadth / Math.max(1, sheet.hours.length);
      let at = y + bandHeight + 2 * pen.scale;
      for (const [i, { name }] of sheet.hours.entries()) {
        const size = fitting(pen, name, each - 1, 7);
        pen.text(name, left + i * each, at, each, { size, align: 'center', bold: true });
      }
      pen.text(own.limits, x, at, lead, { size: 7, bold: true });
      at += headHeight;
      for (const row of sheet.rows) {
        pen.line(x, at - 1, x + width, at - 1, 0.4);
        pen.text(label(row), x, at, lead - 6, labelStyle);
        for (const [i, cell] of row.cells.entries()) drawCell(pen, cell, left + i * each, at, each);
        at += rowHeight(row);
      }
      pen.line(x, at - 1, x + width, at - 1, 0.4);
      pen.text(own.smoke, x, at + 4 * pen.scale, lead - 6, { size: 8, bold: true });
      for (const [i, { towardDeg, text: words }] of sheet.smoke.entries()) {
        const middle = left + (i + 0.5) * each;
        if (towardDeg !== null) pen.arrow(middle, at + 6 * pen.scale, 9 * pen.scale, towardDeg);
        const size = fitting(pen, words, each - 1, 6.5);
        pen.text(words, left + i * each, at + 13 * pen.scale, each, { size, align: 'center' });
      }
      note.draw(x, at + smokeHeight, width);
    },
  };
}

function drawCell(pen: Pen, { text: words, beyond }: SheetCell, x: number, y: number, width: number): void {
  const size = fitting(pen, words, width - 3, 7.5);
  pen.text(words, x, y, width, { size, align: 'center', bold: beyond !== null });
  if (beyond === null) return;
  const broad = pen.widthOf(words, { size, bold: true });
  const [from, to] = [x + (width - broad) / 2, x + (width + broad) / 2];
  const under = y + size * pen.scale * 0.92;
  if (beyond === 'hold') pen.line(from, under, to, under, 0.7);
  else pen.frame({ x: from - 1.2, y: y - 1.4, width: broad + 2.4, height: size * pen.scale + 1.2 }, 0.8);
}

function drawBand(
  pen: Pen,
  { band: { span, blocks, marksMs } }: Sheet,
  { x, y, width, height }: { x: number; y: number; width: number; height: number },
): void {
  const at = (ms: number): number => x + ((ms - span.fromMs) / (span.toMs - span.fromMs)) * width;
  for (const { fromMs, toMs, kind } of blocks) {
    const box = { x: at(fromMs), y, width: at(toMs) - at(fromMs), height };
    pen.fill(box, kind);
    pen.frame(box, 0.8);
  }
  pen.frame({ x, y, width, height }, 1.2);
  for (const ms of marksMs) pen.line(at(ms), y - 2, at(ms), y + height + 2, 2.2);
}

export const listBlock = (pen: Pen, title: string, texts: readonly string[]): Block =>
  stacked(texts.length === 0 ? [] : [heading(pen, title), ...texts.map((words) => text(pen, words, PLAIN))]);

/** With a box to tick before each. */
export function ticksBlock(pen: Pen, title: string, texts: readonly string[]): Block {
  const side = 8 * pen.scale;
  const indent = side + 6;
  const rows = texts.map((words): Block => {
    const inside = text(pen, words, PLAIN, 2.5);
    return {
      height: (width) => inside.height(width - indent),
      draw(x, y, width) {
        pen.frame({ x: x + 0.6, y: y + 0.6, width: side, height: side }, 1);
        inside.draw(x + indent, y, width - indent);
      },
    };
  });
  return stacked([heading(pen, title), ...rows]);
}

/** What is written by hand takes the room that is left. */
export function writeBlock(pen: Pen, sheet: Sheet, rowHeight: number): Block {
  const own = sheetWords(sheet.language);
  const title = heading(pen, own.write);
  const shares = [0.24, 0.16, 0.42, 0.18];
  const headHeight = 11 * pen.scale;
  return {
    height: (width) => title.height(width) + headHeight + own.rows.length * rowHeight,
    draw(x, y, width) {
      title.draw(x, y, width);
      let at = y + title.height(width);
      const lefts = shares.map(
        (_, i) => x + width * shares.slice(0, i).reduce((sum, share) => sum + share, 0),
      );
      for (const [i, words] of own.columns.entries())
        pen.text(words, lefts[i] ?? x, at, width * (shares[i] ?? 0), { size: 8, bold: true });
      at += headHeight;
      for (const words of own.rows) {
        pen.line(x, at, x + width, at, 0.6);
        pen.text(words, x, at + Math.max(1, rowHeight - 11 * pen.scale), width * 0.24, {
          size: 9,
          bold: true,
        });
        at += rowHeight;
      }
      pen.line(x, at, x + width, at, 0.6);
      for (const left of lefts.slice(1)) pen.line(left - 3, y + title.height(width), left - 3, at, 0.4);
    },
  };
}

export function cautionBlock(pen: Pen, { caution }: Sheet): Block {
  const above = 4 * pen.scale;
  const inside = text(pen, caution, { size: 7.5 }, 0);
  return {
    height: (width) => above + inside.height(width),
    draw: (x, y, width) => inside.draw(x, y + above, width),
  };
}
