// Mistyped words: which known one was meant.

/** The known word nearest to a mistyped one, where it is near at all. */
export function nearest(word: string, known: readonly string[], most?: number): string | null {
  const ranked = known
    .map((k) => ({ k, distance: editDistance(word, k) }))
    .sort((a, b) => a.distance - b.distance);
  const best = ranked[0];
  return best && best.distance <= (most ?? Math.max(1, Math.floor(best.k.length / 3))) ? best.k : null;
}

function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const swap = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(swap, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
