// A field of a form over a body as written: what it is called, how it is shown, and what of a body it shows.

import { valueAt } from './body-path.ts';

export interface Field {
  /** Where it stands in the body, and its name in the form. */
  readonly path: string;
  readonly label: string;
  /**
   * text: as written, such as "15 mph". number, numbers, words: lists with commas between. choice: one of the options. set: any
   * of them. flag: true where it is ticked.
   */
  readonly kind: 'text' | 'number' | 'numbers' | 'words' | 'choice' | 'set' | 'flag';
  /** Value and word. */
  readonly options?: readonly (readonly [value: string, word: string])[];
  /** What holds where it is left out. */
  readonly unsaid?: string;
  /** Of a set: the option for all, and what it writes; undefined: nothing. */
  readonly all?: { readonly option: string; readonly writes: string | undefined };
  /** Left empty it stays there, and is told to be lacking. */
  readonly required?: boolean;
  readonly hint?: string;
  readonly input?: 'date' | 'time' | 'numeric';
}

export interface Group {
  /** Of the row, or '' for what stands alone. */
  readonly path: string;
  readonly title: string;
  readonly fields: readonly Field[];
  readonly removable: boolean;
}

export interface Form {
  readonly groups: readonly Group[];
  /** Rows that can be added: path of the list, kind, word. */
  readonly adds: readonly { readonly path: string; readonly kind: string; readonly word: string }[];
}

/** What the field shows; of a set the options that are ticked. */
export function shownOf(field: Field, body: unknown): string | readonly string[] {
  const value = valueAt(body, field.path);
  if (field.kind === 'set') {
    if (Array.isArray(value)) return value.map(String);
    return field.all !== undefined && (value === undefined || value === field.all.writes)
      ? [field.all.option]
      : [];
  }
  if (field.kind === 'flag') return value === true ? 'on' : '';
  if (value === undefined || value === null) return field.unsaid ?? '';
  if (Array.isArray(value)) return value.map(String).join(', ');
  if (typeof value === 'object') return '';
  return String(value);
}

/** For lists of what changes. */
export function shownText(field: Field, body: unknown): string {
  const shown = shownOf(field, body);
  const wordOf = (value: string): string => field.options?.find(([own]) => own === value)?.[1] ?? value;
  if (typeof shown !== 'string') return shown.map(wordOf).join(', ');
  if (field.kind !== 'flag') return wordOf(shown);
  return shown === '' ? '–' : '✓';
}
