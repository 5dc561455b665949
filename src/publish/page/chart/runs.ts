// Neighbours in a row that say the same, taken together.

export interface Run<T, K> {
  readonly key: K;
  readonly items: readonly T[];
}

/** Items whose key is null are left out, and end a run. */
export function runs<T, K>(items: readonly T[], keyOf: (item: T) => K | null): Run<T, K>[] {
  const found: { key: K; items: T[] }[] = [];
  let open: { key: K; items: T[] } | null = null;
  for (const item of items) {
    const key = keyOf(item);
    if (open !== null && key !== null && open.key === key) open.items.push(item);
    else {
      open = key === null ? null : { key, items: [item] };
      if (open) found.push(open);
    }
  }
  return found;
}
