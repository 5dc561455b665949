import { describe, expect, it } from 'vitest';
import { sitePage } from '#publish/page/site-page.ts';
import { STORIES, type Story, siteView } from './invented-days.ts';
import { GOOD } from './invented-weather.ts';
import { LOOKS } from './looks.ts';
import { lanesOf } from './read-lanes.ts';
import { partOf, wordsOf } from './read-page.ts';

const pageOf = (story: Story): string => sitePage(siteView(story));
const lane = (story: Story, element: string) => {
  const found = lanesOf(pageOf(story)).find((l) => l.element === element);
  if (!found) throw new Error(`no lane of ${element}`);
  return found;
};
const smoke = (story: Story): string =>
  partOf(pageOf(story), '<h3 class="lh">Smoke goes toward', '<h2>What you do');

describe('the lanes of a day', () => {
  it('begin with what ends the charging, then what holds until light-up', () => {
    // Gusts end this day at 3 pm, mixing height holds it until 9 am; the others by their room.
    expect(lanesOf(pageOf(STORIES.go)).map(({ element }) => element)).toEqual([
      'Gust',
      'Mixing height',
      'Humidity',
      'Wind',
      'Chance of thunder',
    ]);
  });

  it('of a day without a burn begin with what bars it', () => {
    expect(lanesOf(pageOf(STORIES.holdDay))[0]?.element).toBe('Mixing height');
    expect(
      lanesOf(pageOf(LOOKS.missingLayer))
        .map(({ element }) => element)
        .slice(0, 2),
    ).toEqual(['Mixing height', 'Gust']);
  });

  it('say the room with its hour, and when there is none', () => {
    expect(lane(STORIES.go, 'Gust').note).toBe(
      'Least room while loading: 4 mph at 1:00 pm. Over (stop) from 3:00 pm until 5:00 pm.',
    );
    expect(lane(STORIES.go, 'Mixing height').note).toBe(
      'Least room while loading: 160 ft at 9:00 am. Under (hold) until 9:00 am and from 5:00 pm.',
    );
    expect(lane(STORIES.holdDay, 'Mixing height').note).toBe(
      'Farthest beyond: 240 ft at 7:00 am. Under (hold) all the time.',
    );
  });

  it('say whose figures they are, with their units', () => {
    expect(lane(STORIES.go, 'Humidity').limit).toBe('at least 30, stop 20; at most 80 %, our rule');
    expect(lane(LOOKS.metric, 'Mixing height').limit).toBe('at least 500 m, permit Q-17');
  });

  it('do not round a figure onto its bound', () => {
    const weather = { ...GOOD, windGust: (h: number) => (h === 11 ? 20.04 : 10) * 0.44704 };
    expect(lane({ ...STORIES.go, weather }, 'Gust').numbers).toContainEqual(
      expect.objectContaining({ text: '20.04', isMarked: true }),
    );
  });

  it('say what is missing, since when and why, and what is derived', () => {
    expect(lane(LOOKS.missingLayer, 'Mixing height').note).toBe(
      'Missing all the time: the forecast has a gap.',
    );
    expect(lane(LOOKS.missingLayer, 'Gust').note).toContain(
      'Missing from 11:00 am until 1:00 pm: the forecast has a gap.',
    );
    expect(lane(LOOKS.missingLayer, 'Gust').hours.filter(({ value }) => value === null)).toHaveLength(2);
    const view = siteView(STORIES.go);
    const hours = view.hours.hours.map((h) => ({
      ...h,
      scores: h.scores.map((s) => (s.element === 'windGust' ? { ...s, derived: true } : s)),
    }));
    const [gust] = lanesOf(sitePage({ ...view, hours: { ...view.hours, hours } }));
    expect(gust?.note).toContain('Rings and d: derived.');
    expect(gust?.hours.every(({ derived }) => derived)).toBe(true);
  });

  it('hatch a limit of the day by day only, and say so', () => {
    const view = siteView(STORIES.go);
    const limits = view.hours.limits.map((l) =>
      l.element === 'windGust' ? { ...l, when: 'day' as const } : l,
    );
    const hours = view.hours.hours.map((h, i) => ({
      ...h,
      scores: h.scores.map((s) => (s.element === 'windGust' ? { ...s, applies: i >= 12 } : s)),
    }));
    const page = sitePage({ ...view, hours: { ...view.hours, limits, hours } });
    const part = page.slice(page.indexOf('<h3 class="lh">Gust'), page.indexOf('<h3 class="lh">Mixing'));
    expect(wordsOf(part)).toContain('at most 20, stop 25 mph, by day, our rule');
    expect(part.match(/class="h-stop" x="([\d.]+)%"/)?.[1]).toBe('46.15');
  });
});

describe('a day on which clocks change', () => {
  it.each([
    ['2026-03-07', '2026-03-08', 23],
    ['2026-10-31', '2026-11-01', 25],
  ])('after %s, %s, has %i hours', (now, day, hours) => {
    const story = { now, clock: '17:02', day };
    expect(lane(story, 'Gust').hours).toHaveLength(hours);
    expect(lane(story, 'Gust').points).toHaveLength(hours);
  });

  it('tells the two equal hours of autumn apart', () => {
    const names = lane(LOOKS.autumn, 'Gust').hours.map(({ name }) => name);
    expect(names.slice(0, 4)).toEqual(['12:00 am', '1:00 am EDT', '1:00 am EST', '2:00 am']);
  });
});

describe('where the smoke goes', () => {
  it('is told with compass point and degrees for every turn, and what to keep off', () => {
    expect(smoke(STORIES.go)).toContain('NE (40°) from 6:00 am.');
    expect(smoke(STORIES.go)).toContain('Keep off mill road: E (80°) to SE (140°).');
    expect(smoke(LOOKS.turning)).toContain(
      'N (10°) from 6:00 am, NE (38°) from 11:00 am, too light to say from 12:00 pm, E (94°) from 1:00 pm',
    );
  });

  it('tells the smallest and the largest where the degrees differ within a point, through north too', () => {
    const weather = { ...GOOD, windDirection: (h: number) => (h % 2 === 0 ? 175 : 185) };
    expect(smoke({ ...STORIES.go, weather })).toContain('N (355°–5°) from 6:00 am.');
  });

  it('says what it reaches, and what is missing', () => {
    expect(smoke(LOOKS.turning)).toMatch(/Smoke goes toward \w+ to mill road, 0.5 mi away/);
    expect(smoke(LOOKS.missingLayer)).toContain('missing from 10:00 am, NE (40°) from 11:00 am');
  });
});

describe('what you do', () => {
  const todo = (story: Story): string => partOf(pageOf(story), '<h2>What you do', '<h2>Why');

  it('is a list by the clock on a day with a burn', () => {
    expect(todo(STORIES.go)).toBe(
      ' What you do 8:50 am Engine on. 10 min of blower before light-up. 9:00 am Light up. At the latest 1:10 pm. 1:30 pm Last charge. No wood after it. 2:30 pm Burned down. 1 h to burn down after the last charge. 3:00 pm Covered. 30 min to cover with soil. ',
    );
    expect(todo(STORIES.pause)).toContain('11:00 am Pause: no wood until 12:00 pm.');
  });

  it('says what not to do on a day without one', () => {
    expect(todo(STORIES.holdDay)).toContain('Do not light.');
    expect(todo(STORIES.stopDay)).toContain('No fire: put it down and cover.');
  });

  it('tells to reload a page whose answer is void, and to light on none', () => {
    const view = siteView(STORIES.go);
    const page = wordsOf(sitePage({ ...view, nowMs: Date.parse(view.plan.goodUntil ?? '') }));
    expect(page).toContain('Do not light on this page. Reload it where there is signal, or call the office.');
    expect(page).not.toContain('Light up.');
  });
});

describe('the text to the crew', () => {
  const text = (page: string): string => partOf(page, '<h2>Evening text', '<details');

  it('stands there in each language that the crew reads, with the moment at which it goes out', () => {
    const page = pageOf(STORIES.go);
    expect(text(page)).toContain('Goes out Tue, Nov 24, 5:05 pm. If it went out now:');
    expect(text(page)).toContain('Light 9:00 am to 1:10 pm, last wood 1:30 pm, covered by 3:00 pm.');
    expect(page).toMatch(/<blockquote lang="es">[^<]*ADELANTE/);
  });

  it('says so where none went out, or nothing is written yet', () => {
    const view = siteView(STORIES.go);
    if (view.text === null) throw new Error('no text');
    const bare = { ...view.text, texts: [] };
    expect(text(sitePage({ ...view, text: bare }))).toContain(
      'Goes out Tue, Nov 24, 5:05 pm, and is written then.',
    );
    expect(text(sitePage({ ...view, text: { ...bare, state: 'missed' } }))).toContain(
      'Was due Tue, Nov 24, 5:05 pm. None went out.',
    );
    expect(sitePage({ ...view, text: null })).not.toContain('Evening text');
  });
});
