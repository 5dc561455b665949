import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gsm7Length } from '#publish/wording/texts/gsm7.ts';
import { plainName } from '#publish/wording/texts/plain-name.ts';
import { OPT_IN_WORDS, OPT_OUT_WORDS, reservedWordIn } from '#publish/wording/texts/reserved-words.ts';

describe('a name in a text', () => {
  it.each([
    ['Pit 7', 20, 'Pit 7'],
    ['Fosa del Álamo nº 3', 20, 'Fosa del Alamo no 3'],
    ['Hollow Creek North Orchard Block Pit 12', 20, 'Hollow Creek..Pit 12'],
    ['Hollow Creek North Orchard Block Pit 13', 20, 'Hollow Creek..Pit 13'],
    ['Hollow Creek North Orchard Block Pit 12', 12, 'Holl..Pit 12'],
    ['Supercalifragilisticexpialidocious', 14, 'Supercal..ious'],
    ['End Road', 20, 'EndRoad'],
    ['West End', 20, 'WestEnd'],
    ['Stop 4', 20, 'xStop4'],
    ['STOP', 20, 'xSTOP'],
    ['Opt-out meadow', 20, 'Optoutmeadow'],
    ['Rancho Alto', 20, 'RanchoAlto'],
    ['Info: help, yes', 20, 'Infohelpyes'],
    ['Endless Acres', 20, 'Endless Acres'],
    ['Bad\r\nname\u001b[0m', 20, 'Bad name [0m'],
    ['🔥🔥', 20, 'Site'],
    ['', 20, 'Site'],
    ['  ', 20, 'Site'],
    ['木材', 20, 'Site'],
  ])('%j in %i septets is %j', (name, most, said) => {
    expect(plainName(name, most, 'Site')).toBe(said);
  });

  it('fits, is in the alphabet and has no reserved word, whatever it was', () => {
    const words = fc.constantFrom(
      ...OPT_OUT_WORDS,
      ...OPT_IN_WORDS,
      'Pit',
      '7',
      'Creek',
      'Sí',
      '-',
      '/',
      '€€',
      'ñ',
    );
    const name = fc.oneof(
      fc.array(words, { maxLength: 8 }).map((parts) => parts.join(' ')),
      fc.string({ unit: 'grapheme', maxLength: 60 }),
    );
    fc.assert(
      fc.property(name, fc.integer({ min: 8, max: 40 }), (given, most) => {
        const said = plainName(given, most, 'Site');
        expect(gsm7Length(said)).toBeLessThanOrEqual(most);
        expect(said.length).toBeGreaterThan(0);
        expect(reservedWordIn(said)).toBeNull();
        expect(said).not.toMatch(/[\n\r]/);
      }),
      { seed: 4711, numRuns: 1000 },
    );
  });
});
