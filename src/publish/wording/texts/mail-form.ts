// The long form of a text, for mail: the same order and sentences, uncut, with the caution in full.

import { wordsFor } from '#publish/wording/say.ts';
import { clockWord } from './figure-texts.ts';
import { longName } from './plain-name.ts';
import type { Composed, TextRequest } from './text-request.ts';
import type { TextWords } from './text-words.ts';

export interface MailForm {
  readonly subject: string;
  readonly body: string;
  readonly html: string;
}

/** Longer than this a subject is cut by those who show it. */
const LONGEST_SUBJECT = 150;

export function mailForm({ order, lines }: Composed, request: TextRequest, words: TextWords): MailForm {
  const { message, site, asked, answerUrl, reader } = request;
  const name = longName(site.name, words.site);
  const until = clockWord(message.validUntilMs, message.atMs, site.timeZone, words);
  const tail = [
    ...(asked ? [answerUrl === null ? words.reply[0] : words.replyMail(answerUrl)] : []),
    words.until(until, false),
    wordsFor(reader.language).caution,
  ];
  const [first] = lines;
  const subject = [...`${name}: ${order}${first === undefined ? '' : `. ${first}`}`];
  const all = [...lines, ...tail];
  return {
    subject:
      subject.length > LONGEST_SUBJECT
        ? `${subject.slice(0, LONGEST_SUBJECT - 1).join('')}…`
        : subject.join(''),
    body: `${name}\n${order}\n\n${all.join('\n')}\n`,
    html: `<p>${escaped(name)}<br><strong>${escaped(order)}</strong></p>\n${all.map((l) => `<p>${lineHtml(l, answerUrl)}</p>`).join('\n')}\n`,
  };
}

const escaped = (text: string): string =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');

function lineHtml(line: string, url: string | null): string {
  if (url === null || !line.includes(url)) return escaped(line);
  const link = `<a href="${escaped(url)}">${escaped(url)}</a>`;
  return line.split(url).map(escaped).join(link);
}
