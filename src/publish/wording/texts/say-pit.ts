// The sentence and the topic of a condition with the pit that it is about, where a site has several.

import type { ConditionCode } from '#core/watch/condition.ts';
import type { FigureTexts, Size, TextWords } from './text-words.ts';

export function sentenceWithPit(code: ConditionCode, f: FigureTexts, size: Size, words: TextWords): string {
  const sentence = words.sentences[code](f, size);
  // What tells of a light-up begins with its time.
  if (code.startsWith('lit-') && f.at !== null && f.pit?.[0].endsWith(f.at)) return sentence;
  return withPit(f.pit, sentence, size !== 'whole');
}

export const topicWithPit = (
  code: ConditionCode,
  f: FigureTexts,
  words: TextWords,
  brief: boolean,
): string =>
  f.pit === null
    ? words.topics[code](f)
    : `${f.pit[brief ? 1 : 0]}${brief ? ' ' : ', '}${words.topics[code](f)}`;

export const withPit = (pit: FigureTexts['pit'], text: string, brief: boolean): string =>
  pit === null ? text : `${pit[brief ? 1 : 0]}: ${text.charAt(0).toLowerCase()}${text.slice(1)}`;
