// What the crew has heard of what it was told last: who has seen it and when, or how far it came.

import { listWords } from '#publish/wording/list-words.ts';
import type { Language } from '#publish/wording/show.ts';
import { numberText } from '#publish/wording/show.ts';
import { html, type Markup } from './html.ts';
import { momentAt } from './moments.ts';

export type HeardHow = 'seen' | 'cannot' | 'delivered' | 'sent' | 'uncertain' | 'waiting' | 'failed';

export interface CrewSeen {
  readonly kind: 'evening' | 'dawn' | 'notice';
  /** Instant. */
  readonly at: string;
  readonly crew: readonly { readonly contact: string; readonly how: HeardHow; readonly at: string | null }[];
}

/** What an answer is worth to the office, best first; the line is led by the best that anybody has. */
const BEST: readonly HeardHow[] = ['cannot', 'seen', 'delivered', 'sent', 'uncertain', 'waiting', 'failed'];

export function crewText(
  { kind, at, crew }: CrewSeen,
  timeZone: string,
  language: Language,
  asOf: string,
): string {
  const own = listWords(language);
  const moment = (instant: string): string => momentAt(instant, timeZone, language, asOf);
  const parts = BEST.flatMap((how) => {
    const those = crew.filter((one) => one.how === how);
    if (those.length === 0) return [];
    const count = own.of(
      numberText(those.length, 0, language),
      numberText(crew.length, 0, language),
      own.heard[how],
    );
    const who = those.map((one) => [one.contact, ...(one.at === null ? [] : [moment(one.at)])].join(' '));
    return [`${count} (${who.join('; ')})`];
  });
  return `${own.told[kind]} ${moment(at)}: ${parts.join(', ')}.`;
}

export function crewLine(seen: CrewSeen | null, timeZone: string, language: Language, asOf: string): Markup {
  const own = listWords(language);
  const text = seen === null ? own.notTold : crewText(seen, timeZone, language, asOf);
  return html`<p class="note">${own.crew}: ${text}</p>`;
}
