// Texts that carry no weather: what the crew did, told to those elsewhere; what the office must see to; a drill.

import type { OfficeMatter, TapTold } from '#core/notices/message.ts';
import { clockWord } from './figure-texts.ts';
import { fixed, forms } from './fit-text.ts';
import { longName, plainName } from './plain-name.ts';
import { plainQuote } from './plain-quote.ts';
import { withPit } from './say-pit.ts';
import { sitePiece } from './site-piece.ts';
import { tailPieces } from './tail-pieces.ts';
import type { Composed, TextRequest } from './text-request.ts';
import type { TextWords } from './text-words.ts';

export function tapText(
  request: TextRequest,
  { tap, tappedAtMs, by, pit }: TapTold,
  words: TextWords,
): Composed {
  const clock = (ms: number) => clockWord(ms, request.message.atMs, request.site.timeZone, words);
  const at = clock(tappedAtMs);
  // The first tells its own time.
  const named = pit && (tap !== 'lit' || pit.nth !== null) ? words.pit(clock(pit.litAtMs), pit.nth) : null;
  const say = (name: string | null) => withPit(named, words.taps[tap](at, name), name === null);
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

function sayMatter(
  { what, detail }: OfficeMatter,
  name: string | null,
  quote: (text: string) => string,
  words: TextWords,
): string {
  if (what === 'not-answered') return words.office[what](name);
  if (what === 'wrote') return words.office[what](name ?? '?', quote(detail ?? ''));
  return words.office[what](name ?? '?');
}

export function officeText(request: TextRequest, matter: OfficeMatter, words: TextWords): Composed {
  const name = request.contactName ?? matter.contact;
  const cut = (septets: number, ofText: number): string =>
    sayMatter(matter, name && plainName(name, septets, words.site), (t) => plainQuote(t, ofText), words);
  const { order } = words.office;
  return {
    order,
    pieces: [
      sitePiece(request.site.name, words.site),
      fixed(`${order}.`),
      forms(
        () => cut(40, 100),
        [1, () => cut(20, 80)],
        [3, () => cut(20, 60)],
        [8, () => cut(10, 40)],
        [12, () => cut(10, 20)],
      ),
      ...tailPieces(request, words),
    ],
    lines: [sayMatter(matter, name && longName(name, words.site), (t) => longName(t, '..'), words)],
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
