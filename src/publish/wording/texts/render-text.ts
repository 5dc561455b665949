// A message → the words for one person. It always comes back with a text: where words fail, with a fixed one, and it says
// so, to be counted.

import { worseOf } from '#core/rules/finding.ts';
import type { Language } from '#publish/wording/show.ts';
import { dayText } from './day-text.ts';
import { fitText, fixed } from './fit-text.ts';
import { gsm7Length, SEGMENT_SEPTETS } from './gsm7.ts';
import { mailForm } from './mail-form.ts';
import { noticeText } from './notice-text.ts';
import { drillText, officeText, tapText } from './other-texts.ts';
import { reservedWordIn } from './reserved-words.ts';
import type { Composed, RenderedText, TextRequest } from './text-request.ts';
import type { TextWords } from './text-words.ts';
import { wordsEn } from './words-en.ts';
import { wordsEs } from './words-es.ts';

const WORDS: Readonly<Record<Language, TextWords>> = { en: wordsEn, es: wordsEs };

export function renderText(request: TextRequest): RenderedText {
  try {
    const words = WORDS[request.reader.language];
    const composed = compose(request, words);
    const text = fitText(composed.pieces);
    const fault = textFault(text);
    if (fault !== null) return fixedText(request, fault);
    return {
      text,
      linked: linkedText(text, request, words),
      ...mailForm(composed, request, words),
      fault: null,
    };
  } catch (fault) {
    return fixedText(request, fault instanceof Error ? fault.message : 'no message');
  }
}

function compose(request: TextRequest, words: TextWords): Composed {
  const { message } = request;
  switch (message.kind) {
    case 'notice':
      return noticeText(request, words);
    case 'evening':
    case 'dawn':
      return dayText(request, message.day, words);
    case 'burn':
      return tapText(request, message.tap, words);
    case 'office':
      return officeText(request, message.matter, words);
    case 'drill':
      return drillText(request, words);
  }
}

/** What no text of ours may be; null where it is right. */
export function textFault(text: string): string | null {
  const length = gsm7Length(text);
  if (length === null) return 'not in the alphabet';
  if (length > SEGMENT_SEPTETS) return `${length} septets`;
  if (text.trim() === '') return 'empty';
  const word = reservedWordIn(text);
  return word === null ? null : `reserved word "${word}"`;
}

const linkedText = (text: string, { asked, answerUrl }: TextRequest, words: TextWords): string =>
  asked && answerUrl !== null ? `${text}\n${words.replyMail(answerUrl)}` : text;

/** Nothing of the request but its language and what it demands goes in: those could be what failed. */
function fixedText(request: TextRequest, fault: string): RenderedText {
  const words = WORDS[request.reader?.language === 'es' ? 'es' : 'en'];
  const verdict = worseOf(request.message?.verdict ?? 'hold', request.standing ?? 'go');
  const order = (request.burning === false ? words.unlit : words.lit)[verdict] ?? words.lit.hold;
  const text = fitText([fixed(words.fallback(order))]);
  const linked = linkedText(text, request, words);
  return { subject: `Pitward: ${order}`, text, linked, body: `${text}\n`, html: `<p>${text}</p>\n`, fault };
}
