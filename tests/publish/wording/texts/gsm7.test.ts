// Counts: 3GPP TS 23.038 as told by sms-segments-calculator 1.3.0, an independent implementation, over tables and random text.

import fc from 'fast-check';
import { SegmentedMessage } from 'sms-segments-calculator';
import { describe, expect, it } from 'vitest';
import { gsm7Bytes, gsm7Length, gsm7Text, SEGMENT_SEPTETS, toGsm7 } from '#publish/wording/texts/gsm7.ts';

/** Lone halves of pairs included. */
const anyText = fc
  .array(fc.integer({ min: 0, max: 0x10ffff }), { maxLength: 80 })
  .map((codes) => String.fromCodePoint(...codes));

const oracle = (text: string) => new SegmentedMessage(text, 'auto');

describe('length of a text', () => {
  it.each([
    ['a', 160, 1],
    ['a', 161, 2],
    ['a', 306, 2],
    ['a', 307, 3],
    ['€', 80, 1],
    ['€', 81, 2],
    ['ñ', 160, 1],
    ['á', 70, 1],
    ['á', 71, 2],
  ])('%s × %i is %i segments by the oracle, and ours agrees on the first', (char, count, segments) => {
    const text = char.repeat(count);
    expect(oracle(text).segmentsCount).toBe(segments);
    const length = gsm7Length(text);
    expect(length !== null && length <= SEGMENT_SEPTETS).toBe(segments === 1 && char !== 'á');
  });

  it('agrees with the oracle character by character over all letters and marks below U+3000', () => {
    const differ: string[] = [];
    for (let code = 0x20; code < 0x3000; code += 1) {
      const char = String.fromCodePoint(code);
      // Marks join the character before them: alone they are no character of the oracle.
      const isGsm = oracle(char).encodingName === 'GSM-7';
      if (isGsm !== (gsm7Length(char) !== null)) differ.push(`${code.toString(16)} ${char}`);
    }
    expect(differ).toEqual([]);
  });

  it('agrees with the oracle on the length of any text of the alphabet', () => {
    const alphabet = [
      ...'@£$¥èéùìòÇØøÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !"#¤%&\'()*+,-./09:;<=>?¡AZÄÖÑÜ§¿azäöñüà',
      ...'^{}\\[~]|€',
    ];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...alphabet), { maxLength: 320 }), (chars) => {
        const text = chars.join('');
        const { encodedChars } = oracle(text);
        expect(gsm7Length(text)).toBe(encodedChars.reduce((sum, c) => sum + (c.codeUnits?.length ?? 0), 0));
      }),
      { seed: 4711 },
    );
  });
});

describe('bytes of a text', () => {
  it.each([
    ['@', [0x00]],
    ['$', [0x02]],
    ['ñ', [0x7d]],
    ['Ñ', [0x5d]],
    ['é', [0x05]],
    ['€', [0x1b, 0x65]],
    ['[1]', [0x1b, 0x3c, 0x31, 0x1b, 0x3e]],
    ['A a', [0x41, 0x20, 0x61]],
  ])('%s is %j (TS 23.038, tables of section 6.2.1)', (text, bytes) => {
    expect([...(gsm7Bytes(text) ?? [])]).toEqual(bytes);
  });

  it('come back as the same text', () => {
    fc.assert(
      fc.property(anyText, (any) => {
        const text = toGsm7(any);
        const bytes = gsm7Bytes(text);
        expect(bytes).not.toBeNull();
        expect(gsm7Text(bytes ?? new Uint8Array())).toBe(text);
      }),
      { seed: 4711 },
    );
  });

  it('that are no text of the alphabet read as question marks, never as a fault', () => {
    expect(gsm7Text(Uint8Array.from([0x80, 0xff, 0x41]))).toBe('??A');
    expect(gsm7Text(Uint8Array.from([0x41, 0x1b]))).toBe('A');
    expect(gsm7Text(Uint8Array.from([0x1b, 0x41]))).toBe('A');
  });
});

describe('any text in this alphabet', () => {
  it.each([
    ['cambió el día aquí, según tú', 'cambio el dia aqui, segun tu'],
    ['señal útil: ¿qué?', 'señal util: ¿qué?'],
    ['180°', '180 deg'],
    ['59 °F / 15 °C', '59 F / 15 C'],
    ['59°F', '59 F'],
    ['“Hollow Creek” – Pit ’7’…', '"Hollow Creek" - Pit \'7\'...'],
    ['½ mile', '1/2 mile'],
    ['m²/s', 'm2/s'],
    ['Łódź', 'Lodz'],
    ['açaí', 'acai'],
    ['a\u0301', 'a'],
    ['Pit\u00a07\u200b', 'Pit 7'],
    ['line\r\nbreak\tand\u0000null\u001b[31m', 'line break and null [31m'],
    ['🔥 Pit', '? Pit'],
    ['Ｐｉｔ ７', 'Pit 7'],
    ['  two   blanks ', 'two blanks'],
  ])('%j becomes %j', (from, to) => {
    expect(toGsm7(from)).toBe(to);
  });

  it('is one that the oracle counts in septets, whatever came in', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), (any) => {
        const text = toGsm7(any);
        expect(oracle(text).encodingName).toBe('GSM-7');
        expect(toGsm7(text)).toBe(text);
      }),
      { seed: 4711 },
    );
  });
});
