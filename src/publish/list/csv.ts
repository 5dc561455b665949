// Tables as CSV (RFC 4180), UTF-8. A spreadsheet takes a text that begins with one of a few signs for a formula and runs it:
// such a text gets an apostrophe before it (OWASP, CSV Injection). Numbers are ours, and stay numbers.

export type Cell = string | number | null;

export const CSV_TYPE = 'text/csv; charset=utf-8; header=present';

const FORMULA = /^[=+\-@\t\r]/;

export function csvCell(value: Cell): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const safe = FORMULA.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

export const csvLine = (cells: readonly Cell[]): string => `${cells.map(csvCell).join(',')}\r\n`;

export const csvText = (head: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  [head, ...rows].map(csvLine).join('');

/** As a file to be kept. */
export const csvHeaders = (file: string): Record<string, string> => ({
  'content-type': CSV_TYPE,
  'content-disposition': `attachment; filename="${file}.csv"`,
});
