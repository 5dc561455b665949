// All that can be set, by kind, each with a link to its own page.

import { html } from '#publish/page/html.ts';
import { page } from '#publish/page/shell.ts';
import { type SettingsKind, settingsWords } from '#publish/wording/settings-words.ts';
import { kindLink, oneLink } from './settings-links.ts';
import type { SettingsReader } from './settings-reader.ts';

export interface SettingsList {
  readonly kind: SettingsKind;
  readonly mayAdd: boolean;
  readonly ones: readonly { readonly id: string; readonly name: string; readonly note: string }[];
}

export function settingsPage(
  lists: readonly SettingsList[],
  mayChange: boolean,
  reader: SettingsReader,
): string {
  const { language, units, query, demo } = reader;
  const words = settingsWords(language);
  const parts = lists.map(({ kind, ones, mayAdd }) => {
    const rows = ones.map(
      ({ id, name, note }) =>
        html`<li><a class="tap" href="${oneLink(kind, id, query)}">${name}</a> <span class="note">${note}</span></li>`,
    );
    const add = mayAdd
      ? html`<p><a class="tap" href="${kindLink(kind, query)}">${words.addNew[kind]}</a></p>`
      : null;
    return html`<h2>${words.kinds[kind]}</h2>${rows.length === 0 ? html`<p>${words.none}</p>` : html`<ul class="rows">${rows}</ul>`}${add}`;
  });
  return page({
    title: words.title,
    language,
    demo,
    choice: { units, query },
    zone: null,
    isHome: false,
    main: html`<h1 class="all">${words.title}</h1><p>${mayChange ? words.intro : words.lookOnly}</p>${parts}`,
  });
}
