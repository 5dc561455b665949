// iCalendar (RFC 5545, with the properties of RFC 7986): lines, folding, escaping.

export const CALENDAR_TYPE = 'text/calendar; charset=utf-8';

const MOST_OCTETS = 75;

/** Line breaks CRLF; long lines folded between characters at 75 octets (3.1). */
export const calendarText = (lines: readonly string[]): string =>
  lines.map((line) => `${folded(line)}\r\n`).join('');

function folded(line: string): string {
  if (Buffer.byteLength(line) <= MOST_OCTETS) return line;
  let [text, octets] = ['', 0];
  for (const character of line) {
    const more = Buffer.byteLength(character);
    if (octets + more > MOST_OCTETS) {
      text += '\r\n ';
      // The blank counts.
      octets = 1;
    }
    text += character;
    octets += more;
  }
  return text;
}

/** A value of the type TEXT (3.3.11); what no line may hold is left out. */
export const textValue = (text: string): string =>
  text
    .toWellFormed()
    .replaceAll(/[\\;,]/g, '\\$&')
    .replaceAll(/\r\n|[\r\n]/g, '\\n')
    .replaceAll(/(?!\t)\p{Cc}/gu, '');

/** An instant in UTC (3.3.5, form 2). */
export const instantValue = (ms: number): string => new Date(ms).toISOString().replaceAll(/[-:]|\.\d+/g, '');
