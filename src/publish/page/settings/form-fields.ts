// Groups of fields as HTML. What is wrong with a field stands beside it, in the words of whoever reads bodies.

import { html, type Markup } from '#publish/page/html.ts';
import { settingsWords } from '#publish/wording/settings-words.ts';
import type { Language } from '#publish/wording/show.ts';
import { type Field, type Form, type Group, shownOf } from './form-field.ts';

export interface Fault {
  readonly path: string;
  readonly message: string;
}

interface Shown {
  readonly body: unknown;
  readonly faults: readonly Fault[];
  readonly language: Language;
}

export const formGroups = (form: Form, shown: Shown): Markup[] =>
  form.groups.map((group, i) => groupOf(group, i, form, shown));

/** The fields that each fault is about: those at its place, within it, or around it. */
export function fieldsAbout(form: Form, { path }: Fault): Field[] {
  const fields = form.groups.flatMap((group) => group.fields);
  const within = fields.filter(
    (f) => f.path === path || f.path.startsWith(`${path}.`) || f.path.startsWith(`${path}[`),
  );
  if (within.length > 0) return within.slice(0, 1);
  return fields.filter((f) => path.startsWith(`${f.path}.`) || path.startsWith(`${f.path}[`)).slice(0, 1);
}

export const idOf = (path: string): string => `f-${path.replaceAll(/[^A-Za-z0-9]+/g, '-')}`;

function groupOf(group: Group, i: number, form: Form, shown: Shown): Markup {
  const { remove } = settingsWords(shown.language);
  const out = group.removable
    ? html`<p><button class="lesser" name="do" value="remove:${group.path}">${remove}<span class="skip">: ${group.title} ${i + 1}</span></button></p>`
    : null;
  return html`<fieldset><legend>${group.title}</legend><div class="pairs">${group.fields.map((field) => fieldOf(field, form, shown))}</div>${out}</fieldset>
`;
}

function fieldOf(field: Field, form: Form, shown: Shown): Markup {
  const messages = shown.faults
    .filter((fault) => fieldsAbout(form, fault).includes(field))
    .map((f) => f.message);
  const id = idOf(field.path);
  const bad =
    messages.length === 0
      ? null
      : html`<span class="bad" lang="en" id="${id}-bad">${messages.join('; ')}</span>`;
  const hint =
    field.hint === undefined ? null : html`<span class="note" id="${id}-hint">${field.hint}</span>`;
  const ids = [...(hint === null ? [] : [`${id}-hint`]), ...(bad === null ? [] : [`${id}-bad`])];
  const about = ids.length === 0 ? null : html` aria-describedby="${ids.join(' ')}"`;
  const invalid = bad === null ? null : html` aria-invalid="true"`;
  const more = html`${about}${invalid}`;
  const value = shownOf(field, shown.body);
  if (field.kind === 'set') return setOf(field, value, { id, hint, bad, about });
  const text = typeof value === 'string' ? value : value.join(', ');
  if (field.kind === 'flag') {
    const ticked = text === '' ? null : html` checked`;
    return html`<p class="wide"><label class="pick"><input type="checkbox" id="${id}" name="${field.path}"${ticked}${more}> ${field.label}</label>${bad}</p>`;
  }
  return html`<p><label for="${id}">${field.label}</label>${field.kind === 'choice' ? choiceOf(field, text, id, more) : inputOf(field, text, id, more)}${hint}${bad}</p>`;
}

function inputOf({ path, input }: Field, text: string, id: string, more: Markup): Markup {
  const mode = input === 'numeric' ? html` inputmode="decimal"` : null;
  return html`<input id="${id}" name="${path}" type="text"${mode} maxlength="300" autocomplete="off" value="${text}"${more}>`;
}

function choiceOf({ path, options = [] }: Field, text: string, id: string, more: Markup): Markup {
  // What is written and no longer one of them is still shown, and told to be wrong.
  const all = options.some(([value]) => value === text) ? options : [[text, text] as const, ...options];
  return html`<select id="${id}" name="${path}"${more}>${all.map(
    ([value, word]) =>
      html`<option value="${value}"${value === text ? html` selected` : null}>${word}</option>`,
  )}</select>`;
}

interface SetParts {
  readonly id: string;
  readonly hint: Markup | null;
  readonly bad: Markup | null;
  readonly about: Markup | null;
}

function setOf(
  { path, label, options = [] }: Field,
  value: string | readonly string[],
  parts: SetParts,
): Markup {
  const boxes = options.map(
    ([own, word]) =>
      html`<label class="pick"><input type="checkbox" name="${path}:${own}"${value.includes(own) ? html` checked` : null}> ${word}</label>`,
  );
  return html`<div class="wide set" role="group" id="${parts.id}" aria-label="${label}"${parts.about}><b>${label}</b>${boxes}${parts.hint}${parts.bad}</div>`;
}
