// Bytes → lines, with a cap: what is longer than any line is dropped whole, and counted.

export interface LineSplitter {
  /** Lines that the chunk completes, without their ends. */
  push(chunk: Uint8Array): { readonly lines: readonly string[]; readonly dropped: number };
}

export function makeLineSplitter(mostBytes: number): LineSplitter {
  let held = '';
  let tooLong = false;
  return {
    push(chunk) {
      const parts = (held + Buffer.from(chunk).toString('latin1')).split(/\r\n|\n|\r/);
      held = parts.pop() ?? '';
      const lines: string[] = [];
      let dropped = 0;
      for (const part of parts) {
        if (!tooLong && part.length <= mostBytes) {
          if (part !== '') lines.push(part);
        } else dropped += 1;
        tooLong = false;
      }
      if (held.length > mostBytes) {
        held = '';
        tooLong = true;
      }
      return { lines, dropped };
    },
  };
}
