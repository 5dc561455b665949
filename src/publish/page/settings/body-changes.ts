// Two bodies of one definition → what changes, as a list: before and after, each by the name that its field has on the form.

import { stepsOf } from './body-path.ts';
import { type Field, type Form, shownText } from './form-field.ts';

export interface BodyChange {
  /** "Wind: At most, else hold"; the place itself where no field shows it. */
  readonly what: string;
  /** Null: there was none, or is none any more. */
  readonly before: string | null;
  readonly after: string | null;
}

interface Side {
  readonly body: unknown;
  readonly form: Form;
}

/** One entry for each value that differs. */
export function bodyChanges(before: Side | null, after: Side | null): BodyChange[] {
  const was = before === null ? new Map<string, Leaf>() : leavesOf(before);
  const is = after === null ? new Map<string, Leaf>() : leavesOf(after);
  return [...new Set([...was.keys(), ...is.keys()])].flatMap((name) => {
    const [old, now] = [was.get(name), is.get(name)];
    if (old?.value === now?.value) return [];
    const what = (now ?? old)?.what ?? name;
    return [{ what, before: old?.text ?? null, after: now?.text ?? null }];
  });
}

interface Leaf {
  readonly what: string;
  readonly value: string;
  readonly text: string;
}

/** Values by a name that is the same in both bodies: rows are told apart by what they are about, not by their number. */
function leavesOf({ body, form }: Side): Map<string, Leaf> {
  const shown = new Map(
    form.groups.flatMap((group) =>
      group.fields.map(
        (field) => [field.path, { field, title: group.path === '' ? '' : group.title }] as const,
      ),
    ),
  );
  const leaves = new Map<string, Leaf>();
  const note = (path: string, name: string, value: unknown): void => {
    const known = shown.get(path);
    const what =
      known === undefined ? path : [known.title, known.field.label].filter((t) => t !== '').join(': ');
    leaves.set(name, { what, value: JSON.stringify(value), text: textOf(known?.field, body, value) });
  };
  const walk = (value: unknown, path: string, name: string): void => {
    if (isLeaf(value) || shown.get(path)?.field.kind === 'set') {
      note(path, name, value);
      return;
    }
    const names = new Map<string, number>();
    for (const [key, inner] of Object.entries(value as object)) {
      const isRow = Array.isArray(value);
      const own = isRow ? rowName(inner, names) : key;
      walk(inner, isRow ? `${path}[${key}]` : `${path === '' ? '' : `${path}.`}${key}`, `${name}/${own}`);
    }
  };
  walk(body, '', '');
  return leaves;
}

/** Lists of plain values are one value. */
const isLeaf = (value: unknown): boolean =>
  typeof value !== 'object' ||
  value === null ||
  (Array.isArray(value) && value.every((inner) => typeof inner !== 'object' || inner === null));

const TELLING = ['element', 'name', 'id', 'channel', 'ventilationCategory', 'clock', 'season'];

function rowName(row: unknown, names: Map<string, number>): string {
  const fields = (typeof row === 'object' && row !== null ? row : {}) as Record<string, unknown>;
  const key = TELLING.find((each) => fields[each] !== undefined) ?? 'row';
  const own = typeof fields[key] === 'string' ? `${key}=${fields[key]}` : key;
  const count = (names.get(own) ?? 0) + 1;
  names.set(own, count);
  return `${own}#${count}`;
}

function textOf(field: Field | undefined, body: unknown, value: unknown): string {
  if (field !== undefined && stepsOf(field.path).length > 0) return shownText(field, body);
  return typeof value === 'string' ? value : JSON.stringify(value);
}
