// What a page carries for a phone without signal: when it was written and when its go ends, in words for people and in
// attributes for its script and its worker, which change nothing but what is hidden and how old it is.

import { rfc3339 } from '#core/units/local-time.ts';
import { copyWords } from '#publish/wording/copy-words.ts';
import { glanceWords } from '#publish/wording/glance-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { durationText, type Language } from '#publish/wording/show.ts';
import { html, type Markup } from './html.ts';
import { chip } from './mark.ts';
import { momentAt } from './moments.ts';

export interface Phone {
  readonly writtenMs: number;
  /** When a go of this page, or a time to light or to give wood, is void; null where it says none. */
  readonly voidAtMs: number | null;
  readonly timeZone: string;
  readonly language: Language;
  /** Whose page it is: copies are kept for one reader at a time. */
  readonly reader: string;
  /** Addresses of the scripts; none: the page has none. */
  readonly scripts: readonly string[];
}

export const bodyAttributes = ({ writtenMs, voidAtMs, reader, language }: Phone): Markup =>
  html` data-now="${writtenMs}" data-void="${voidAtMs ?? ''}" data-reader="${reader}" data-old="${copyWords(language).copyOld}" data-unknown="${copyWords(language).copyUnknown}"`;

export const headTags = ({ scripts }: Phone): Markup | null =>
  scripts.length === 0
    ? null
    : html`<link rel="manifest" href="/manifest.webmanifest"><link rel="icon" href="/icon.svg" type="image/svg+xml">${scripts.map((src) => html`<script src="${src}" defer></script>`)}`;

/** Before anything else on the screen: hidden until this is a copy, or until its go is void. */
export function banner(phone: Phone): Markup {
  const { writtenMs, timeZone, language } = phone;
  const words = copyWords(language);
  const written = momentAt(rfc3339(writtenMs, timeZone), timeZone, language, null);
  return html`<div class="if-copy" role="status"><p><b>${words.copy(written)}</b> <b class="copy-age"></b></p></div><div class="if-void" role="alert"><h1>${chip('unsaid', wordsFor(language))}</h1><p>${words.voidNow}</p></div>`;
}

/** "Void after 10:10 am.", for a page that says go or when; in the text, where no script runs. */
export function voidLine({ voidAtMs, timeZone, language, writtenMs }: Phone): Markup | null {
  if (voidAtMs === null) return null;
  const at = rfc3339(voidAtMs, timeZone);
  const moment = momentAt(at, timeZone, language, rfc3339(writtenMs, timeZone));
  return html`<time datetime="${at}">${copyWords(language).voidAfter(moment)}</time>`;
}

/** An age that the script keeps going: "11 min old". `template` has "{}" for the length of time. */
export function ago(atMs: number, nowMs: number, template: string): Markup {
  const min = Math.max(0, Math.floor((nowMs - atMs) / 60_000));
  return html`<span data-at="${atMs}" data-words="${template}">${template.replace('{}', durationText(min))}</span>`;
}

/** A moment ahead or behind: "in 40 min", "12 min ago". */
export function away(atMs: number, nowMs: number, language: Language): Markup {
  const { inTime, wasAgo } = glanceWords(language);
  const template = atMs > nowMs ? inTime : wasAgo;
  const min = Math.round(Math.abs(atMs - nowMs) / 60_000);
  return html`<span data-at="${atMs}" data-words="${wasAgo}" data-ahead="${inTime}">${template.replace('{}', durationText(min))}</span>`;
}
