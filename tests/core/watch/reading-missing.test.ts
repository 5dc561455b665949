// A station that goes half dead: what it told and tells no more is a hold that is told, not only one that stands.

import { describe, expect, it } from 'vitest';
import type { Condition } from '#core/watch/condition.ts';
import { judgeWatch } from '#core/watch/judge-watch.ts';
import { liveVerdict } from '#core/watch/live-verdict.ts';
import type { Observation } from '#core/watch/observation.ts';
import { readingMissing } from '#core/watch/reading-missing.ts';
import { renderText } from '#publish/wording/texts/render-text.ts';
import { limitOf, limitSet } from '../../builders/limits.ts';
import { AIRPORT, clock, every, ON_SITE, PERSON, seen, the } from '../../builders/watch.ts';
import { type WatchText, wandering, watchContextOf, watchInput } from '../../builders/watch-input.ts';
import { notice, request, transition } from '../../publish/wording/texts/requests.ts';

const LIMITS = limitSet([
  limitOf('windGust', { high: { hold: '20 mph', stop: '25 mph' } }),
  limitOf('relativeHumidity', { low: { hold: '30 %', stop: '20 %' } }),
]);
const GOOD = { gustMps: 5, relativeHumidityPct: 45 };
const upTo = (to: string) => every(5, '10:00', to, wandering(180, 4), GOOD);
const then = (wind: string | ((m: number) => string), more: Partial<Observation>, to = '13:00') => [
  ...upTo('10:30'),
  ...every(5, '10:35', to, wind, more),
];
const of = (observations: readonly Observation[], text: WatchText = {}) =>
  readingMissing(watchContextOf({ planned: { limits: LIMITS }, observations, ...text }));
const keys = (conditions: readonly Condition[], truth = 'true') =>
  conditions.filter((c) => c.truth === truth).map((c) => c.subject);

describe('what a station tells no more, while it tells the rest', () => {
  it('is nothing while all is told', () => {
    expect(of(upTo('13:00')).map((c) => [c.subject, c.truth])).toEqual([
      ['wind', 'false'],
      ['windGust', 'false'],
      ['relativeHumidity', 'false'],
    ]);
  });

  it.each([
    ['the wind', then('none', GOOD), 'wind', 'windSpeed'],
    ['the direction', then('none 4', GOOD), 'wind', 'windDirection'],
    ['the humidity', then(wandering(180, 4), { gustMps: 5 }), 'relativeHumidity', 'relativeHumidity'],
    ['the gust', then(wandering(180, 4), { relativeHumidityPct: 45 }), 'windGust', 'windGust'],
  ])('is a hold that is told for two hours and a half: %s', (_, observations, subject, element) => {
    expect(of(observations)).toContainEqual(
      expect.objectContaining({
        code: 'reading-missing',
        subject,
        truth: 'true',
        verdict: 'hold',
        figures: expect.objectContaining({ element, wasMs: clock('10:30'), station: 'mast' }),
      }),
    );
    expect(keys(of(observations))).toEqual([subject]);
    // The live verdict holds by the same, and still says that it is because nobody can say.
    const input = watchInput({ planned: { limits: LIMITS }, observations });
    const live = liveVerdict(input.plan, input.burn, judgeWatch(input), input.nowMs);
    expect(live).toMatchObject({ verdict: 'hold', cannotSay: true });
  });

  it('stays so when the last that told it is older than what is looked back on, and the station falls silent', () => {
    const blind = then('none 4', GOOD);
    const before = of(blind);
    const later = { now: '14:00', before };
    expect(keys(of(then('none 4', GOOD, '14:00'), later))).toEqual(['wind']);
    expect(keys(of(blind, later))).toContain('wind');
    expect(the(of([], later), 'reading-missing', 'wind')).toMatchObject({
      truth: 'true',
      verdict: 'hold',
      figures: { wasMs: clock('10:30') },
    });
  });

  it('is over when it is told again, by whomever', () => {
    const before = of(then('none 4', GOOD));
    const again = [...then('none 4', GOOD, '12:55'), seen('13:00', '180 4', GOOD)];
    expect(keys(of(again, { before }))).toEqual([]);
    const byHand = seen('12:58', '180 4', { station: PERSON.id });
    expect(keys(of([...then('none 4', GOOD), byHand], { before, stations: [ON_SITE, PERSON] }))).toEqual([]);
  });

  it('is nothing where another tells it', () => {
    const airport = seen('12:53', '180 5', { station: 'KXYZ', relativeHumidityPct: 40 });
    const stations = [ON_SITE, AIRPORT];
    expect(keys(of([...then('none', {}), airport], { stations }))).toEqual([]);
  });

  it('that was never told here is left to the forecast, or held where the site says so', () => {
    const never = every(5, '10:00', '13:00', wandering(180, 4), { gustMps: 5 });
    expect(the(of(never), 'reading-missing', 'relativeHumidity')).toMatchObject({
      truth: 'unknown',
      verdict: 'go',
    });
    const strict: WatchText = { settings: { unobserved: 'hold' } };
    expect(the(of(never, strict), 'reading-missing', 'relativeHumidity').truth).toBe('true');
  });

  it('is not asked for where nothing needs it, and is told by the station where that is silent or doubted', () => {
    const withoutLimit = limitSet([limitOf('windGust', { high: { hold: '20 mph' } })]);
    expect(of(upTo('13:00'), { planned: { limits: withoutLimit } }).map((c) => c.subject)).toEqual([
      'wind',
      'windGust',
    ]);
    expect(keys(of(upTo('12:40')))).toEqual([]);
    expect(keys(of(upTo('12:40')), 'unknown')).toEqual(['wind', 'windGust', 'relativeHumidity']);
  });

  it('is said in a text in both languages', () => {
    const [wind] = of(then('none 4', GOOD));
    const one = { ...transition(), verdict: 'hold' as const, condition: wind as Condition };
    const text = (language: 'en' | 'es') =>
      renderText(request(notice([one]), { reader: { language, units: 'us', role: 'crew' }, asked: false }))
        .body;
    expect(text('en')).toMatch(/No wind direction told since .* \(mast\): watch the wind\./);
    expect(text('es')).toMatch(/Sin dato de rumbo del viento desde .* \(mast\): vigilen el viento\./);
  });
});
