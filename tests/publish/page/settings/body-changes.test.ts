import { describe, expect, it } from 'vitest';
import { bodyChanges } from '#publish/page/settings/body-changes.ts';
import { FORMS } from '#publish/page/settings/forms.ts';

const CONTEXT = { language: 'en', sites: [['a', 'Pit A']], limitSets: ['valley'], isNew: false } as const;
const sideOf = (kind: keyof typeof FORMS, body: unknown) => ({ body, form: FORMS[kind](body, CONTEXT) });
const changes = (kind: keyof typeof FORMS, before: unknown, after: unknown): string[] =>
  bodyChanges(before === null ? null : sideOf(kind, before), after === null ? null : sideOf(kind, after)).map(
    ({ what, before: was, after: is }) => `${what}: ${was} -> ${is}`,
  );

const WIND = { element: 'windSpeed', atMost: { hold: '12 mph', stop: '15 mph' }, source: 'our rule' };
const GUST = { element: 'windGust', atMost: { hold: '20 mph' }, source: 'our rule' };

describe('what changes', () => {
  it('is told by the names of the fields, one line for each value', () => {
    const wider = { ...WIND, atMost: { hold: '13 mph', stop: '15 mph' }, source: 'permit' };
    expect(changes('limits', [WIND, GUST], [wider, GUST])).toEqual([
      'Wind: At most, else hold: 12 mph -> 13 mph',
      'Wind: Whose figure this is: our rule -> permit',
    ]);
  });

  it('tells rows apart by what they are about, wherever they stand', () => {
    expect(changes('limits', [WIND, GUST], [GUST, WIND])).toEqual([]);
    expect(changes('limits', [WIND, GUST], [GUST])).toEqual([
      'Wind: Element: wind -> null',
      'Wind: At most, else hold: 12 mph -> null',
      'Wind: At most, else stop: 15 mph -> null',
      'Wind: Whose figure this is: our rule -> null',
    ]);
    const night = { ...WIND, when: 'night', atMost: { hold: '6 mph' } };
    expect(changes('limits', [WIND, night], [WIND, { ...night, atMost: { hold: '5 mph' } }])).toEqual([
      'Wind: At most, else hold: 6 mph -> 5 mph',
    ]);
  });

  it('is told of what no field shows, too', () => {
    const site = {
      id: 'a',
      name: 'A',
      at: [1, 2],
      limits: 'valley',
      shift: { days: ['mon'], from: '07:00', to: '17:00' },
    };
    const watched = { ...site, texts: { dawn: '05:00' } };
    expect(changes('sites', site, watched)).toEqual(['texts.dawn: null -> 05:00']);
    expect(changes('sites', site, { ...site, shift: { ...site.shift, days: ['mon', 'tue'] } })).toEqual([
      'Shift: Days: Mon -> Mon, Tue',
    ]);
  });

  it('of a new one is all of it, and of none nothing', () => {
    expect(changes('orders', null, { name: 'Ban', issuer: 'county', sites: ['a'] })).toEqual([
      'Name: null -> Ban',
      'Who issued it: null -> county',
      'Sites: null -> Pit A',
    ]);
    expect(changes('orders', null, null)).toEqual([]);
  });
});
