import { describe, expect, it } from 'vitest';
import { sitePage } from '#publish/page/site-page.ts';
import { english } from '#publish/wording/en.ts';
import { spanish } from '#publish/wording/es.ts';
import type { Reader } from '#publish/wording/words.ts';
import { STORIES, siteView } from './invented-days.ts';
import { ageOf, hasWord, wordsOf } from './read-page.ts';

const reader: Reader = { language: 'es', units: 'us', timeZone: 'America/New_York', day: '2026-11-25' };
const at = (clock: string, date = '2026-11-25') => Date.parse(`${date}T${clock}:00-05:00`);

describe('an age', () => {
  it('of a forecast stamped ahead is no negative one', () => {
    expect([english.age(47), english.age(-11), english.age(-130), english.age(-0.4)]).toEqual([
      '47 min old',
      'stamped 11 min ahead',
      'stamped 2 h 10 min ahead',
      '0 min old',
    ]);
    expect([spanish.age(47), spanish.age(-11)]).toEqual(['hace 47 min', 'con hora 11 min adelantada']);
    expect(ageOf(sitePage(siteView({ ...STORIES.go, ageMin: -11 })))).toContain('(stamped 11 min ahead)');
  });
});

describe('the faults of a forecast', () => {
  it.each([
    [english, 1, '1 odd entry (unsorted)'],
    [english, 3, '3 odd entries (unsorted)'],
    [spanish, 1, '1 dato raro (unsorted)'],
    [spanish, 3, '3 datos raros (unsorted)'],
  ] as const)('are counted (%#)', (words, count, text) => {
    const sentence = words.sentences['forecast-faults']({ count, kinds: ['unsorted'] }, reader, 'go');
    expect(sentence).toContain(text);
  });
});

describe('Spanish', () => {
  const { sentences } = spanish;

  it('has one one o’clock and many other hours', () => {
    const clock = (text: string) =>
      sentences['clock-before']({ clock: text, source: 'regla' }, reader, 'hold');
    expect(clock('13:00')).toContain('antes de la 1:00 pm (');
    expect(clock('12:30')).toContain('antes de las 12:30 pm (');
    expect(clock('11:00')).toContain('antes de las 11:00 am (');
    expect(sentences['clock-charge']({ clock: '13:15', source: 'r' }, reader, 'hold')).toContain(
      'de la 1:15 pm',
    );
    expect(sentences['clock-out']({ clock: '13:15', source: 'r' }, reader, 'stop')).toContain('a la 1:15 pm');
    expect(spanish.nextChange(at('13:00'), 'go', reader)).toBe('Próximo cambio: ADELANTE a la 1:00 pm.');
    expect(spanish.nextChange(at('15:00'), 'hold', reader)).toBe('Próximo cambio: ESPERE a las 3:00 pm.');
  });

  it('says by when a charge would have to be out', () => {
    const by = (ms: number) =>
      sentences['burn-down-ahead']({ atMs: ms, neededMin: 90, causes: [] }, reader, 'hold');
    expect(by(at('15:00'))).toContain('tapada para las 3:00 pm:');
    expect(by(at('13:00'))).toContain('tapada para la 1:00 pm:');
    expect(by(at('13:00', '2026-11-26'))).toMatch(/tapada para el jue.*, a la 1:00 pm:/);
  });

  it('has no English weather', () => {
    const grid = (weather: string, coverage: string | null) =>
      sentences['grid-weather']({ weather, coverage }, reader, 'go');
    expect(grid('thunderstorms', 'slight_chance')).toBe(
      'El pronóstico nombra tormentas eléctricas (poco probable).',
    );
    for (const word of ['dry_thunderstorms', 'smoke', 'fog', 'ice_fog', 'haze', 'blowing_dust'])
      expect(grid(word, null)).not.toContain(word.replaceAll('_', ' '));
    expect(grid('frost', null)).toContain('frost');
  });

  it('says go in one word everywhere', () => {
    const page = wordsOf(sitePage(siteView({ ...STORIES.go, language: 'es' })));
    expect(hasWord(page, 'ADELANTE')).toBe(true);
    expect(page).not.toContain('SIGA');
    expect(page).toContain('Por qué dejar de cargar: 1:30 pm');
    expect(page).not.toMatch(/a las 1:|para las 1:/);
  });
});
