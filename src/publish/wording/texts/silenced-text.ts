// That texts about a site are silenced, until when and by whom: said in the day texts, so that nobody waits for a text.

import type { Silence } from '#core/notices/silence.ts';
import { clockWord } from './figure-texts.ts';
import { fixed, forms } from './fit-text.ts';
import { longName, plainName } from './plain-name.ts';
import type { Piece, TextRequest } from './text-request.ts';
import type { TextWords } from './text-words.ts';

/** The widest silence, and of those the longest. The name gives way first, and all of it before an order or a time does. */
export function silencedText(
  { silences, message, site }: Pick<TextRequest, 'silences' | 'message' | 'site'>,
  words: TextWords,
): { readonly piece: Piece; readonly line: string } {
  const [said] = [...silences].sort(
    (a, b) => Number(isOfAll(b)) - Number(isOfAll(a)) || b.untilMs - a.untilMs,
  );
  if (said === undefined) return { piece: fixed(''), line: '' };
  const until = clockWord(said.untilMs, message.atMs, site.timeZone, words);
  const say = (by: string) => words.silenced(until, by, isOfAll(said));
  const [, bare, brief] = say('');
  const short = (septets: number) => say(plainName(said.by, septets, ''))[0];
  return {
    piece: forms(() => short(20), [5, () => short(10)], [8, bare], [10, brief], [12, '']),
    line: say(longName(said.by, ''))[0],
  };
}

/** One of the crew lets a stop that was observed through. */
const isOfAll = ({ code, role }: Silence): boolean => code === null && role === 'office';
