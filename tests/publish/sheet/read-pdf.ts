// A reader of PDF that the program does not use: what is on its pages as text, and where. No test in here.

import { getDocumentProxy } from 'unpdf';

export interface ReadPdf {
  readonly pages: number;
  /** Width and height of the first [pt]. */
  readonly size: readonly [number, number];
  readonly title: string;
  /** In the order in which it was written, spaces as one. */
  readonly text: string;
  /** Words that stand outside of the paper. */
  readonly outside: readonly string[];
}

interface Item {
  readonly str: string;
  readonly transform: readonly number[];
  readonly width: number;
}

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const document = await getDocumentProxy(new Uint8Array(bytes));
  const page = await document.getPage(1);
  const [, , width = 0, height = 0] = page.view;
  const { items } = await page.getTextContent();
  const words = (items as unknown as Item[]).filter((item) => item.str.trim() !== '');
  const outside = words.filter(({ transform, width: breadth }) => {
    const [x = 0, y = 0] = transform.slice(4);
    return x < 0 || y < 0 || x + breadth > width || y > height;
  });
  const { info } = await document.getMetadata();
  return {
    pages: document.numPages,
    size: [width, height],
    title: String((info as Record<string, unknown>)['Title']),
    text: words
      .map(({ str }) => str)
      .join(' ')
      .replaceAll(/\s+/g, ' '),
    outside: outside.map(({ str }) => str),
  };
}
