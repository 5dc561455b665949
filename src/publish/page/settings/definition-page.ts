// The page of one definition: its form, or for whoever may only look the same as a list; who changed it; and which of the file
// and the store rules.

import { html, type Markup, type Piece } from '#publish/page/html.ts';
import { page } from '#publish/page/shell.ts';
import { type SettingsKind, settingsWords } from '#publish/wording/settings-words.ts';
import { valueAt } from './body-path.ts';
import { type Form, shownText } from './form-field.ts';
import { type Fault, fieldsAbout, formGroups, idOf } from './form-fields.ts';
import { KEPT_KEYS } from './forms.ts';
import { kindLink, SCRIPT_LINK, settingsLink, weekLink } from './settings-links.ts';
import type { SettingsReader } from './settings-reader.ts';

export interface Revision {
  readonly revision: number;
  readonly origin: 'file' | 'api';
  /** On the clock of the reader's choice, already in words. */
  readonly at: string;
  readonly by: string;
  readonly isOut: boolean;
}

export interface DefinitionView {
  readonly kind: SettingsKind;
  /** Null for a new one. */
  readonly id: string | null;
  readonly name: string;
  /** Null: nothing is there yet. */
  readonly revision: number | null;
  readonly body: unknown;
  readonly form: Form;
  /** Names of new limit sets stand beside their body. */
  readonly typedId: string;
  readonly faults: readonly Fault[];
  readonly mayChange: boolean;
  readonly saved: boolean;
  /** It answers what was typed. */
  readonly isSent: boolean;
  readonly history: readonly Revision[];
  /** Of a contact: since when it wants no texts, and in which words; null: it may be texted; undefined: no contact. */
  readonly optedOut?: { readonly since: string; readonly words: string } | null;
}

export function definitionPage(view: DefinitionView, reader: SettingsReader): string {
  const words = settingsWords(reader.language);
  const title = view.id === null ? words.addNew[view.kind] : `${words.one[view.kind]}: ${view.name}`;
  return page({
    title,
    language: reader.language,
    demo: reader.demo,
    // The address of what was sent is that of another page.
    choice: view.isSent ? null : { units: reader.units, query: reader.query },
    look: reader.query['look'],
    zone: null,
    isHome: false,
    main: html`<p><a class="tap" href="${settingsLink(reader.query)}">${words.title}</a></p><h1 class="all">${title}</h1>
${view.saved ? html`<p class="kept" role="status">${words.saved}</p>` : null}${consentNote(view, reader)}${view.mayChange ? editing(view, reader) : looking(view, reader)}${keptNote(view, reader)}${historyOf(view, reader)}`,
  });
}

function consentNote({ optedOut }: DefinitionView, { language }: SettingsReader): Piece {
  const words = settingsWords(language);
  if (optedOut === undefined) return null;
  if (optedOut === null) return html`<p>${words.mayText}</p>`;
  return html`<p class="bad">${words.optedOut} ${optedOut.since} (“${optedOut.words}”).</p>`;
}

function editing(view: DefinitionView, reader: SettingsReader): Markup {
  const { kind, body, form, faults } = view;
  const { language, query } = reader;
  const words = settingsWords(language);
  const isLive = kind === 'limits' && view.id !== null;
  const show = html`<p><button class="big" name="do" value="preview">${words.preview}</button></p>`;
  const live = isLive ? html` data-week="${weekLink(query)}"` : null;
  const content = html`<input type="hidden" name="content" value="${JSON.stringify(body)}">`;
  const adds = form.adds.map(
    ({ path, kind: row, word }) =>
      html`<button class="lesser" name="do" value="add:${row}:${path}">${words.add}: ${word}</button> `,
  );
  const out =
    view.id === null
      ? null
      : html`<p><button class="lesser" name="do" value="take-out">${words.takeOut}</button></p>`;
  return html`<p class="note">${words.intro}</p><form class="fields" method="post" action="${kindLink(kind, query)}"${live}>
${content}${hidden(view)}${faultList(view, reader)}${faults.length === 0 && form.groups.length > 3 ? show : null}${nameField(view, reader)}
${formGroups(form, { body, faults, language })}<p class="adds">${adds}</p>${show}${out}</form>
${isLive ? html`<div id="week" class="scr live" role="region" aria-label="${words.weekTitle}" tabindex="0" hidden></div><script src="${SCRIPT_LINK}" defer></script>` : null}`;
}

const hidden = ({ id, revision }: DefinitionView): Markup =>
  html`${id === null ? null : html`<input type="hidden" name="id" value="${id}">`}<input type="hidden" name="revision" value="${revision === null ? 'new' : String(revision)}">`;

/** The name of a new limit set is no part of its list. */
function nameField({ kind, id, typedId }: DefinitionView, { language }: SettingsReader): Piece {
  if (kind !== 'limits' || id !== null) return null;
  const { fields } = settingsWords(language);
  return html`<p><label for="f-new-id">${fields.name}</label><input id="f-new-id" name="id" maxlength="63" autocomplete="off" value="${typedId}"></p>`;
}

function faultList({ faults, form }: DefinitionView, { language }: SettingsReader): Piece {
  if (faults.length === 0) return null;
  const rows = faults.map((fault) => {
    const [field] = fieldsAbout(form, fault);
    if (field === undefined) return html`<li lang="en">${fault.path}: ${fault.message}</li>`;
    return html`<li><a class="tap" href="#${idOf(field.path)}">${field.label}</a>: <span lang="en">${fault.message}</span></li>`;
  });
  return html`<div class="bad" role="alert"><p>${settingsWords(language).faults}</p><ul>${rows}</ul></div>`;
}

function looking({ form, body }: DefinitionView, { language }: SettingsReader): Markup {
  const words = settingsWords(language);
  const groups = form.groups.map(({ title, fields }) => {
    const rows = fields.flatMap((field) => {
      const text = shownText(field, body);
      return text === '' || text === '–'
        ? []
        : [html`<li><span class="note">${field.label}:</span> <b>${text}</b></li>`];
    });
    return rows.length === 0 ? null : html`<h2>${title}</h2><ul class="rows">${rows}</ul>`;
  });
  return html`<p class="note">${words.lookOnly}</p>${groups}`;
}

function keptNote({ kind, body }: DefinitionView, { language }: SettingsReader): Piece {
  const kept = KEPT_KEYS[kind].filter((key) => valueAt(body, key) !== undefined);
  if (kept.length === 0) return null;
  const parts = kept.map(
    (key) => html`<h3>${key}</h3><pre>${JSON.stringify(valueAt(body, key), null, 1)}</pre>`,
  );
  // "All sites" of an order within an area is not all: nobody is to open anything to learn that.
  const open = kind === 'orders' ? html` open` : null;
  return html`<details${open}><summary>${settingsWords(language).kept}</summary>${parts}</details>`;
}

function historyOf({ history }: DefinitionView, { language }: SettingsReader): Piece {
  if (history.length === 0) return null;
  const words = settingsWords(language);
  const rows = history.map(
    ({ revision, origin, at, by, isOut }) =>
      html`<li><b>r${revision}</b> ${at}, ${words.who} ${by}, ${origin === 'file' ? words.fromFile : words.fromHere}${isOut ? html`. ${words.takenOut}` : null}</li>`,
  );
  return html`<h2>${words.history}</h2><p class="note">${words.wins}</p><ul class="rows">${rows}</ul>`;
}
