// Which times of a day are others than the evening text told.

import { historyWords } from '#publish/wording/history-words.ts';
import { listWords } from '#publish/wording/list-words.ts';
import type { Language } from '#publish/wording/show.ts';
import { html, type Markup } from './html.ts';
import { momentAt } from './moments.ts';

export interface MovedTime {
  readonly time: 'lightUp' | 'lightUpBy' | 'lastCharge' | 'burnedDown' | 'coveredBy';
  /** Instants; null: there was, or is, no such time. */
  readonly from: string | null;
  readonly to: string | null;
}

export function movedLine(moved: readonly MovedTime[], timeZone: string, language: Language): Markup | null {
  if (moved.length === 0) return null;
  const own = historyWords(language);
  const day = moved.map(({ from, to }) => to ?? from).find((instant) => instant !== null) ?? null;
  const at = (instant: string | null): string =>
    instant === null ? own.none : momentAt(instant, timeZone, language, day);
  const texts = moved.map(({ time, from, to }) => own.wasAndIs(own.times[time], at(from), at(to)));
  return html`<p class="note">${listWords(language).changed}: ${texts.join('; ')}.</p>`;
}
