// The text about the day to the crew, in each language that it reads: as it went out, or would go out now.

import { dayWords } from '#publish/wording/day-words.ts';
import { html, type Markup } from './html.ts';
import { momentAt } from './moments.ts';
import type { SiteView } from './site-view.ts';

export interface DayTextView {
  readonly kind: 'evening' | 'dawn';
  /** missed: its time has passed, and none went out. */
  readonly state: 'ahead' | 'sent' | 'missed';
  /** When it is due, or went out: an instant. */
  readonly at: string;
  readonly texts: readonly { readonly language: 'en' | 'es'; readonly text: string }[];
}

/** Nothing where the crew gets no such text. */
export function dayText({ text, plan, reader }: SiteView): Markup | null {
  if (text === null) return null;
  const words = dayWords(reader.language);
  const at = momentAt(text.at, plan.timeZone, reader.language, null);
  const lead = {
    ahead: text.texts.length > 0 ? words.textAhead(at) : words.textUnwritten(at),
    sent: words.textSent(at),
    missed: words.textMissed(at),
  }[text.state];
  const quotes = text.texts.map(
    (told) => html`<blockquote lang="${told.language}">${told.text}</blockquote>`,
  );
  return html`<div class="scr"><h2>${words.textTitle[text.kind]}</h2><p class="note">${lead}</p>${quotes}</div>`;
}
