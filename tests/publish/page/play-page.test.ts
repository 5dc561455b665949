import { describe, expect, it } from 'vitest';
import { playPage } from '#publish/page/play-page.ts';
import { playedRows } from '#publish/page/played-rows.ts';
import { invented } from '../../play/invented-play.ts';
import { wordsOf } from './read-page.ts';

const reader = { language: 'en', units: 'us', timeZone: 'America/Los_Angeles', day: '2026-04-14' } as const;
const view = (language: 'en' | 'es', day = true) => ({
  seed: 3,
  day: day ? invented(3) : null,
  reader: { language, units: 'us' as const },
  query: { lang: language },
});

describe('the rows of a simulated shift', () => {
  it('put readings of one verdict together, with the smallest and the largest, across north too', () => {
    expect(playedRows(invented(3), reader).map(({ time, mark, text }) => [time, mark, text])).toEqual([
      ['9:00 am', null, 'Ana taps: lit'],
      [
        '9:00 am – 9:05 am',
        'go',
        '2 readings: wind 5 mph to 10 mph from N (350°) to N (10°), gust 12 mph, humidity 50 %',
      ],
      ['9:07 am', null, 'The wind turns. Nobody knows yet.'],
      ['9:10 am', 'stop', 'Measured: wind 10 mph from E (90°), gust 12 mph, humidity 50 %'],
      ['9:10 am', null, 'Text to Ana (crew)'],
      ['9:12 am', null, 'Office (office) answers: 1'],
      ['9:40 am', null, 'Ana taps: covered'],
    ]);
  });

  it('part where the verdict changes, though nothing else lies between', () => {
    const { entries } = invented(3);
    const readings = entries.filter(({ kind }) => kind === 'reading');
    expect(playedRows({ entries: readings }, reader).map(({ mark }) => mark)).toEqual(['go', 'stop']);
  });
});

describe('the page of a simulated shift', () => {
  it.each([
    ['en', 'DEMO', 'What happened', 'GO', 'STOP', 'answers: 1', 'Play the day'],
    ['es', 'DEMO', 'Lo que pasó', 'ADELANTE', 'ALTO', 'responde: 1', 'Simular el día'],
  ] as const)('tells all of it in %s without a script', (language, ...told) => {
    const page = playPage(view(language));
    for (const text of told) expect(wordsOf(page)).toContain(text);
    expect(page).not.toMatch(/<script/i);
    expect(page).toContain('<p class="age" lang="es">DEMO North: APAGUEN YA. &lt;b&gt;</p>');
    expect(page).toContain(`action="/demo/play?lang=${language}"`);
  });

  it('in Spanish has no English word of its own', () => {
    const page = wordsOf(playPage(view('es')));
    expect(page).not.toMatch(
      /\b(wind|gust|humidity|reading|readings|taps|answers|Text to|Measured|crew|office\))/,
    );
  });

  it('of a shift that was not played has the button and says so', () => {
    const page = playPage(view('en', false));
    expect(wordsOf(page)).toContain('This shift has not been played yet.');
    expect(page).toMatch(/<form[^>]*method="post"/);
    expect(page).not.toContain('<ol');
  });
});
