// What stands at a pit that burns, on the page of its site.

import { describe, expect, it } from 'vitest';
import { sitePage } from '#publish/page/site-page.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { STORIES, siteView } from './invented-days.ts';
import { answerOf, hasWord, wordsOf } from './read-page.ts';

const AT = '2026-11-25T10:05:00-05:00';
const story = { ...STORIES.go, now: '2026-11-25', clock: '10:10' } as const;

const live = (change: Partial<NowAnswer> = {}): NowAnswer => ({
  site: 'heron',
  name: 'Heron Bend, pit 2',
  timeZone: 'America/New_York',
  asOf: '2026-11-25T10:10:00-05:00',
  verdict: 'stop',
  unknown: false,
  whatToDo: 'No fire: put it down and cover.',
  text: 'Smoke goes to county road.',
  planVerdict: 'go',
  burn: {
    id: 'b1',
    site: 'heron',
    state: 'charging',
    openedAt: AT,
    litAt: AT,
    since: AT,
    closedAt: null,
    incidentRef: null,
    briefedFrom: 210,
    briefings: [],
    taps: [],
  },
  lightUp: null,
  lastCharge: null,
  coveredBy: null,
  observation: {
    station: 'mast',
    observedAt: AT,
    receivedAt: AT,
    wind: 'blowing',
    windFrom: 290,
    windSpeedMps: 4.4704, // 10 mph, exactly (NIST SP 811, appendix B.8)
    windHeightM: 10,
    windAveragingS: 120,
    gustMps: null,
    relativeHumidityPct: 44,
    temperatureC: null,
    pressurePa: null,
    thunder: null,
    quality: 'passed',
  },
  conditions: [],
  silences: [],
  notices: [notice('raised', AT, null), notice('pending', null, null)],
  forecastMadeAt: null,
  goodUntil: '2026-11-25T10:20:00-05:00',
  demo: true,
  caution: '',
  ...change,
});

const notice = (
  phase: string,
  raisedAt: string | null,
  acknowledgedBy: string | null,
): NowAnswer['notices'][number] => ({
  id: `n ${phase}`,
  site: 'heron',
  code: 'smoke-turned-to-place',
  subject: phase,
  phase,
  since: AT,
  raisedAt,
  verdict: raisedAt === null ? null : 'stop',
  acknowledgedAt: null,
  acknowledgedBy,
  condition: {
    code: 'smoke-turned-to-place',
    subject: phase,
    truth: 'true',
    verdict: 'stop',
    basis: 'observed',
    asOf: AT,
    text: `Smoke of a ${phase} notice.`,
  },
});

const pageOf = (now: NowAnswer | null, language: 'en' | 'es' = 'en') =>
  sitePage({ ...siteView({ ...story, language }), live: now });

describe('the page of a site where a fire burns', () => {
  it('says the live verdict, what was told of and the last reading', () => {
    const page = wordsOf(pageOf(live()));
    for (const text of [
      'At the pit now',
      'Charging, since 10:05 am.',
      'Smoke of a raised notice. Nobody has answered.',
      'Last reading 10:05 am (mast): wind 10 mph from WNW (290°), humidity 44 %',
    ]) {
      expect(page).toContain(text);
    }
    expect(page).not.toContain('pending');
  });

  it('in Spanish, too', () => {
    const page = wordsOf(pageOf(live(), 'es'));
    for (const text of [
      'En la fosa ahora',
      'Se carga leña, desde las 10:05 am.',
      'Nadie ha respondido.',
      'viento 10 mph del ONO (290°)',
    ]) {
      expect(page).toContain(text);
    }
    expect(page).not.toMatch(/At the pit|Last reading|Nobody/);
  });

  it('says go of the plan nowhere above what the watch says', () => {
    expect(hasWord(answerOf(pageOf(null)), 'GO')).toBe(true);
    const answer = answerOf(pageOf(live()));
    expect([hasWord(answer, 'GO'), hasWord(answer, 'STOP')]).toEqual([false, true]);
    expect(pageOf(live())).not.toMatch(/<title>[^<]*GO/);
    const unsaid = answerOf(pageOf(live({ verdict: 'hold', unknown: true })));
    expect([hasWord(unsaid, 'GO'), hasWord(unsaid, "CAN'T SAY")]).toEqual([false, true]);
  });

  it('marks advice with no verdict, and asks no answer to it', () => {
    const advice = { ...notice('raised', AT, null), verdict: 'go' as const };
    const page = pageOf(live({ notices: [advice] }));
    const block = page.slice(page.indexOf('At the pit now'), page.indexOf('Last reading'));
    expect(wordsOf(block)).toContain('10:05 am Smoke of a raised notice.');
    expect([hasWord(wordsOf(block), 'GO'), block.includes('Nobody has answered')]).toEqual([false, false]);
  });

  it('names who has answered', () => {
    const page = wordsOf(pageOf(live({ notices: [notice('raised', AT, 'teo')] })));
    expect(page).toContain('Answered by teo.');
    expect(page).not.toContain('Nobody has answered');
  });

  it('tells calm, a wind from everywhere and no wind apart', () => {
    const { observation } = live();
    if (observation === null) throw new Error('no observation');
    const told = (['calm', 'variable', 'missing'] as const).map((wind) =>
      wordsOf(pageOf(live({ observation: { ...observation, wind, windFrom: null } }))),
    );
    expect(told[0]).toContain('(mast): calm,');
    expect(told[1]).toContain('wind 10 mph, from no one direction');
    expect(told[2]).toContain('no wind told');
    expect(wordsOf(pageOf(live({ observation: null })))).toContain('No reading yet.');
  });

  it('is as before where no burn is open', () => {
    expect(wordsOf(pageOf(null))).not.toContain('At the pit now');
    expect(wordsOf(pageOf(live({ burn: null })))).not.toContain('At the pit now');
  });
});
