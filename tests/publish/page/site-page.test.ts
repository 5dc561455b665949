import { describe, expect, it } from 'vitest';
import { sitePage } from '#publish/page/site-page.ts';
import { english } from '#publish/wording/en.ts';
import { alert, STORIES, siteView } from './invented-days.ts';
import { ageOf, answerOf, hasWord, timesOf, wordsOf } from './read-page.ts';

describe('the answer', () => {
  it.each([
    ['go', 'GO'],
    ['holdLifts', 'GO'],
    ['pause', 'GO'],
    ['holdDay', 'HOLD'],
    ['stopDay', 'STOP'],
    ['stale', "CAN'T SAY"],
    ['tooFar', "CAN'T SAY"],
  ] as const)('of %s says %s in words', (name, word) => {
    const answer = answerOf(sitePage(siteView(STORIES[name])));
    expect(hasWord(answer, word)).toBe(true);
    const others = ['GO', 'HOLD', 'STOP', "CAN'T SAY"].filter((w) => w !== word);
    expect(others.filter((w) => hasWord(answer, w))).toEqual([]);
  });

  it('of a go day has its times and the tightest limit with number, room and whose it is', () => {
    const answer = answerOf(sitePage(siteView(STORIES.go)));
    expect(answer).toContain('9:00 am until 1:30 pm');
    expect(answer).toContain(
      'mixing height 1,800 ft at 9:00 am, 160 ft of room (at least 1,640 ft, permit Q-17)',
    );
  });

  it('of a stop day names what bars it and the next window', () => {
    const answer = answerOf(sitePage(siteView(STORIES.stopDay)));
    expect(answer).toContain('Red Flag Warning, Weather office Z.');
    expect(answer).toContain('Next window: Fri, Nov 27, from 9:00 am.');
  });

  it('has a shape besides the word, and one main heading', () => {
    for (const name of Object.keys(STORIES) as (keyof typeof STORIES)[]) {
      const page = sitePage(siteView(STORIES[name]));
      expect(page.match(/<h1/g)).toHaveLength(1);
      expect(page.slice(page.indexOf('<section class="call'))).toMatch(
        /^<section class="call (go|hold|stop|unsaid)">.*?<use href="#i-\1"/s,
      );
    }
  });

  it('of a day off blames the shift, not the weather of that day', () => {
    const answer = answerOf(sitePage(siteView({ ...STORIES.go, day: '2026-11-26' })));
    expect(answer).toContain('No shift');
    expect(answer).not.toContain('Gust');
  });
});

describe('a go that may no longer be shown', () => {
  const view = siteView(STORIES.go);

  it('is no go on any line of the page once the forecast is stale or gone', () => {
    for (const state of ['stale', 'none'] as const) {
      const page = sitePage({ ...view, forecast: { ...view.forecast, state } });
      expect(hasWord(wordsOf(page), 'GO')).toBe(false);
      expect(answerOf(page)).toContain("CAN'T SAY");
      expect(timesOf(page)).not.toMatch(/\d/);
      expect(ageOf(page)).toContain(english.labels.notFresh);
    }
  });

  it('is no go from the moment on at which the answer is void', () => {
    const goodUntil = Date.parse(view.plan.goodUntil ?? '');
    expect(answerOf(sitePage({ ...view, nowMs: goodUntil - 1 }))).toContain('GO');
    expect(hasWord(wordsOf(sitePage({ ...view, nowMs: goodUntil })), 'GO')).toBe(false);
  });

  it('is no go at this moment either', () => {
    const today = siteView({ ...STORIES.holdLifts, clock: '10:00' });
    expect(
      hasWord(wordsOf(sitePage({ ...today, forecast: { ...today.forecast, state: 'stale' } })), 'GO'),
    ).toBe(false);
  });

  it('is no go once it is too late to light, and says until when a lit pit may be charged', () => {
    // Last charge 1:30 pm less 20 minutes of kindling: 1:10 pm.
    const at = (clock: string) => answerOf(sitePage(siteView({ ...STORIES.over, clock })));
    expect(hasWord(at('13:09'), 'GO')).toBe(true);
    expect(hasWord(at('13:11'), 'GO')).toBe(false);
    expect(at('13:11')).toContain('Too late to light. If lit: may charge until 1:30 pm.');
  });

  it('ends with the last charge: afterwards the block says hold, and since when', () => {
    const answer = answerOf(sitePage(siteView(STORIES.over)));
    expect(hasWord(answer, 'GO')).toBe(false);
    expect(answer).toContain('HOLD');
    expect(answer).toContain('since 1:30 pm');
    expect(answerOf(sitePage(siteView({ ...STORIES.over, clock: '15:30' })))).toContain('STOP');
  });
});

describe('the first screen', () => {
  it('has the three times of a go day', () => {
    expect(timesOf(sitePage(siteView(STORIES.go)))).toBe(
      ' Light-up from 9:00 am Last charge 1:30 pm Covered by 3:00 pm ',
    );
  });

  it('tells apart when the forecast was made, fetched, read and judged', () => {
    expect(ageOf(sitePage(siteView(STORIES.go)))).toContain(
      'Forecast made Tue, Nov 24, 4:15 pm (47 min old) ; fetched 4:32 pm; alerts read 5:02 pm; worked out 5:02 pm; next looked for by 5:22 pm. This answer is void after 6:58 pm.',
    );
  });

  it('names the day of each moment that is on another day than the one before', () => {
    expect(ageOf(sitePage(siteView(STORIES.stale)))).toContain(
      'made Tue, Nov 24, 6:10 pm (15 h old) ; fetched Wed, Nov 25, 8:40 am; alerts read 9:10 am',
    );
  });

  it('is loud where the forecast is stale, and tells the fault', () => {
    const age = ageOf(sitePage(siteView(STORIES.stale)));
    expect(age).toContain('Not fresh enough to light on.');
    expect(age).toContain(
      'The last try to get a forecast failed, 9:10 am: the forecast source did not answer',
    );
    expect(ageOf(sitePage(siteView(STORIES.go)))).not.toContain('Not fresh enough');
  });

  it('says what holds now only on today, with what to do', () => {
    const today = wordsOf(sitePage(siteView(STORIES.holdLifts)));
    expect(today).toContain(`HOLD until 9:00 am . ${english.orders.hold}`);
    expect(wordsOf(sitePage(siteView(STORIES.go)))).not.toContain(english.orders.hold);
  });
});

describe('the band', () => {
  const band = (page: string): string =>
    page.slice(page.indexOf('<svg class="band'), page.indexOf('<h3 class="lh">'));

  it('gives each of the three marks a row of its own, within the width of the narrowest phone', () => {
    for (const language of ['en', 'es'] as const) {
      const marks = [
        ...band(sitePage(siteView({ ...STORIES.go, language }))).matchAll(
          /class="m l( ts| te)" x="([\d.]+)%" y="(\d+)" dx="-?5">(.*?)<\/text>/g,
        ),
      ];
      expect(marks).toHaveLength(3);
      expect(new Set(marks.map((m) => m[3])).size).toBe(3);
      for (const [, anchor, x, , words] of marks) {
        const width = (words ?? '').replace(/<[^>]*>/g, '').length * 7.5 + 5;
        const at = Number(x) * 2.88;
        expect(anchor === ' ts' ? at + width : at - width).toSatisfy(
          (edge: number) => edge >= 0 && edge <= 288,
        );
      }
    }
  });

  it('has a text for who cannot see it', () => {
    // Sunrise is the calendar's business, not the page's.
    expect(band(sitePage(siteView(STORIES.go)))).toMatch(
      /role="img" aria-label="The day: STOP from 12:00 am, HOLD from 7:1\d am, GO from 9:00 am, HOLD from 1:30 pm, STOP from 3:00 pm\."/,
    );
  });
});

describe('why', () => {
  it('tells what held before light-up and what ends the charging', () => {
    const page = wordsOf(sitePage(siteView(STORIES.go)));
    expect(page).toMatch(/Why not before 9:00 am Mixing height/);
    expect(page).toMatch(/Why stop charging at 1:30 pm .*Gust 2\d mph/);
    expect(page).toContain('3:00 pm Covered. 30 min to cover with soil.');
  });

  it('tells no sentence twice in the reasons of a day without a go', () => {
    for (const name of ['holdDay', 'stopDay', 'stale', 'tooFar'] as const) {
      const page = sitePage(siteView(STORIES[name]));
      const section = page.slice(
        page.indexOf(`<h2>${english.labels.whyNone}`),
        page.indexOf(`<h2>${english.labels.nextDays}`),
      );
      const items = [...section.matchAll(/<li>(.*?)<\/li>/g)].map((m) => m[1]);
      expect(items.length).toBeGreaterThan(0);
      expect(new Set(items).size).toBe(items.length);
    }
  });

  it('gives what would have to move, on a day held by its values', () => {
    expect(wordsOf(sitePage(siteView(STORIES.holdDay)))).toContain(
      'Mixing height at 8:00 am would have to be 240 ft higher than 1,400 ft.',
    );
  });

  it('puts advice under its own heading', () => {
    const story = {
      ...STORIES.go,
      alerts: [alert('Special Weather Statement', 'A statement', '2026-11-25')],
    };
    expect(wordsOf(sitePage(siteView(story)))).toContain('Worth knowing Special Weather Statement');
    expect(wordsOf(sitePage(siteView(STORIES.go)))).not.toContain('Worth knowing');
  });
});
