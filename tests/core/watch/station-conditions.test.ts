import { describe, expect, it } from 'vitest';
import type { Condition } from '#core/watch/condition.ts';
import { keepRaised } from '#core/watch/keep-raised.ts';
import type { Observation } from '#core/watch/observation.ts';
import { stationConditions } from '#core/watch/station-conditions.ts';
import { thunderNear } from '#core/watch/thunder-near.ts';
import { AIRPORT, clock, every, ON_SITE, PERSON, seen, the } from '../../builders/watch.ts';
import { type WatchText, wandering, watchContextOf } from '../../builders/watch-input.ts';

const of = (observations: readonly Observation[], text: WatchText = {}) =>
  stationConditions(watchContextOf({ observations, ...text }));
const both: WatchText = { stations: [ON_SITE, AIRPORT] };
const airport = (when: string, wind: string, more: Partial<Observation> = {}) =>
  seen(when, wind, { station: 'KXYZ', ...more });

describe('a station', () => {
  it('that tells is neither silent nor doubted', () => {
    const conditions = of(every(5, '11:00', '13:00', wandering(180, 5)));
    expect(conditions.map((c) => [c.code, c.subject, c.truth])).toEqual([
      ['station-silent', 'mast', 'false'],
      ['station-doubted', 'mast', 'false'],
    ]);
  });

  it('that is silent is a hold where it is the last, with when it last told', () => {
    const conditions = of(every(5, '11:00', '12:40', wandering(180, 5)));
    expect(the(conditions, 'station-silent')).toMatchObject({
      truth: 'true',
      verdict: 'hold',
      figures: { station: 'mast', wasMs: clock('12:40') },
    });
    expect(the(conditions, 'station-doubted')).toMatchObject({ truth: 'unknown', verdict: 'go' });
  });

  it('that is silent is advice where another tells the wind', () => {
    const conditions = of([...every(5, '11:00', '12:40', '180 5'), airport('12:53', '180 5')], both);
    expect(the(conditions, 'station-silent', 'mast')).toMatchObject({ truth: 'true', verdict: 'go' });
    expect(the(conditions, 'station-silent', 'KXYZ').truth).toBe('false');
  });

  it('that is frozen is doubted', () => {
    const stuck = [seen('11:55', '183 5'), ...every(5, '12:00', '13:00', (m) => `180 ${5 + (m % 7) / 10}`)];
    expect(the(of(stuck), 'station-doubted')).toMatchObject({
      truth: 'true',
      verdict: 'hold',
      figures: { what: 'frozen' },
    });
  });

  it('that is frozen stays so until it moves, however long, through silence and calm', () => {
    // It told other directions until 10:00; from then on 237 with a speed that wanders.
    const stuck = [
      ...every(5, '08:00', '09:55', wandering(230, 5)),
      ...every(5, '10:00', '16:00', (m) => `237 ${5 + (m % 7) / 10}`),
    ];
    let before: readonly Condition[] = [];
    const doubtedAt = (now: string, observations: readonly Observation[] = stuck) => {
      const seenBy = observations.filter((o) => o.observedAtMs <= clock(now));
      const context = watchContextOf({ observations: seenBy, before, now });
      const conditions = keepRaised(before, stationConditions(context));
      before = conditions;
      return [the(conditions, 'station-doubted').truth, context.watched[0]?.health.state];
    };
    expect(doubtedAt('10:55')).toEqual(['false', 'good']);
    // All within what is looked back on is 237 from 13:00 on.
    for (const now of ['11:05', '12:00', '13:05', '14:00', '15:59']) {
      expect(doubtedAt(now), now).toEqual(['true', 'frozen']);
    }
    expect(doubtedAt('16:30')).toEqual(['unknown', 'silent']);
    expect(doubtedAt('20:00')).toEqual(['unknown', 'silent']);
    const again = [seen('20:05', 'calm'), seen('20:10', '237 4'), seen('20:15', '236 4')];
    expect(doubtedAt('20:05', again)).toEqual(['true', 'frozen']);
    expect(doubtedAt('20:10', again)).toEqual(['true', 'frozen']);
    expect(doubtedAt('20:15', again)).toEqual(['false', 'good']);
  });

  it('is frozen by saying the same while another moves', () => {
    const same = every(5, '11:00', '13:00', '180 5');
    const moving = [airport('11:53', '180 5'), airport('12:53', '190 6')];
    expect(the(of([...same, ...moving], both), 'station-doubted', 'mast').truth).toBe('true');
    expect(the(of([...same, airport('11:53', '180 5')], both), 'station-doubted', 'mast').truth).toBe(
      'false',
    );
  });

  it('that jumps is doubted as advice: its gusts count all the same', () => {
    const jumps = every(5, '12:00', '13:00', wandering(180, 5), (m) => ({
      gustMps: m === 20 || m === 40 ? 30 : 8,
    }));
    expect(the(of(jumps), 'station-doubted')).toMatchObject({
      truth: 'true',
      verdict: 'go',
      figures: { what: 'jumps' },
    });
  });

  it('read by hand is no silent one before it was read', () => {
    const readings = every(5, '12:00', '13:00', wandering(180, 3));
    const byHand = { stations: [ON_SITE, PERSON] };
    const silent = (observations: readonly Observation[], text: WatchText = {}) =>
      the(of(observations, { ...byHand, ...text }), 'station-silent', PERSON.id);
    expect(silent(readings).truth).toBe('false');
    expect(silent([]).truth).toBe('false');
    // Where there is nothing else, that nobody measures is told as that.
    expect(silent([], { stations: [PERSON] }).truth).toBe('false');
    // One that was read and is read no more is missed, also when its last reading plays no part any more.
    const read = [seen('09:59', '180 5', { station: PERSON.id }), ...readings];
    const before = of(read, { ...byHand, now: '12:30' });
    expect(the(before, 'station-silent', PERSON.id).truth).toBe('true');
    expect(silent(read, { before })).toMatchObject({ truth: 'true', verdict: 'go' });
  });

  it('out of reach is not told of', () => {
    expect(of([], { stations: [{ ...AIRPORT, distanceM: 90_000 }] })).toEqual([]);
  });
});

describe('thunder near', () => {
  const thunder = (observations: readonly Observation[], text: WatchText = both) =>
    thunderNear(watchContextOf({ observations, ...text }));

  it('is a stop as soon as any station in reach tells of it', () => {
    expect(
      thunder([...every(5, '12:00', '13:00', '180 5'), airport('12:53', '180 5', { thunder: true })]),
    ).toMatchObject({
      truth: 'true',
      verdict: 'stop',
      figures: { atMs: clock('12:53'), station: 'KXYZ' },
    });
  });

  it('is over half an hour after, where the station tells of none (NWS lightning safety: 30 minutes)', () => {
    const heard = [
      airport('11:53', '180 5', { thunder: true }),
      airport('12:20', '180 5', { thunder: false }),
    ];
    expect(thunder(heard, { ...both, now: '12:49' }).truth).toBe('true');
    expect(thunder(heard, { ...both, now: '12:50' }).truth).toBe('false');
  });

  it('is not over because nothing is told of it any more', () => {
    expect(thunder([airport('10:20', '180 5', { thunder: true })])).toMatchObject({
      truth: 'unknown',
      verdict: 'stop',
    });
    const blank = [airport('11:53', '180 5', { thunder: true }), airport('12:53', '180 5')];
    expect(thunder(blank).truth).toBe('true');
  });

  it('is not over by a doubted word', () => {
    const doubted = [
      airport('11:53', '180 5', { thunder: true }),
      airport('12:10', '180 5', { thunder: false, quality: 'doubtful' }),
    ];
    expect(thunder(doubted)).toMatchObject({ truth: 'unknown', verdict: 'stop' });
    expect(thunder([airport('12:53', '180 5', { thunder: true, quality: 'doubtful' })]).truth).toBe('true');
  });

  it('of which nobody here tells is left to the forecast', () => {
    expect(thunder(every(5, '12:00', '13:00', '180 5'))).toMatchObject({ truth: 'unknown', verdict: 'go' });
  });
});
