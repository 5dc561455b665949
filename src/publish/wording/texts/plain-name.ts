// Names that people gave, fit to stand in a text: in the alphabet, on one line, with no reserved word of their own, and
// shortened so that what tells two names apart, mostly the number at the end, is kept.

import { gsm7Length, toGsm7 } from './gsm7.ts';
import { reservedWordIn } from './reserved-words.ts';

/** Fits into `most` septets (at least 8); `otherwise` where nothing readable is left. `clear` takes reserved words out. */
export function plainName(name: string, most: number, otherwise: string, clear = withoutReserved): string {
  const plain = clear(
    toGsm7(name)
      .replace(/[?\s]+/g, ' ')
      .trim(),
  );
  if (!/[\p{L}\p{N}]/u.test(plain)) return otherwise;
  return shortened(plain, most, clear);
}

/** The same for mail: on one line, and no longer than a line should be. */
export function longName(name: string, otherwise: string): string {
  const line = name.replace(/[\p{Cc}\p{Zl}\p{Zp}\s]+/gu, ' ').trim();
  return line === '' ? otherwise : [...line].slice(0, 200).join('');
}

/**
 * A reserved word is joined to its neighbour ("End Road" to "EndRoad", "West End" to "WestEnd"); one that stands alone, or
 * that still stands out, gets a letter before it, so that it is no word by itself and begins nothing.
 */
function withoutReserved(name: string): string {
  let text = name;
  for (let i = 0; i < 20; i += 1) {
    const word = reservedWordIn(text);
    if (word === null) return beginsReserved(text) ? `x${text}` : text;
    text = joined(text, word);
  }
  return 'x';
}

function joined(text: string, word: string): string {
  const letters = [...word].filter((c) => c !== ' ' && c !== '-').join('[^\\p{L}\\p{N}]*');
  // Accents fold away when words are compared, so that "Sí" is "si"; the text may still have them (é, ñ).
  const open = letters
    .replaceAll('e', '[eéè]')
    .replaceAll('i', '[iì]')
    .replaceAll('o', '[oò]')
    .replaceAll('a', '[aà]');
  const found = new RegExp(
    `([^\\p{L}\\p{N}]*)(?<![\\p{L}\\p{N}])(${open})(?![\\p{L}\\p{N}])([^\\p{L}\\p{N}]*)`,
    'iu',
  );
  const next = text.replace(found, (all: string, before: string, is: string, _after: string, at: number) => {
    const tight = is.replace(/[^\p{L}\p{N}]/gu, '');
    if (at + all.length < text.length) return `${before}${tight}`;
    return at === 0 ? `x${tight}` : tight;
  });
  return next === text ? `x${text.replaceAll(/[\s-]/g, '')}` : next;
}

/** "Stop4", "Endroad": some compare only how a message begins, so that a digit or mark after the word is no comfort. */
const beginsReserved = (text: string): boolean =>
  /^(stop|end|quit|cancel|start|help|info)(?![a-z])/i.test(text);

/** Head and tail of a name that is too long, with two dots between. */
function shortened(name: string, most: number, clear: (text: string) => string): string {
  if (lengthOf(name) <= most) return name;
  const tight = name.replace(/[\s,.;:/-]+/g, ' ').trim();
  if (lengthOf(tight) <= most) return tight;
  const last = /\s(\S{1,12}(?:\s\d\S{0,6})?)$/.exec(tight)?.[1] ?? '';
  const tail = last !== '' && lengthOf(last) + 5 <= most ? last : cutFront(tight, Math.floor((most - 2) / 3));
  const head = cutBack(tight, most - 2 - lengthOf(tail)).trimEnd();
  return clear(`${head}..${tail}`).slice(0, most);
}

const lengthOf = (text: string): number => gsm7Length(text) ?? Number.POSITIVE_INFINITY;

const cutBack = (text: string, most: number): string => {
  const chars = [...text];
  while (lengthOf(chars.join('')) > most) chars.pop();
  return chars.join('');
};

const cutFront = (text: string, most: number): string => {
  const chars = [...text];
  while (lengthOf(chars.join('')) > most) chars.shift();
  return chars.join('').trimStart();
};
