// A pen over the PDF library: text in black, rules, and the patterns of the verdicts. All sizes in points, scaled together.

import { winAnsi } from './win-ansi.ts';

export type Paper = 'letter' | 'a4';

/** Width and height [pt] (ANSI/ASME Y14.1; ISO 216). */
export const PAPER_PT: Readonly<Record<Paper, readonly [number, number]>> = {
  letter: [612, 792],
  a4: [595.28, 841.89],
};

export interface TextStyle {
  readonly size: number;
  readonly bold?: boolean;
  readonly align?: 'left' | 'center' | 'right';
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Pen {
  /** All text is set in so much of its size. */
  readonly scale: number;
  heightOf(text: string, width: number, style: TextStyle): number;
  widthOf(text: string, style: TextStyle): number;
  text(text: string, x: number, y: number, width: number, style: TextStyle): void;
  line(fromX: number, fromY: number, toX: number, toY: number, width: number): void;
  frame(box: Box, width: number): void;
  fill(box: Box, kind: 'go' | 'hold' | 'stop' | 'shut'): void;
  arrow(x: number, y: number, size: number, towardDeg: number): void;
  mark(x: number, y: number, size: number, mark: 'go' | 'hold' | 'stop' | 'unsaid'): void;
}

const LINE_GAP = 0.12;

export function createPen(doc: PDFKit.PDFDocument, scale: number): Pen {
  const set = ({ size, bold = false }: TextStyle): number => {
    doc.font(bold ? 'Helvetica-Bold' : 'Helvetica').fontSize(size * scale);
    return size * scale * LINE_GAP;
  };
  return {
    scale,
    heightOf(text, width, style) {
      const lineGap = set(style);
      return doc.heightOfString(winAnsi(text), { width, lineGap });
    },
    widthOf(text, style) {
      set(style);
      return doc.widthOfString(winAnsi(text));
    },
    text(text, x, y, width, style) {
      const lineGap = set(style);
      doc.fillColor('#000').text(winAnsi(text), x, y, { width, lineGap, align: style.align ?? 'left' });
    },
    line: (fromX, fromY, toX, toY, width) => {
      doc.lineWidth(width).moveTo(fromX, fromY).lineTo(toX, toY).stroke('#000');
    },
    frame: ({ x, y, width, height }, thick) => {
      doc.lineWidth(thick).rect(x, y, width, height).stroke('#000');
    },
    fill: (box, kind) => {
      if (box.width > 0) pattern(doc, box, kind);
    },
    arrow(x, y, size, towardDeg) {
      const half = size / 2;
      doc.save().translate(x, y).rotate(towardDeg).lineWidth(1.1);
      doc
        .moveTo(0, half)
        .lineTo(0, -half)
        .moveTo(-half / 2, -half / 3)
        .lineTo(0, -half)
        .lineTo(half / 2, -half / 3);
      doc.stroke('#000').restore();
    },
    mark: (x, y, size, mark) => shape(doc, { x, y, size }, mark),
  };
}

function pattern(
  doc: PDFKit.PDFDocument,
  { x, y, width, height }: Box,
  kind: 'go' | 'hold' | 'stop' | 'shut',
): void {
  doc.save().rect(x, y, width, height).clip();
  // What is drawn later lies over what was before.
  doc.rect(x, y, width, height).fill('#fff');
  doc.lineWidth(kind === 'hold' ? 1.6 : 0.5);
  const step = kind === 'hold' ? 6 : 4;
  if (kind === 'hold' || kind === 'stop') {
    for (let at = x - height; at < x + width; at += step) doc.moveTo(at, y + height).lineTo(at + height, y);
    if (kind === 'stop')
      for (let at = x - height; at < x + width; at += step) doc.moveTo(at, y).lineTo(at + height, y + height);
    doc.stroke('#000');
  }
  if (kind === 'shut')
    for (let at = x + 2; at < x + width; at += 5)
      for (let down = y + 2; down < y + height; down += 5) doc.circle(at, down, 0.6).fill('#000');
  doc.restore();
}

/** The signs of a recorder: run, pause, stop; a diamond for what nobody can say. */
function shape(
  doc: PDFKit.PDFDocument,
  { x, y, size }: { readonly x: number; readonly y: number; readonly size: number },
  mark: 'go' | 'hold' | 'stop' | 'unsaid',
): void {
  if (mark === 'go') doc.polygon([x, y], [x + size, y + size / 2], [x, y + size]).fill('#000');
  if (mark === 'stop') doc.rect(x, y, size, size).fill('#000');
  if (mark === 'hold') {
    doc.rect(x, y, size * 0.36, size).fill('#000');
    doc.rect(x + size * 0.6, y, size * 0.36, size).fill('#000');
  }
  if (mark === 'unsaid') {
    const half = size / 2;
    doc.lineWidth(1.4).polygon([x + half, y], [x + size, y + half], [x + half, y + size], [x, y + half]);
    doc.stroke('#000');
  }
}
