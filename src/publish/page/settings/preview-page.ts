// What a change does, before it is saved: what becomes what, and what the coming week becomes. Its button saves exactly this.

import { html, type Markup, type Piece } from '#publish/page/html.ts';
import { page } from '#publish/page/shell.ts';
import { type SettingsKind, settingsWords } from '#publish/wording/settings-words.ts';
import type { BodyChange } from './body-changes.ts';
import { kindLink, saveLink } from './settings-links.ts';
import type { SettingsReader } from './settings-reader.ts';
import { type Weeks, weekChange } from './week-change.ts';

export interface PreviewView {
  readonly kind: SettingsKind;
  /** Null for an order that has none yet. */
  readonly id: string | null;
  readonly name: string;
  readonly revision: number | null;
  /** Null: it is taken out. */
  readonly body: unknown;
  readonly changes: readonly BodyChange[];
  /** Null where no plan goes by it. */
  readonly weeks: Weeks | null;
  /** Somebody else changed it since, or it cannot be saved. */
  readonly refusal: string | null;
  /** What still names it, where it would be taken out. */
  readonly usedBy: readonly string[];
}

export function previewPage(view: PreviewView, reader: SettingsReader): string {
  const words = settingsWords(reader.language);
  const { kind, name, refusal, usedBy, weeks } = view;
  const title = `${words.previewTitle}: ${name}`;
  const told = refusal === null ? null : html`<p class="bad" role="alert">${refusal}</p>`;
  const isBurn = (user: string): boolean => user.startsWith('burn ');
  const burns = usedBy.filter(isBurn);
  const others = usedBy.filter((user) => !isBurn(user));
  const refused = (text: string): Markup => html`<p class="bad" role="alert">${text}</p>`;
  const used = [
    burns.length === 0 ? null : refused(words.burnsThere(burns.join(', '))),
    others.length === 0 ? null : refused(words.inUse(others.join(', '))),
  ];
  return page({
    title,
    language: reader.language,
    demo: reader.demo,
    choice: null,
    look: reader.query['look'],
    zone: null,
    isHome: false,
    main: html`<h1 class="all">${title}</h1>${told}${used}<h2>${words.whatChanges}</h2>${changeList(view, reader)}
${weeks && weekChange(weeks, reader.language)}${usedBy.length > 0 || view.changes.length === 0 ? null : saving(view, reader)}${goingOn(kind, view, reader)}`,
  });
}

function changeList({ changes, body }: PreviewView, { language }: SettingsReader): Piece {
  const words = settingsWords(language);
  if (body === null) return html`<p><b>${words.takenOut}</b></p>`;
  if (changes.length === 0) return html`<p><b>${words.nothing}</b></p>`;
  const rows = changes.map(
    ({ what, before, after }) =>
      html`<li><span class="note">${what}</span><br>${before ?? words.noneBefore} → <b>${after ?? words.leftOut}</b></li>`,
  );
  return html`<ul class="rows">${rows}</ul>`;
}

const carried = ({ id, revision, body }: PreviewView): Markup =>
  html`${id === null ? null : html`<input type="hidden" name="id" value="${id}">`}<input type="hidden" name="revision" value="${revision === null ? 'new' : String(revision)}"><input type="hidden" name="content" value="${JSON.stringify(body)}">`;

const saving = (view: PreviewView, { language, query }: SettingsReader): Markup =>
  html`<form method="post" action="${saveLink(view.kind, query)}">${carried(view)}<p><button class="big">${settingsWords(language).save}</button></p></form>`;

function goingOn(kind: SettingsKind, view: PreviewView, { language, query }: SettingsReader): Piece {
  if (view.body === null) return null;
  return html`<form method="post" action="${kindLink(kind, query)}">${carried(view)}<p><button class="lesser" name="do" value="edit">${settingsWords(language).goOn}</button></p></form>`;
}
