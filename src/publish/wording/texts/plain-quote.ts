// Words that somebody wrote, fit to stand in a text to others: a reserved word is broken by a mark, and no two words are
// joined, since that would say something else ("No mas lena").

import { plainName } from './plain-name.ts';
import { reservedWordIn } from './reserved-words.ts';

/** More than a text has words. */
const MOST = 200;

/** Fits into `most` septets (at least 8). */
export const plainQuote = (text: string, most: number): string => plainName(text, most, '..', broken);

/** "stop" to "sto'p": one letter from the end of the first word that is reserved, or of what a mark has left of it. */
function broken(quote: string): string {
  let text = quote;
  for (let i = 0; i < MOST; i += 1) {
    const word = reservedWordIn(text);
    if (word === null) return text;
    text = breakFirst(text, word);
  }
  return '..';
}

/** Words as they are compared have no accents, and any marks between them. */
function breakFirst(text: string, word: string): string {
  const parts = word.split(/[ -]/).map((part) => [...part].map((c) => ACCENTED[c] ?? c).join(''));
  const open = parts.join('[^\\p{L}\\p{N}]+');
  const found = new RegExp(`(?<![\\p{L}\\p{N}])${open}(?![\\p{L}\\p{N}])`, 'iu').exec(text);
  if (found === null) return text;
  // Before the last letter of its first word: a single letter alone is no word of these.
  const first = /^[\p{L}\p{N}]+/u.exec(found[0])?.[0] ?? '';
  const at = found.index + Math.max(1, first.length - 1);
  return `${text.slice(0, at)}'${text.slice(at)}`;
}

const ACCENTED: Readonly<Record<string, string>> = {
  a: '[aàáâäå]',
  e: '[eèéê]',
  i: '[iìíî]',
  o: '[oòóôö]',
  u: '[uùúü]',
};
