// The lanes of a page in English as somebody reads them: what is written, and where it is drawn. No test in here.

import { wordsOf } from './read-page.ts';

export interface ReadHour {
  readonly name: string;
  /** Null: missing. */
  readonly value: string | null;
  readonly beyond: 'over' | 'under' | null;
  readonly derived: boolean;
}

export interface ReadLane {
  readonly element: string;
  readonly unit: string;
  /** The figures of the limit, in words. */
  readonly limit: string;
  readonly hours: readonly ReadHour[];
  readonly note: string;
  /** Points of the line, in order of time: permille of the width, px from the top. */
  readonly points: readonly (readonly [x: number, y: number])[];
  /** Numbers that are written below the line, those at the edges without their place. */
  readonly numbers: readonly {
    readonly text: string;
    readonly x: number | null;
    readonly isMarked: boolean;
  }[];
  readonly lines: readonly {
    readonly verdict: 'hold' | 'stop';
    readonly y: number;
    readonly label: string;
  }[];
}

const all = (text: string, pattern: RegExp): string[][] =>
  [...text.matchAll(pattern)].map((m) => m.map((part) => part ?? ''));

/** "1:00 am EDT 1,800 under derived", the time after midnight of a night with its date. */
const HOUR =
  /((?:\w+, \w+ \d+, )?\d+:\d\d [ap]m(?: [A-Z][A-Z+\-:\d]*)?) (missing|[\d.,]*\d)( over| under)?( derived)?(?:, |$)/g;

export function lanesOf(page: string): ReadLane[] {
  const parts = page.split('<h3 class="lh">').slice(1, -1);
  return parts.map((part) => {
    const [, element = '', limit = ''] = /^(.*?) <span>(.*?)<\/span>/.exec(part) ?? [];
    const label = wordsOf(/aria-label="(.*?)"/.exec(part)?.[1] ?? '');
    const [, unit = '', list = ''] = /^.*?(?: in (\S+))? by the hour: (.*)\.$/.exec(label) ?? [];
    const labels = all(part, /class="bw[^"]*"[^>]*>(.*?)</g).map((m) => m[1] ?? '');
    return {
      element,
      unit,
      limit: wordsOf(limit),
      hours: all(list, HOUR).map(readHour),
      note: wordsOf(/<p class="note">(.*?)<\/p>/.exec(part)?.[1] ?? ''),
      points: all(/class="tr".*?<path d="(.*?)"/.exec(part)?.[1] ?? '', /[ML](-?[\d.]+) (-?[\d.]+)/g).map(
        ([, x, y]) => [Number(x), Number(y)] as const,
      ),
      numbers: all(part, /class="nr( o)?( t[se])?" x="([\d.]+)%"[^>]*>([^<]*)/g).map(
        ([, marked, leans, x, text]) => ({
          text: text ?? '',
          x: leans === '' ? Number(x) : null,
          isMarked: marked !== '',
        }),
      ),
      lines: all(part, /class="bd (hold|stop)s"[^>]*y1="([\d.]+)"/g).map(([, verdict, y], i) => ({
        verdict: verdict as 'hold' | 'stop',
        y: Number(y),
        label: labels[i] ?? '',
      })),
    };
  });
}

function readHour([, name = '', value = '', beyond = '', derived = '']: readonly string[]): ReadHour {
  return {
    name,
    value: value === 'missing' ? null : value,
    beyond: beyond === '' ? null : (beyond.trim() as 'over' | 'under'),
    derived: derived !== '',
  };
}
