import { describe, expect, it } from 'vitest';
import { homePage } from '#publish/page/home-page.ts';
import { sitePage } from '#publish/page/site-page.ts';
import { standingOf } from '#publish/page/standing.ts';
import { english } from '#publish/wording/en.ts';
import { homeOf as homeListOf, homeRow, STORIES, type Story, siteView } from './invented-days.ts';
import { STILL, type Weather } from './invented-weather.ts';
import { answerOf, hasWord, partOf, timesOf, wordsOf } from './read-page.ts';

const PAUSED_TODAY: Story = { ...STORIES.pause, now: '2026-11-25' };
const titleOf = (page: string): string => /<title>(.*?)<\/title>/.exec(page)?.[1] ?? '';
const homeOf = (story: Story): string =>
  wordsOf(
    homePage(
      homeListOf([homeRow('heron-bend-2', story)], {
        reader: { language: story.language ?? 'en', units: 'us' },
      }),
    ),
  );
const nowOf = (page: string): string =>
  partOf(page, `<h2>${english.labels.now}</h2>`, `<h2>${english.labels.theDay}</h2>`);

describe('a pause within the burn', () => {
  const page = sitePage(siteView(STORIES.pause));

  it('stands in the heading, the title, beside the times and in the list of days', () => {
    expect(/<h1>.*?<\/h1>/s.exec(page)?.[0]).toContain('no wood 11:00 am to 12:00 pm');
    expect(titleOf(page)).toContain('GO 9:00 am until 2:58 pm, no wood 11:00 am to 12:00 pm');
    expect(timesOf(page)).toContain(`${english.labels.pause} 11:00 am – 12:00 pm`);
    expect(partOf(page, '<ul class="rows week">', '</ul>')).toContain(
      '9:00 am – 2:58 pm, no wood 11:00 am to 12:00 pm',
    );
    expect(homeOf(STORIES.pause)).toContain(
      'GO Light-up from 9:00 am, no wood 11:00 am to 12:00 pm, last charge 2:58 pm, covered by 4:28 pm.',
    );
  });

  it('is a hold with its reason and its end while it lasts, and go before and after', () => {
    const at = (clock: string) => answerOf(sitePage(siteView({ ...PAUSED_TODAY, clock })));
    expect(hasWord(at('10:39'), 'GO')).toBe(true);
    expect(at('10:40')).toContain('HOLD Too late to light. If lit: may charge until 11:00 am.');
    expect(hasWord(at('11:00'), 'GO')).toBe(false);
    expect(at('11:00')).toContain('HOLD until 12:00 pm');
    expect(at('11:00')).toContain('Gust 21 mph');
    expect(at('11:00')).toContain(
      'Light-up from 9:00 am, no wood 11:00 am to 12:00 pm, last charge 2:58 pm.',
    );
    expect(hasWord(at('12:00'), 'GO')).toBe(true);
  });
});

describe('the mark of today', () => {
  it('is the day’s own answer before light-up, as at dawn, with what holds now beside it', () => {
    for (const [clock, word] of [
      ['05:00', 'STOP'],
      ['07:40', 'HOLD'],
    ] as const) {
      const story = { ...STORIES.holdLifts, clock };
      const page = sitePage(siteView(story));
      expect(answerOf(page)).toContain('GO 9:00 am until 1:30 pm');
      expect(partOf(page, '<h2>Now</h2>', '</ul>')).toContain(word);
      expect(homeOf(story)).toMatch(/Today Wed, Nov 25 GO Light-up from 9:00 am/);
    }
  });

  it('is stop on the list of sites for a held day in which a stop holds now', () => {
    const gusty: Weather = { ...STILL, windGust: (h) => (h === 11 ? 31 : 6) * 0.44704 };
    const story: Story = { ...STORIES.holdDay, weather: gusty, now: '2026-11-25', clock: '11:20' };
    expect(homeOf(story)).toContain('Today Wed, Nov 25 STOP until 12:00 pm. Gust 31 mph');
    expect(homeOf({ ...story, clock: '12:00' })).toContain('Today Wed, Nov 25 HOLD');
    // At dawn the day's answer is the answer.
    expect(homeOf({ ...story, clock: '05:00' })).toContain('Today Wed, Nov 25 HOLD');
  });

  it('says that nobody can say where no window covers this moment', () => {
    const view = siteView({ ...STORIES.holdLifts, clock: '10:00' });
    expect(answerOf(sitePage(view))).toContain('GO');
    expect(answerOf(sitePage({ ...view, now: null }))).toContain("CAN'T SAY");
  });

  it('leaves other days alone, and a day that is still to begin', () => {
    const { plan, forecast, nowMs, now } = siteView({ ...STORIES.go, clock: '05:00' });
    expect(now?.verdict).toBe('stop');
    expect(standingOf(plan, forecast, nowMs, undefined)).toEqual({ mark: 'go', state: 'ok', byNow: false });
    expect(standingOf(plan, forecast, nowMs, now).mark).toBe('go');
  });
});

describe('too late to light', () => {
  it('is a hold in the answer and in what holds now, though charging goes on', () => {
    const page = sitePage(siteView({ ...STORIES.over, clock: '13:10' }));
    const late = 'Too late to light. If lit: may charge until 1:30 pm.';
    expect(answerOf(page)).toContain(`HOLD ${late}`);
    expect(nowOf(page)).toContain(`HOLD ${late}`);
    expect(hasWord(nowOf(page), 'GO')).toBe(false);
    expect(hasWord(nowOf(sitePage(siteView({ ...STORIES.over, clock: '13:09' }))), 'GO')).toBe(true);
  });

  it('is told by the plan or by the clock, whichever is first', () => {
    const { plan, forecast, nowMs } = siteView({ ...STORIES.holdLifts, clock: '10:00' });
    const markWith = (more: Partial<typeof plan>) =>
      standingOf({ ...plan, ...more }, forecast, nowMs, undefined);
    expect(markWith({}).state).toBe('ok');
    expect(markWith({ standing: 'charge' })).toMatchObject({ mark: 'hold', state: 'charge' });
    expect(markWith({ standing: 'over' })).toMatchObject({ mark: 'hold', state: 'over' });
    expect(markWith({ lightUpBy: plan.workedOutAt })).toMatchObject({ mark: 'hold', state: 'charge' });
    expect(markWith({ lightUp: null })).toMatchObject({ mark: 'hold', state: 'ok' });
  });

  it('is foretold under the times of a day ahead, and no longer once it has come', () => {
    expect(wordsOf(sitePage(siteView(STORIES.go)))).toContain(
      'Light-up from 9:00 am, at the latest 1:10 pm.',
    );
    const late = wordsOf(sitePage(siteView({ ...STORIES.over, clock: '13:10' })));
    expect(late).not.toContain('at the latest 1:10 pm');
  });
});

describe('times after midnight', () => {
  it('carry their date wherever they are told', () => {
    const view = siteView(STORIES.go);
    const plan = {
      ...view.plan,
      lastCharge: '2026-11-26T03:00:00-05:00',
      coveredBy: '2026-11-26T04:30:00-05:00',
    };
    const page = sitePage({ ...view, plan });
    expect(answerOf(page)).toContain('9:00 am until Thu, Nov 26, 3:00 am');
    expect(timesOf(page)).toContain('Last charge Thu, Nov 26, 3:00 am Covered by Thu, Nov 26, 4:30 am');
    expect(wordsOf(page)).toContain('Why stop charging at Thu, Nov 26, 3:00 am');
    expect(wordsOf(page)).toContain('Thu, Nov 26, 4:30 am Covered.');
  });
});

describe('a day without a go', () => {
  it('is never without a reason', () => {
    const view = siteView(STORIES.holdDay);
    const plan = { ...view.plan, tightest: null, wouldChange: { moves: [], barredBy: [], next: null } };
    const page = sitePage({ ...view, plan });
    expect(answerOf(page)).toContain('Mixing height 1,400 ft');
    expect(partOf(page, `<h2>${english.labels.whyNone}`, '</ul>')).toContain('Mixing height 1,400 ft');
    const bare = sitePage({ ...view, plan, windows: { ...view.windows, windows: [] } });
    expect(partOf(bare, `<h2>${english.labels.whyNone}`, `<h2>${english.labels.nextDays}`)).toContain(
      'no window',
    );
  });
});
