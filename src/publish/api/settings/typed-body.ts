// What was typed into a form → a body as the configuration file would hold it. What is shown as it was stays as it was
// written, and what the form does not show is kept.

import { valueAt, withValue } from '#publish/page/settings/body-path.ts';
import { type Field, type Form, shownOf } from '#publish/page/settings/form-field.ts';

export type Typed = Readonly<Record<string, string>>;

export function typedBody(form: Form, body: unknown, typed: Typed): unknown {
  return form.groups
    .flatMap(({ fields }) => fields)
    .reduce((made, field) => applied(field, made, typed), body);
}

function applied(field: Field, body: unknown, typed: Typed): unknown {
  const given = field.kind === 'set' ? tickedOf(field, typed) : (typed[field.path] ?? '').trim();
  const shown = shownOf(field, body);
  if (String(given) === String(shown)) return body;
  const before = valueAt(body, field.path);
  // An empty choice leaves what other fields write there.
  if (field.kind === 'choice' && given === '' && typeof before === 'object' && before !== null) return body;
  return withValue(body, field.path, written(field, given));
}

const tickedOf = (field: Field, typed: Typed): readonly string[] =>
  (field.options ?? [])
    .map(([value]) => value)
    .filter((value) => typed[`${field.path}:${value}`] !== undefined);

function written({ kind, all, required }: Field, given: string | readonly string[]): unknown {
  if (typeof given !== 'string') return all !== undefined && given.includes(all.option) ? all.writes : given;
  if (given === '') return required ? '' : undefined;
  const parts = given.split(/\s*,\s*/).filter((part) => part !== '');
  if (kind === 'flag') return true;
  if (kind === 'number') return numberOf(given);
  if (kind === 'numbers') return parts.map(numberOf);
  return kind === 'words' ? parts : given;
}

/** What is no number stays as it was typed, and is told to be wrong by whoever reads bodies. */
const numberOf = (text: string): number | string => (Number.isFinite(Number(text)) ? Number(text) : text);
