// Texts that carry no weather: what the crew did, told to those elsewhere; what the office must see to; a drill.

import type { OfficeMatter, TapTold } from '#core/notices/message.ts';
import { clockWord } from './figure-texts.ts';
import { fixed, forms } from './fit-text.ts';
import { longName, plainName } from './plain-name.ts';
import { sitePiece } from './site-piece.ts';
import { tailPieces } from './tail-pieces.ts';
import type { Composed, TextRequest } from './text-request.ts';
import type { TextWords } from './text-words.ts';

export function tapText(request: TextRequest, { tap, tappedAtMs, by }: TapTold, words: TextWords): Composed {
  const at = clockWord(tappedAtMs, request.message.atMs, request.site.timeZone, words);
  const say = (name: string | null) => words.taps[tap](at, name);
  return {
    order: words.lit.go,
    pieces: [
      sitePiece(request.site.name, words.site),
      forms(
        say(plainName(by, 30, words.site)),
        [3, () => say(plainName(by, 12, words.site))],
        [8, say(null)],
      ),
      ...tailPieces(request, words),
    ],
    lines: [say(longName(by, words.site))],
  };
}

export function officeText(
  request: TextRequest,
  { what, contact }: OfficeMatter,
  words: TextWords,
): Composed {
  const name = request.contactName ?? contact;
  const say = (short: string | null): string =>
    what === 'not-answered' ? words.office[what](short) : words.office[what](short ?? '?');
  const cut = (septets: number) => say(name === null ? null : plainName(name, septets, words.site));
  const { order } = words.office;
  return {
    order,
    pieces: [
      sitePiece(request.site.name, words.site),
      fixed(`${order}.`),
      forms(() => cut(40), [3, () => cut(20)], [8, () => cut(10)]),
      ...tailPieces(request, words),
    ],
    lines: [say(name === null ? null : longName(name, words.site))],
  };
}

export function drillText(request: TextRequest, words: TextWords): Composed {
  const [whole, short] = words.drill;
  return {
    order: whole,
    pieces: [
      sitePiece(request.site.name, words.site),
      forms(whole, [3, short]),
      ...tailPieces(request, words),
    ],
    lines: [],
  };
}
