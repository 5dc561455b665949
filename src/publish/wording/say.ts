// Findings → sentences, in the reader's language.

import type { Finding } from '#core/rules/finding.ts';
import { english } from './en.ts';
import { spanish } from './es.ts';
import type { Language } from './show.ts';
import type { Reader, Words } from './words.ts';

const WORDS: Readonly<Record<Language, Words>> = { en: english, es: spanish };

export const wordsFor = (language: Language): Words => WORDS[language];

/** The sentence of a finding. */
export function say(finding: Finding, reader: Reader): string {
  const sentence = WORDS[reader.language].sentences[finding.code] as (
    figures: Finding['figures'],
    reader: Reader,
    verdict: Finding['verdict'],
  ) => string;
  return sentence(finding.figures, reader, finding.verdict);
}
