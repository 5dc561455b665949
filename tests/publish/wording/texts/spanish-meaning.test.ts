// What a text in Spanish must not be taken for. The meanings: common practice, no source.

import { expect, it } from 'vitest';
import { conditionsEn } from '#publish/wording/texts/conditions-en.ts';
import { conditionsEs } from '#publish/wording/texts/conditions-es.ts';
import type { FigureTexts } from '#publish/wording/texts/text-words.ts';

const figures = (more: Partial<FigureTexts>) => ({ by: null, ...more }) as FigureTexts;

it('a direction is told as that of the wind, never beside the smoke alone: that goes the other way', () => {
  const f = figures({ basis: 'medido', place: 'Escuela', from: 'noroeste', speed: '14 mph', asOf: '13:42' });
  for (const size of ['whole', 'brief', 'bare'] as const) {
    const said = conditionsEs.sentences['smoke-turned-to-place'](f, size);
    expect(said).toMatch(/viento (del )?noroeste/);
  }
});

it('a stop by order of an authority is no fire at all in both languages, not only no light-up', () => {
  const f = figures({ source: 'County' });
  expect(conditionsEn.topics['authority-stop'](f)).toContain('no-fire');
  expect(conditionsEs.topics['authority-stop'](f)).toContain('no hacer fuego');
});
