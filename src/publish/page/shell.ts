// The document around every page: head, style, demo band, links, caution. Scripts are on
// pages for phones alone.

import { isTimeZone } from '#core/units/local-time.ts';
import { settingsLink } from '#publish/page/settings/settings-links.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { settingsWords } from '#publish/wording/settings-words.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';
import { signInWords } from '#publish/wording/sign-in-words.ts';
import { upperFirst } from '#publish/wording/text-case.ts';
import { html, type Markup, type Piece, textOf } from './html.ts';
import { homeLink, type Query, sameWith, signInLink } from './links.ts';
import { SPRITE } from './mark.ts';
import { zoneName } from './moments.ts';
import { banner, bodyAttributes, headTags, type Phone } from './phone-marks.ts';
import { STYLE } from './style.ts';

export interface Shell {
  readonly title: string;
  readonly language: Language;
  readonly demo: boolean;
  /** Null on pages that show no units and have one language only: they carry no such links. */
  readonly choice: { readonly units: UnitSystem; readonly query: Query } | null;
  /** What was chosen, on pages that carry no such links. */
  readonly look?: string | undefined;
  /** The site whose clock the page goes by; null where each row has its own. */
  readonly zone: { readonly timeZone: string; readonly atMs: number } | null;
  readonly isHome: boolean;
  /** Rules of this page alone. */
  readonly style?: Markup;
  readonly main: Piece;
  /** What a phone without signal goes by; left out: nothing. */
  readonly phone?: Phone;
}

export function page(shell: Shell): string {
  const { language, choice, title, phone } = shell;
  const words = wordsFor(language);
  const look = choice?.query['look'] ?? shell.look;
  const looks = look === 'night' || look === 'day' ? html` data-look="${look}"` : null;
  const document = html`<!doctype html><html lang="${language}"${looks}><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1"><meta name="color-scheme" content="light dark"><title>${title}</title><style>${STYLE}${shell.style ?? null}</style>${phone ? headTags(phone) : null}</head><body${phone ? bodyAttributes(phone) : null}>${SPRITE}
<div class="wrap">${phone ? banner(phone) : null}${header(shell)}
<main>${shell.main}</main>
<footer><p>${words.caution}</p><p class="scr"><a class="tap" href="${signInLink(choice?.query ?? {})}">${signInWords(language).who}</a> <a class="tap" href="${settingsLink(choice?.query ?? {})}">${settingsWords(language).title}</a></p></footer></div></body></html>
`;
  return textOf(document);
}

function header({ language, choice, demo, zone, isHome }: Shell): Markup {
  const { labels, demo: band } = wordsFor(language);
  const home = isHome
    ? html`<b>${labels.allSites}</b>`
    : html`<a href="${homeLink(choice?.query ?? {})}">${labels.allSites}</a>`;
  return html`<header class="top">${demo ? html`<p class="demo">${band}</p>` : null}${home}${choice && choices(language, choice)}${zone && zoneLine(zone, language)}</header>`;
}

function choices(language: Language, { units, query }: NonNullable<Shell['choice']>): Markup {
  const { labels } = wordsFor(language);
  const other = language === 'es' ? 'en' : 'es';
  const otherUnits = units === 'us' ? 'si' : 'us';
  return html`<nav aria-label="${labels.choices}"><a class="to-night" href="${sameWith(query, { look: 'night' })}">${labels.nightLook}</a><a class="to-day" href="${sameWith(query, { look: 'day' })}">${labels.dayLook}</a>
<a href="${sameWith(query, { units: otherUnits })}">${units === 'us' ? labels.otherUnits : labels.usUnits}</a>
<a href="${sameWith(query, { lang: other })}" lang="${other}" hreflang="${other}">${labels.otherLanguage}</a></nav>`;
}

function zoneLine({ timeZone, atMs }: NonNullable<Shell['zone']>, language: Language): Markup {
  const { labels } = wordsFor(language);
  const name = isTimeZone(timeZone) ? `${zoneName(timeZone, language, atMs)} (${timeZone})` : timeZone;
  return html`<span class="zone">${upperFirst(labels.siteTime)}: ${name}</span>`;
}
