// The OpenAPI document as published: each operation named, each schema once, open to fields to come.

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
  return { ...open, paths: named(open['paths']), components: { ...components, schemas: kept } };
}

const METHODS = new Set(['get', 'put', 'post', 'delete', 'patch', 'head', 'options']);

/** Each operation gets a name, which is that of its method and path for as long as these stand: `getV1SitesIdPlan`. */
function named(paths: unknown): unknown {
  if (!isObject(paths)) return paths;
  const nameOf = (method: string, path: string): string =>
    [method, ...path.split(/[^A-Za-z0-9]+/).filter((word) => word !== '')]
      .map((word, i) => (i === 0 ? word : `${word[0]?.toUpperCase()}${word.slice(1)}`))
      .join('');
  return Object.fromEntries(
    Object.entries(paths).map(([path, item]) => [
      path,
      Object.fromEntries(
        Object.entries(item as Json).map(([method, operation]) =>
          METHODS.has(method)
            ? [method, { operationId: nameOf(method, path), ...(operation as Json) }]
            : [method, operation],
        ),
      ),
    ]),
  );
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
