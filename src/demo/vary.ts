// Small variations that belong to names: no chance in them, the same name always gives the same.

/** A whole number from -most to most that belongs to a name (FNV-1a, folded). */
export function vary(name: string, most: number): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < name.length; i += 1) hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193);
  hash ^= hash >>> 15;
  return ((hash >>> 0) % (2 * most + 1)) - most;
}
