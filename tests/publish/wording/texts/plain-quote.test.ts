// What people write to us, told on to an office: read as it was written, with no reserved word of its own.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { gsm7Length } from '#publish/wording/texts/gsm7.ts';
import { plainQuote } from '#publish/wording/texts/plain-quote.ts';
import {
  HELP_WORDS,
  OPT_IN_WORDS,
  OPT_OUT_WORDS,
  reservedWordIn,
} from '#publish/wording/texts/reserved-words.ts';

it.each([
  ['No mas lena, ya tapamos', "N'o mas lena, ya tapamos"],
  ['No más leña', "N'o mas leña"],
  ['at the end of the road', "at the en'd of the road"],
  ['Stop! Sí, alto', "Sto'p! S'i, alt'o"],
  ['can not stop-gap', "can not sto'p-gap"],
  ['all good here', 'all good here'],
])('%s keeps its words apart', (written, read) => {
  expect(plainQuote(written, 100)).toBe(read);
});

it('has as many words as were written, none of them reserved, and fits (seed 11, 500 runs)', () => {
  const word = fc.constantFrom(...OPT_OUT_WORDS, ...OPT_IN_WORDS, ...HELP_WORDS, 'lena', 'road', 'pit', '2');
  const words = fc.array(word, { minLength: 1, maxLength: 8 });
  fc.assert(
    fc.property(words, (some) => {
      const written = some.join(' ');
      const quote = plainQuote(written, 160);
      expect(reservedWordIn(quote)).toBeNull();
      expect(quote.split(' ').length).toBe(written.split(' ').length);
      expect(gsm7Length(plainQuote(written, 20)) ?? 99).toBeLessThanOrEqual(20);
    }),
    { seed: 11, numRuns: 500 },
  );
});
