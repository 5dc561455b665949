// The pages around a personal link: for whom it is, with one button; why it does not work; what to do without one; and who is
// signed in. Opening a page signs nobody in, since programs that look at messages open links too.

import type { Language, UnitSystem } from '#publish/wording/show.ts';
import { longDate, type SignInRole, signInWords } from '#publish/wording/sign-in-words.ts';
import { html, type Markup, type Piece } from './html.ts';
import { homeLink, type Query, signInLink, signOutLink } from './links.ts';
import { page } from './shell.ts';

interface Holder {
  readonly name: string;
  /** Null: no role has these scopes, which are named instead. */
  readonly role: SignInRole | null;
  readonly scopes: readonly string[];
  /** Names of the sites; null: all. */
  readonly sites: readonly string[] | null;
}

export type SignInView =
  | { readonly kind: 'link'; readonly holder: Holder; readonly endsOn: string | null }
  | { readonly kind: 'unknown' | 'needed' | 'signed-out' | 'open' }
  | { readonly kind: 'signed-in'; readonly holder: Holder; readonly byCookie: boolean };

export interface SignInReader {
  readonly language: Language;
  readonly units: UnitSystem;
  readonly query: Query;
  readonly demo: boolean;
}

export function signInPage(view: SignInView, reader: SignInReader): string {
  const { language, units, query, demo } = reader;
  const { title, main } = PAGES[view.kind](view as never, reader);
  return page({
    title,
    language,
    demo,
    choice: { units, query },
    zone: null,
    isHome: false,
    main: html`<h1 class="all">${title}</h1>${main}`,
  });
}

interface Content {
  readonly title: string;
  readonly main: Piece;
}
type Of<K extends SignInView['kind']> = Extract<SignInView, { readonly kind: K }>;

const PAGES: { readonly [K in SignInView['kind']]: (view: Of<K>, reader: SignInReader) => Content } = {
  link({ holder, endsOn }, { language, query }) {
    const words = signInWords(language);
    const until = endsOn === null ? '' : `, ${words.until} ${longDate(endsOn, language)}`;
    return {
      title: words.linkFor(holder.name),
      // Sent to the address of the page itself: the link stands in no page.
      main: html`<p>${mayText(holder, language)}${until}.</p>
<form method="post" action="${choicesAlone(query)}"><p><button class="big">${words.button}</button></p></form><p class="note">${words.once}</p>`,
    };
  },
  unknown: (_view, { language }) => {
    const words = signInWords(language);
    return { title: words.unknown, main: html`<p>${words.askOffice}</p>` };
  },
  needed: (_view, reader) => ({
    title: signInWords(reader.language).needed,
    main: waysIn(reader),
  }),
  'signed-out': (_view, reader) => {
    const words = signInWords(reader.language);
    return {
      title: words.nobody,
      main: html`<p class="kept" role="status">${words.signedOut}</p>${waysIn(reader)}`,
    };
  },
  open: (_view, { language, query }) => {
    const words = signInWords(language);
    return {
      title: words.open,
      main: html`<p><a class="tap" href="${homeLink(query)}">${words.toSites}</a></p>`,
    };
  },
  'signed-in': ({ holder, byCookie }, { language, query }) => {
    const words = signInWords(language);
    const out = byCookie
      ? html`<form method="post" action="${signOutLink(query)}"><p><button class="big">${words.signOut}</button></p></form>`
      : null;
    return {
      title: words.signedInAs(holder.name),
      main: html`<p>${mayText(holder, language)}.</p><p><a class="tap" href="${homeLink(query)}">${words.toSites}</a></p>${out}<p class="note">${words.lostPhone}</p>`,
    };
  },
};

function waysIn({ language, query }: SignInReader): Markup {
  const words = signInWords(language);
  return html`<p><b>${words.openLink}</b></p><p>${words.paste}</p>
<form class="fields" method="post" action="${signInLink(query)}"><p><label for="key">${words.keyField}</label><input id="key" name="key" type="password" autocomplete="current-password" maxlength="400" required></p><p><button>${words.keyButton}</button></p></form>
<p class="note">${words.forPrograms}</p>`;
}

function mayText({ role, scopes, sites }: Holder, language: Language): string {
  const words = signInWords(language);
  const may = role === null ? scopes.join(', ') : words.roles[role];
  return `${may.charAt(0).toUpperCase()}${may.slice(1)}: ${sites === null ? words.allSites : sites.join(', ')}`;
}

/** An address that names only what the reader chose is one beside the page's own. */
const choicesAlone = (query: Query): string => `?${new URLSearchParams(query)}`;
