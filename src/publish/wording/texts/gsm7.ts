// The alphabet of a text that costs one segment: GSM 7-bit default alphabet and its extension table (3GPP TS 23.038,
// section 6.2.1). Anything else in a text would silently cut its room from 160 characters to 70.

/** By septet; U+001B is the escape to the extension table, no character. */
const BASIC = [
  ...'@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞ\u001bÆæßÉ',
  ...' !"#¤%&\'()*+,-./0123456789:;<=>?',
  ...'¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§',
  ...'¿abcdefghijklmnopqrstuvwxyzäöñüà',
];

const ESCAPE = 0x1b;

/** These take two septets: the escape and one more. */
const EXTENSION: readonly (readonly [string, number])[] = [
  ['\f', 0x0a],
  ['^', 0x14],
  ['{', 0x28],
  ['}', 0x29],
  ['\\', 0x2f],
  ['[', 0x3c],
  ['~', 0x3d],
  [']', 0x3e],
  ['|', 0x40],
  ['€', 0x65],
];

const SEPTETS = new Map<string, readonly number[]>([
  ...BASIC.map((char, septet) => [char, [septet]] as const),
  ...EXTENSION.map(([char, septet]) => [char, [ESCAPE, septet]] as const),
]);
SEPTETS.delete('\u001b');

const EXTENDED = new Map(EXTENSION.map(([char, septet]) => [septet, char]));

/** What one segment holds [septets]. */
export const SEGMENT_SEPTETS = 160;

/** [septets]; null where a character is not in the alphabet. */
export function gsm7Length(text: string): number | null {
  let length = 0;
  for (const char of text) {
    const septets = SEPTETS.get(char);
    if (septets === undefined) return null;
    length += septets.length;
  }
  return length;
}

/** One septet in each byte, as gateways want it; null where a character is not in the alphabet. */
export function gsm7Bytes(text: string): Uint8Array | null {
  const bytes: number[] = [];
  for (const char of text) {
    const septets = SEPTETS.get(char);
    if (septets === undefined) return null;
    bytes.push(...septets);
  }
  return Uint8Array.from(bytes);
}

/** Back to text. An escape before nothing known reads as the character without it, as the standard has it. */
export function gsm7Text(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 1) {
    const byte = bytes[i] as number;
    if (byte !== ESCAPE) text += BASIC[byte] ?? '?';
    else if (i + 1 < bytes.length) {
      i += 1;
      const next = bytes[i] as number;
      text += EXTENDED.get(next) ?? BASIC[next] ?? '?';
    }
  }
  return text;
}

/** What reads the same in other letters. */
const ALIKE: Readonly<Record<string, string>> = {
  '‘': "'",
  '’': "'",
  '‚': "'",
  '‛': "'",
  '`': "'",
  '´': "'",
  ʼ: "'",
  '′': "'",
  '“': '"',
  '”': '"',
  '„': '"',
  '«': '"',
  '»': '"',
  '″': '"',
  '‐': '-',
  '‑': '-',
  '‒': '-',
  '–': '-',
  '—': '-',
  '―': '-',
  '−': '-',
  '…': '...',
  '⁄': '/',
  '·': '.',
  '•': '*',
  '×': 'x',
  '÷': '/',
  '±': '+/-',
  '≥': '>=',
  '≤': '<=',
  '→': '->',
  '←': '<-',
  '°': ' deg',
  º: 'o',
  ª: 'a',
  œ: 'oe',
  Œ: 'OE',
  ł: 'l',
  Ł: 'L',
  đ: 'd',
  Đ: 'D',
  ð: 'd',
  Ð: 'D',
  þ: 'th',
  Þ: 'Th',
  ı: 'i',
};

/**
 * Any text in this alphabet: letters lose accents that it lacks, marks become plain ones, what has no likeness a question
 * mark. Control characters become blanks, and blanks one.
 */
export function toGsm7(text: string): string {
  // Most texts are: nothing to do for them.
  if (/^[!-Z_a-z](?: ?[!-Z_a-z])*$/.test(text)) return text;
  const temperature = text.normalize('NFC').replace(/\s*°\s?([FC])(?![a-z])/g, ' $1');
  let plain = '';
  for (const char of temperature) plain += plainChar(char);
  return plain.replace(/ {2,}/g, ' ').trim();
}

function plainChar(char: string): string {
  if (isControl(char) || /\p{Z}/u.test(char)) return ' ';
  if (SEPTETS.has(char)) return char;
  const alike = ALIKE[char];
  if (alike !== undefined) return alike;
  // Joiners and marks of their own have no shape.
  if (/\p{M}|\p{Cf}/u.test(char)) return '';
  const parts = [...char.normalize('NFKD').replace(/\p{M}/gu, '')];
  if (parts.length === 1 && parts[0] === char) return '?';
  return parts.map((part) => (SEPTETS.has(part) ? part : (ALIKE[part] ?? '?'))).join('');
}

const isControl = (char: string): boolean => char < ' ' || (char >= '\u007f' && char <= '\u009f');
