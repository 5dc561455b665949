// JSON schemas as nested lists. A reference is a link, so that no schema is written twice and none goes round in a ring.

import { html, type Markup } from './html.ts';

export type Json = Readonly<Record<string, unknown>>;

/** Deeper than this a list helps nobody; the document itself has the rest. */
const DEEPEST = 8;

export const asObject = (value: unknown): Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Json) : {};

export const asText = (value: unknown): string | null =>
  typeof value === 'string' && value !== '' ? value : null;

export const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

/** The schema in one line, and what it holds below. */
export function schemaList(schema: unknown, depth = 0): Markup | null {
  const found = asObject(schema);
  if (Object.keys(found).length === 0 || depth > DEEPEST) return null;
  const inner = innerOf(found, depth);
  return html`<ul><li>${lineOf(found)}${inner}</li></ul>`;
}

function innerOf(schema: Json, depth: number): Markup | null {
  const required = new Set(listOf(schema['required']));
  const properties = Object.entries(asObject(schema['properties'])).map(([name, property]) => {
    const found = asObject(property);
    const optional = required.has(name) ? null : html`, may be left out`;
    return html`<li><code>${name}</code> ${lineOf(found)}${optional}${innerOf(found, depth + 1)}</li>`;
  });
  if (depth > DEEPEST) return null;
  const list = properties.length > 0 ? html`<ul>${properties}</ul>` : null;
  const items = isPlain(schema['items']) ? null : schemaList(schema['items'], depth + 1);
  const values = isPlain(schema['additionalProperties'])
    ? null
    : schemaList(schema['additionalProperties'], depth + 1);
  const choices = choicesOf(schema);
  const several = choices.every(isPlain) ? null : choices.map((choice) => schemaList(choice, depth + 1));
  return html`${list}${items}${values}${several}`;
}

const choicesOf = (schema: Json): readonly unknown[] =>
  ['anyOf', 'oneOf', 'allOf'].flatMap((key) => [...listOf(schema[key])]);

/** Told in full by its line alone. */
function isPlain(schema: unknown): boolean {
  const found = asObject(schema);
  return !['properties', 'items', 'additionalProperties', 'anyOf', 'oneOf', 'allOf'].some((key) =>
    Object.hasOwn(found, key),
  );
}

function lineOf(schema: Json): Markup {
  const about = asText(schema['description']);
  const bounds = boundsOf(schema);
  return html`${kindOf(schema)}${bounds === '' ? null : html` (${bounds})`}${about === null ? null : html`: ${about}`}`;
}

function kindOf(schema: Json): Markup {
  const reference = asText(schema['$ref']);
  if (reference !== null) {
    const name = reference.split('/').at(-1) ?? reference;
    return html`<a class="ref" href="#schema-${name}">${name}</a>`;
  }
  const choices = choicesOf(schema);
  if (choices.length > 0) {
    return html`${choices.map((choice, i) => html`${i > 0 ? ' or ' : null}${kindOf(asObject(choice))}`)}`;
  }
  if (Array.isArray(schema['enum'])) return html`${schema['enum'].map(literal).join(' | ')}`;
  if (Object.hasOwn(schema, 'const')) return html`${literal(schema['const'])}`;
  const type = Array.isArray(schema['type'])
    ? schema['type'].map(String).join(' or ')
    : (asText(schema['type']) ?? 'any');
  return Object.hasOwn(schema, 'items')
    ? html`${type} of ${kindOf(asObject(schema['items']))}`
    : html`${type}`;
}

const literal = (value: unknown): string => JSON.stringify(value) ?? 'any';

/** Bounds, format and default, as far as they are given. */
function boundsOf(schema: Json): string {
  const { format, pattern } = schema;
  // The range of safe integers is JavaScript's, not ours to tell.
  const given = ['minimum', 'maximum', 'minLength', 'maxLength', 'minItems', 'maxItems', 'default']
    .filter((key) => Object.hasOwn(schema, key) && Math.abs(Number(schema[key])) !== Number.MAX_SAFE_INTEGER)
    .map((key) => `${key} ${literal(schema[key])}`);
  return [asText(format), asText(pattern) && `pattern ${asText(pattern)}`, ...given]
    .filter((part) => part !== null)
    .join(', ');
}

/** `example`, or the values of `examples` whether a list or named. */
export function exampleOf(holder: Json): Markup | null {
  const { example, examples } = holder;
  const named = Object.values(asObject(examples)).map((found) => asObject(found)['value'] ?? found);
  const all = [...(example === undefined ? [] : [example]), ...listOf(examples), ...named];
  if (all.length === 0) return null;
  return html`${all.map((value) => html`<pre tabindex="0">${JSON.stringify(value, null, 2) ?? ''}</pre>`)}`;
}

/** Names of the schemas that something refers to, directly or through another. */
export function namedFrom(start: unknown, schemas: Json): ReadonlySet<string> {
  const names = new Set<string>();
  const queue: unknown[] = [start];
  while (queue.length > 0) {
    for (const [key, value] of Object.entries(queue.pop() ?? {})) {
      const name = key === '$ref' && typeof value === 'string' ? (value.split('/').at(-1) ?? '') : null;
      if (typeof value === 'object' && value !== null) queue.push(value);
      if (name === null || names.has(name)) continue;
      names.add(name);
      queue.push(schemas[name]);
    }
  }
  return names;
}
