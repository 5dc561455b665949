// A condition in one sentence, for pages and answers: the same words as in texts, uncut.

import type { Condition, ConditionCode } from '#core/watch/condition.ts';
import { makeCondition } from '#core/watch/make-condition.ts';
import type { Reader } from '#publish/wording/words.ts';
import { figureTexts } from './figure-texts.ts';
import { longName } from './plain-name.ts';
import { sentenceWithPit, topicWithPit } from './say-pit.ts';
import type { TextRequest } from './text-request.ts';
import type { TextWords } from './text-words.ts';
import { wordsEn } from './words-en.ts';
import { wordsEs } from './words-es.ts';

export type StationWords = Pick<TextRequest, 'stationName' | 'stationOf'>;

export function sayCondition(
  condition: Condition,
  reader: Reader,
  stations: StationWords,
  nowMs: number,
): string {
  const words: TextWords = reader.language === 'es' ? wordsEs : wordsEn;
  const figures = figureTexts(condition, requestAt(reader, stations, nowMs), words, longName);
  if (condition.truth === 'unknown') return words.unsure(topicWithPit(condition.code, figures, words, false));
  return sentenceWithPit(condition.code, figures, 'whole', words);
}

/** What a code is about, without figures. */
export function sayTopic(code: ConditionCode, language: Reader['language']): string {
  const words: TextWords = language === 'es' ? wordsEs : wordsEn;
  const bare = makeCondition(code, {
    truth: 'true',
    verdict: 'hold',
    basis: 'record',
    asOfMs: null,
    validUntilMs: 0,
  });
  const reader: Reader = { language, units: 'us', timeZone: 'UTC', day: null };
  const stations = { stationName: (id: string) => id, stationOf: () => null };
  return words.topics[code](figureTexts(bare, requestAt(reader, stations, 0), words, longName));
}

/** Of a request only its moment, its reader and the names of stations matter to figures. */
const requestAt = (
  { language, units, timeZone }: Reader,
  stations: StationWords,
  nowMs: number,
): TextRequest => ({
  message: {
    id: '',
    kind: 'drill',
    site: '',
    atMs: nowMs,
    verdict: 'go',
    transitions: [],
    validUntilMs: nowMs,
    needsAnswer: false,
  },
  parts: null,
  site: { name: '', timeZone },
  reader: { language, units, role: 'crew' },
  standing: null,
  burning: false,
  asked: false,
  repeat: 0,
  escalated: false,
  day: null,
  silences: [],
  ...stations,
  contactName: null,
  answersBy: 'digit',
  answerUrl: null,
});
