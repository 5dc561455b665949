// What the forms of all kinds of definition are put together with.

import { type FieldName, settingsWords } from '#publish/wording/settings-words.ts';
import type { Language } from '#publish/wording/show.ts';
import { valueAt } from './body-path.ts';
import type { Field, Form } from './form-field.ts';

export interface FormContext {
  readonly language: Language;
  /** That whoever asks may see: id and name. */
  readonly sites: readonly (readonly [id: string, name: string])[];
  readonly limitSets: readonly string[];
  readonly isNew: boolean;
}

export type FormMaker = (body: unknown, context: FormContext) => Form;

interface More extends Pick<Field, 'options' | 'unsaid' | 'all' | 'required' | 'hint' | 'input'> {
  /** Options by their words in both languages. */
  readonly words?: readonly string[];
}

/** Makes fields of a row, or of the whole body where `path` is empty. */
export function fieldMaker(path: string, language: Language) {
  const { fields, options } = settingsWords(language);
  return (key: string, label: FieldName, kind: Field['kind'], { words, ...more }: More = {}): Field => ({
    path: path === '' ? key : `${path}.${key}`,
    label: fields[label],
    kind,
    ...(words ? { options: words.map((word) => [word, options[word] ?? word] as const) } : {}),
    ...more,
  });
}

/** What stands at a place as a list; none where it is no list. */
export function listAt(body: unknown, path: string): readonly unknown[] {
  const value = path === '' ? body : valueAt(body, path);
  return Array.isArray(value) ? value : [];
}

/** All sites first; and of those named already the ones that are not among them, such as one that cannot be judged now. */
export function siteOptions(body: unknown, { language, sites }: FormContext): NonNullable<Field['options']> {
  const known = new Set(sites.map(([id]) => id));
  const others = listAt(body, 'sites').filter((id): id is string => typeof id === 'string' && !known.has(id));
  const { options } = settingsWords(language);
  return [['all', options['all'] ?? 'all'], ...sites, ...others.map((id) => [id, id] as const)];
}
