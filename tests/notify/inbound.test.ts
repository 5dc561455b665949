// Reserved words: 47 CFR 64.1200(a)(10), and the keyword lists of providers named in reserved-words.ts. That they count as
// the whole message is published by the same providers; some match its beginning, which ours do not.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readInbound } from '#notify/inbound.ts';
import { OPT_IN_WORDS, OPT_OUT_WORDS } from '#publish/wording/texts/reserved-words.ts';

describe('an incoming text', () => {
  it.each([
    ['1', 1],
    ['2', 2],
    [' 1 ', 1],
    ['1.', 1],
    ['#1', 1],
    ['1)', 1],
    ['"1"', 1],
    ['１', 1],
    ['1️⃣', 1],
    ['1 done at the pit', 1],
    ['1\nok', 1],
    ['2 the excavator is broken', 2],
    ['2, llamen', 2],
  ] as const)('%j is the answer %i', (text, digit) => {
    expect(readInbound(text)).toEqual({ kind: 'answer', digit });
  });

  it.each([
    ['STOP', 'stop'],
    ['stop', 'stop'],
    [' Stop. ', 'stop'],
    ['STOP!!!', 'stop'],
    ['ＳＴＯＰ', 'stop'],
    ['S\u200bTOP', 'stop'],
    ['End', 'end'],
    ['QUIT', 'quit'],
    ['Revoke', 'revoke'],
    ['opt out', 'opt out'],
    ['Opt-Out', 'opt-out'],
    ['OPTOUT', 'optout'],
    ['StopAll', 'stopall'],
    ['REMOVE', 'remove'],
    ['Arrêt', 'arret'],
    ['ALTO', 'alto'],
    ['Baja', 'baja'],
    ['parar', 'parar'],
    ['cancelar', 'cancelar'],
    ['No más', 'no mas'],
    ['Fin', 'fin'],
  ])('%j opts out', (text, word) => {
    expect(readInbound(text)).toEqual({ kind: 'opt-out', word });
  });

  it.each([
    ['START', 'start'],
    ['Yes', 'yes'],
    ['unstop', 'unstop'],
    ['Sí', 'si'],
    ['INICIO', 'inicio'],
  ])('%j opts in again', (text, word) => {
    expect(readInbound(text)).toEqual({ kind: 'opt-in', word });
  });

  it.each([
    '',
    ' ',
    '🔥',
    'ok',
    'got it',
    'uno',
    'yes we put it out',
    'STOPPED at 1342',
    'STOP at 1342',
    'stop 1',
    'STOP\n1',
    'END of shift',
    'Cancel please',
    'please stop texting',
    'No mas lena, ya tapamos',
    'fire jumped the berm',
    'ended',
    'HELP',
    'ayuda',
    '10',
    '12',
    '1342',
    '1/2',
    '1 or 2?',
    '1 stop',
    '1 - STOP',
    '3',
    '-1',
    'call me',
    'NO',
    'we will stop',
  ])('%j is for somebody to read, and acknowledges nothing', (text) => {
    expect(readInbound(text)).toEqual({ kind: 'other' });
  });

  it('that begins with a word to opt out opts out where that is all of it, and is never an answer', () => {
    const letters = (word: string) =>
      fc.constantFrom(word, word.toUpperCase(), ` ${word}`, `${word}.`, `"${word}"`);
    fc.assert(
      fc.property(
        fc.constantFrom(...OPT_OUT_WORDS).chain(letters),
        fc.string({ maxLength: 30 }),
        (word, rest) => {
          expect(readInbound(word).kind).toBe('opt-out');
          expect(readInbound(`${word} ${rest}`).kind).not.toBe('answer');
          expect(readInbound(`${word} lena ${rest}`).kind).toBe('other');
        },
      ),
      { seed: 4711 },
    );
  });

  it('that has a reserved word anywhere as its own is never an answer', () => {
    const words = fc.constantFrom(...OPT_OUT_WORDS, ...OPT_IN_WORDS);
    fc.assert(
      fc.property(words, fc.constantFrom('1', '2', '1 ok', '2 we'), (word, before) => {
        expect(readInbound(`${before} ${word}`).kind).not.toBe('answer');
      }),
      { seed: 4711 },
    );
  });

  it('of any kind is read without a fault', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 0x10ffff }), { maxLength: 50 }), (codes) => {
        const text = String.fromCodePoint(...codes);
        expect(['opt-out', 'opt-in', 'answer', 'other']).toContain(readInbound(text).kind);
      }),
      { seed: 4711 },
    );
  });
});
