// A site at which nobody measures the wind: said once, never a go of its own, and never a silence without end.

import { describe, expect, it } from 'vitest';
import { allSilent } from '#core/watch/all-silent.ts';
import { judgeWatch } from '#core/watch/judge-watch.ts';
import { liveVerdict } from '#core/watch/live-verdict.ts';
import { DEFAULT_WATCH } from '#core/watch/watch-settings.ts';
import { AIRPORT, clock, every, PERSON, seen } from '../../builders/watch.ts';
import { OPEN_BURN, type WatchText, watchInput } from '../../builders/watch-input.ts';

const NOBODY: WatchText = { stations: [], observations: [] };
const METER: WatchText = { ...NOBODY, stations: [PERSON] };
const NONE_NEAR: WatchText = { ...NOBODY, noneNear: [AIRPORT] };
const FAR: WatchText = { ...NOBODY, stations: [{ ...AIRPORT, distanceM: 90_000 }] };
const accepted = { settings: { unobserved: 'accepted' as const } };

const judge = (text: WatchText) => judgeWatch(watchInput(text));
const said = (text: WatchText) => {
  const found = judge(text).find(({ code }) => code === 'wind-unmeasured');
  return [found?.truth, found?.verdict];
};
const live = (text: WatchText) => {
  const input = watchInput(text);
  return liveVerdict(input.plan, input.burn, judgeWatch(input), input.nowMs).verdict;
};

describe('where nobody measures the wind', () => {
  it('and no station was written down it is said, and left to the forecast', () => {
    expect(said(NOBODY)).toEqual(['true', 'go']);
    expect([live(NOBODY), live({ ...NOBODY, settings: { unobserved: 'hold' } })]).toEqual(['go', 'hold']);
  });

  it.each([
    ['the nearest were asked for and there are none', NONE_NEAR],
    ['the one that was written down is too far', FAR],
  ])('and %s: a fire is a hold, until that is accepted', (_, text) => {
    expect(said(text)).toEqual(['true', 'hold']);
    expect(said({ ...text, burn: null })).toEqual(['true', 'go']);
    expect([live(text), live({ ...text, ...accepted })]).toEqual(['hold', 'go']);
    // It is told as that alone, not as a station that has gone silent.
    const silent = judge(text).filter(({ code, truth }) => code === 'station-silent' && truth === 'true');
    expect(silent).toEqual([]);
  });

  it('and a meter is to be read, it is a hold until it is read, whether or not the pit burns', () => {
    for (const burn of [OPEN_BURN, null]) {
      expect(said({ ...METER, burn })).toEqual(['true', 'hold']);
      const read = [seen('12:50', '180 3', { station: PERSON.id })];
      expect(said({ ...METER, burn, observations: read })).toEqual(['false', 'hold']);
    }
    expect(judge(METER).find(({ code }) => code === 'wind-unmeasured')?.figures.station).toBe(PERSON.id);
    expect(live({ ...METER, ...accepted })).toBe('go');
  });

  it('a meter that was read and is read no more is silent, accepted or not: missing data is no go', () => {
    const observations = [seen('10:30', '180 3', { station: PERSON.id })];
    for (const text of [METER, { ...METER, ...accepted }]) {
      const now = { ...text, observations, now: '13:00' };
      expect(said(now)[0]).toBe('false');
      expect(judge(now)).toContainEqual(
        expect.objectContaining({ code: 'station-silent', truth: 'true', verdict: 'hold' }),
      );
      expect(live(now)).toBe('hold');
    }
  });

  it('and one that was read before nobody looked for hours is still no meter that was never read', () => {
    const lit = { ...METER, ...accepted, now: '11:00' };
    const before = judge({ ...lit, observations: [seen('10:55', '180 3', { station: PERSON.id })] });
    expect(before.find(({ code }) => code === 'station-silent')?.truth).toBe('false');
    // The pit burns on; what was read is older by now than observations count.
    const now = { ...lit, now: '16:00', before };
    expect(said(now)[0]).toBe('false');
    expect(judge(now)).toContainEqual(
      expect.objectContaining({ code: 'station-silent', truth: 'true', verdict: 'hold' }),
    );
    expect(live(now)).toBe('hold');
    const unlit = { ...now, burn: null };
    const { stations, settings } = watchInput(unlit);
    expect(allSilent(stations, judge(unlit), settings, clock('16:00'))).toBe(true);
  });

  it('while the nearest are still to be found nobody says that there are none', () => {
    expect(said({ ...NOBODY, unfound: [AIRPORT] })[0]).toBe('false');
    const before = judge(NONE_NEAR);
    // After a restart, until they have been asked for again: as it was said, no better.
    expect(said({ ...NOBODY, unfound: [AIRPORT], before })).toEqual(['true', 'hold']);
    expect(said({ ...NOBODY, unfound: [AIRPORT], before, ...accepted })).toEqual(['true', 'go']);
    const told = every(5, '12:00', '13:00', '180 3', { station: AIRPORT.id });
    expect(said({ ...NOBODY, stations: [AIRPORT], observations: told, before })[0]).toBe('false');
  });

  it('the list says the same of a site where nothing burns', () => {
    const listed = (text: WatchText) => {
      const { settings, stations } = watchInput({ ...text, burn: null });
      return allSilent(stations, judge({ ...text, burn: null }), settings, clock('13:00'));
    };
    expect([listed(METER), listed({ ...METER, ...accepted }), listed(NOBODY)]).toEqual([true, false, false]);
    expect(DEFAULT_WATCH.unobserved).toBe('forecast');
  });
});
