// The day sheet as a PDF: one side of Letter or A4, whatever stands on it. It is set at full size; where that is too much, all
// of it is set smaller; where that is still too much, the longest lists are cut, and say so.

import type { Sheet } from '#publish/page/sheet/sheet.ts';
import { sheetWords } from '#publish/wording/sheet-words.ts';
import {
  answerBlock,
  type Block,
  cautionBlock,
  headBlock,
  heading,
  hoursBlock,
  listBlock,
  stacked,
  ticksBlock,
  timesBlock,
  twoColumns,
  voidBlock,
  writeBlock,
} from './blocks.ts';
import { createPen, PAPER_PT, type Paper, type Pen } from './pen.ts';

const MARGIN_PT = 30;
const SCALES = [1, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.66];
/** A row to write in by hand [pt]. */
const LEAST_ROW_PT = 15;
const MOST_ROW_PT = 24;

interface Setting {
  readonly sheet: Sheet;
  readonly pen: Pen;
  readonly width: number;
  readonly height: number;
}

/** `title` is that of the document, `madeAt` the moment that it is of. */
export async function sheetPdf(
  sheet: Sheet,
  { paper, title, madeAt }: { readonly paper: Paper; readonly title: string; readonly madeAt: Date },
): Promise<Buffer> {
  // Some 10 ms and 2 MB that only whoever prints pays for.
  const { default: PDFDocument } = await import('pdfkit');
  const [width, height] = PAPER_PT[paper];
  const doc = new PDFDocument({
    size: [width, height],
    margin: 0,
    lang: sheet.language,
    displayTitle: true,
    info: { Title: title, CreationDate: madeAt, ModDate: madeAt, Producer: 'Pitward', Creator: 'Pitward' },
  });
  const parts: Buffer[] = [];
  doc.on('data', (part: Buffer) => parts.push(part));
  const done = new Promise<void>((resolve, reject) => {
    doc.on('end', resolve);
    doc.on('error', reject);
  });
  draw(doc, sheet, { width: width - 2 * MARGIN_PT, height: height - 2 * MARGIN_PT });
  doc.end();
  await done;
  return Buffer.concat(parts);
}

function draw(doc: PDFKit.PDFDocument, sheet: Sheet, room: { width: number; height: number }): void {
  const setting = settingFor(doc, sheet, room);
  const { pen, width, height } = setting;
  const fixed = contentOf(setting, 0).height(width);
  const rows = sheetWords(sheet.language).rows.length;
  const each = Math.min(MOST_ROW_PT, Math.max(LEAST_ROW_PT * pen.scale, (height - fixed) / rows));
  contentOf(setting, each).draw(MARGIN_PT, MARGIN_PT, width);
}

/** The largest in which it all stands on the page; else the smallest, with less on it. */
function settingFor(
  doc: PDFKit.PDFDocument,
  sheet: Sheet,
  { width, height }: { width: number; height: number },
): Setting {
  const fits = (setting: Setting): boolean =>
    contentOf(setting, LEAST_ROW_PT * setting.pen.scale).height(width) <= height;
  for (const scale of SCALES) {
    const setting = { sheet, pen: createPen(doc, scale), width, height };
    if (fits(setting)) return setting;
  }
  const pen = createPen(doc, SCALES.at(-1) ?? 1);
  let less = sheet;
  for (let most = 12; most >= 1; most -= 1) {
    less = cut(sheet, most);
    const setting = { sheet: less, pen, width, height };
    if (fits(setting)) return setting;
  }
  return { sheet: less, pen, width, height };
}

/** What decides stands first in each list. */
function cut(sheet: Sheet, most: number): Sheet {
  const own = sheetWords(sheet.language);
  const head = (texts: readonly string[]): readonly string[] =>
    texts.length <= most ? texts : [...texts.slice(0, most), own.more(String(texts.length - most))];
  const rows = sheet.rows.slice(0, Math.max(most, 4));
  const left = sheet.rows.length - rows.length;
  const change = head(sheet.change);
  return {
    ...sheet,
    rows,
    places: head(sheet.places),
    change: left === 0 ? change : [...change, `${own.limits}: ${own.more(String(left))}`],
  };
}

function contentOf({ sheet, pen }: Setting, rowHeight: number): Block {
  const own = sheetWords(sheet.language);
  return stacked([
    headBlock(pen, sheet),
    voidBlock(pen, sheet),
    answerBlock(pen, sheet),
    timesBlock(pen, sheet),
    heading(pen, own.dayByHour),
    hoursBlock(pen, sheet),
    twoColumns(
      stacked([
        listBlock(pen, own.places, sheet.places),
        listBlock(pen, own.change, sheet.change),
        listBlock(pen, own.where, sheet.where),
      ]),
      ticksBlock(pen, own.say, sheet.tailgate),
      16,
    ),
    writeBlock(pen, sheet, rowHeight),
    cautionBlock(pen, sheet),
  ]);
}
