import { describe, expect, it } from 'vitest';
import { sitePage } from '#publish/page/site-page.ts';
import { STORIES, siteView } from './invented-days.ts';
import { GOOD } from './invented-weather.ts';
import { wordsOf } from './read-page.ts';

const tableOf = (page: string): string => page.slice(page.indexOf('<table>'), page.indexOf('</table>'));
const rowsOf = (page: string): string[] =>
  tableOf(page)
    .split(/<tr(?: class="scr")?>/)
    .slice(2);
const on = (day: string) => sitePage(siteView({ ...STORIES.go, now: day, clock: '05:00', day }));

describe('the hour table', () => {
  it.each([
    ['2026-03-08', 23],
    ['2026-11-25', 24],
    ['2026-11-01', 25],
  ])('of %s has %i rows', (day, hours) => {
    expect(rowsOf(on(day))).toHaveLength(hours);
  });

  it('skips the hour that spring skips, and tells the two equal hours of autumn apart', () => {
    const heads = (day: string) => rowsOf(on(day)).map((row) => /<th scope="row">(.*?)<\/th>/.exec(row)?.[1]);
    expect(heads('2026-03-08').slice(0, 4)).toEqual(['12:00 am', '1:00 am', '3:00 am', '4:00 am']);
    expect(heads('2026-11-01').slice(0, 4)).toEqual(['12:00 am', '1:00 am EDT', '1:00 am EST', '2:00 am']);
  });

  it('marks figures outside of a limit by more than colour, and only those', () => {
    const rows = rowsOf(sitePage(siteView(STORIES.go))).map(wordsOf);
    const marked = rowsOf(sitePage(siteView(STORIES.go))).map((row) =>
      [...row.matchAll(/<span class="out">(.*?)<\/span>/g)].map((m) => m[1]),
    );
    expect(rows[8]).toContain('8:00 am HOLD 5 8 NE (40°) 79 800 3');
    expect(marked[8]).toEqual(['800']);
    expect(marked[9]).toEqual([]);
    expect(marked[15]).toEqual(['13', '26']);
  });

  it('does not round a figure onto its bound', () => {
    const weather = { ...GOOD, windGust: (h: number) => (h === 11 ? 20.04 : 10) * 0.44704 };
    const row = rowsOf(sitePage(siteView({ ...STORIES.go, weather })))[11] ?? '';
    expect(row).toContain('<span class="out">20.04</span>');
  });

  it('says in words that a figure is missing, and why', () => {
    const weather = { ...GOOD, mixingHeight: () => Number.NaN };
    const page = sitePage(siteView({ ...STORIES.go, weather }));
    expect(wordsOf(rowsOf(page)[9] ?? '')).toMatch(/70 missing 3/);
    expect(wordsOf(page)).toContain('Mixing height, missing: the forecast has a gap.');
  });

  it('marks derived figures', () => {
    const view = siteView(STORIES.go);
    const hours = view.hours.hours.map((h) => ({
      ...h,
      values: { ...h.values, windGust: { value: 9, unit: 'mph', derived: true, missing: null } },
    }));
    const page = sitePage({ ...view, hours: { ...view.hours, hours } });
    expect(tableOf(page)).toContain('<td>9<sup>d</sup></td>');
    expect(wordsOf(page)).toContain('d: derived.');
  });

  it('has a caption and scopes, and scrolls in its own box only', () => {
    const page = sitePage(siteView(STORIES.go));
    expect(page).toMatch(
      /<div class="scroll" tabindex="0" role="region" aria-label="[^"]+"><table><caption>[^<]+<\/caption>/,
    );
    expect(tableOf(page)).not.toMatch(/<th(?!ead)(?! scope="(row|col)")/);
  });

  it('has a column for every element that has a limit, with its unit', () => {
    const heads = [
      ...tableOf(sitePage(siteView({ ...STORIES.go, units: 'si' }))).matchAll(/<th scope="col">(.*?)<\/th>/g),
    ].map((m) => m[1]);
    expect(heads).toEqual([
      'Hour',
      'Answer',
      'Wind (m/s)',
      'Gust (m/s)',
      'Smoke goes toward',
      'Humidity (%)',
      'Mixing height (m)',
      'Chance of thunder (%)',
    ]);
  });
});
