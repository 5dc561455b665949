// Long lists in pieces: both databases bound the values of one statement (SQLite 32,766, PostgreSQL 65,535).

const ROWS_AT_ONCE = 400;

export function chunks<T>(list: readonly T[], size = ROWS_AT_ONCE): T[][] {
  const count = Math.ceil(list.length / size);
  return Array.from({ length: count }, (_, i) => list.slice(i * size, (i + 1) * size));
}
