// A reader of CSV that knows nothing of the program. No test in here.

/** Reads by the grammar of RFC 4180, section 2, and takes nothing that is not of it. */
export function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  while (at < text.length) {
    const quoted = /"((?:[^"]|"")*)"/y;
    const plain = /[^",\r\n]*/y;
    const form = text[at] === '"' ? quoted : plain;
    form.lastIndex = at;
    const found = form.exec(text);
    if (!found) throw new Error(`no field at ${at}`);
    row.push((found[1] ?? found[0]).replaceAll('""', '"'));
    at += found[0].length;
    if (text[at] === ',') at += 1;
    else if (text.slice(at, at + 2) === '\r\n') {
      rows.push(row);
      row = [];
      at += 2;
    } else throw new Error(`neither a comma nor an end of line at ${at}`);
  }
  return rows;
}
