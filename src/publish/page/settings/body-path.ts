// Places within a body as written, named as its faults name them: `[0].atMost.hold`, `ways[1].to`.

export type Step = string | number;

export const stepsOf = (path: string): readonly Step[] =>
  [...path.matchAll(/\[(\d+)\]|([^.[\]]+)/g)].map(([, index, key = '']) =>
    index === undefined ? key : Number(index),
  );

export function valueAt(body: unknown, path: string): unknown {
  let value = body;
  for (const step of stepsOf(path)) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<Step, unknown>)[step];
  }
  return value;
}

/** The same with one value set; undefined takes it out, and what is then left empty around it. */
export const withValue = (body: unknown, path: string, value: unknown): unknown =>
  placed(body, stepsOf(path), value);

function placed(at: unknown, [step, ...rest]: readonly Step[], value: unknown): unknown {
  if (step === undefined) return value;
  // A word stands for the whole, such as `none` for both margins of daylight.
  if (typeof at === 'string') return at;
  if (typeof step === 'number') {
    const list = Array.isArray(at) ? [...at] : [];
    const inner = placed(list[step], rest, value);
    // A row that was emptied is still one, and is told to be wrong.
    if (rest.length === 0 && value === undefined) return list.filter((_, i) => i !== step);
    list[step] = inner ?? {};
    return list;
  }
  const { [step]: own, ...others } = (at ?? {}) as Record<string, unknown>;
  const inner = placed(own, rest, value);
  if (inner === undefined || (rest.length > 0 && isEmpty(inner))) return others;
  // In the place that it had, so that nothing else seems to change.
  if (own === undefined) return { ...others, [step]: inner };
  return Object.fromEntries(
    Object.entries(at as object).map(([key, kept]) => [key, key === step ? inner : kept]),
  );
}

const isEmpty = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length === 0;
