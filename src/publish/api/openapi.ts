// The OpenAPI document as published: each schema once, open to fields to come.

type Json = Record<string, unknown>;

const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Drops schemas that nothing refers to (the generator names each one twice, for reading and for writing), and the
 * promise that answers have no further fields: fields may be added.
 */
export function tidied(document: unknown): unknown {
  const open = withoutClosedAnswers(document) as Json;
  const components = isObject(open['components']) ? open['components'] : {};
  const schemas = isObject(components['schemas']) ? components['schemas'] : {};
  const paths = JSON.stringify(open['paths']);
  const used = new Set<string>();
  const follow = (text: string): void => {
    for (const [, name = ''] of text.matchAll(/"#\/components\/schemas\/([^"]+)"/g)) {
      if (used.has(name)) continue;
      used.add(name);
      follow(JSON.stringify(schemas[name] ?? null));
    }
  };
  follow(paths);
  const kept = Object.fromEntries(Object.entries(schemas).filter(([name]) => used.has(name)));
  return { ...open, components: { ...components, schemas: kept } };
}

function withoutClosedAnswers(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutClosedAnswers);
  if (!isObject(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key, inner]) => !(key === 'additionalProperties' && inner === false))
      .map(([key, inner]) => [key, withoutClosedAnswers(inner)]),
  );
}
