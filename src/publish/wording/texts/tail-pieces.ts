// How every text that tells something ends: how to answer, who decides, until when it counts.

import { clockWord } from './figure-texts.ts';
import { forms } from './fit-text.ts';
import type { Piece, TextRequest } from './text-request.ts';
import type { TextWords } from './text-words.ts';

export function tailPieces(request: TextRequest, words: TextWords): Piece[] {
  const { message, site, asked, answersBy, reader } = request;
  const [whole, short, shortest] = words.caution;
  const last = reader.role === 'crew' || message.kind !== 'notice' ? shortest : words.cautionShort;
  const until = clockWord(message.validUntilMs, message.atMs, site.timeZone, words);
  return [
    ...(asked && answersBy === 'digit'
      ? [forms(words.reply[0], [4, words.reply[1]], [16, words.reply[2]])]
      : []),
    forms(whole, [7, short], [11, shortest], [18, last]),
    forms(words.until(until, false), [1, words.until(until, true)]),
  ];
}
