import { describe, expect, it } from 'vitest';
import type { Condition } from '#core/watch/condition.ts';
import { judgeWatch } from '#core/watch/judge-watch.ts';
import { liveVerdict } from '#core/watch/live-verdict.ts';
import { byClock, core } from '../../builders/forecast.ts';
import { limitOf, limitSet } from '../../builders/limits.ts';
import { EAST_SCHOOL, siteWith } from '../../builders/site.ts';
import { AIRPORT, clock, every, ON_SITE, seen, the } from '../../builders/watch.ts';
import { OPEN_BURN, type WatchText, wandering, watchInput } from '../../builders/watch-input.ts';

const mph = (n: number) => core('windSpeed', `${n} mph`);
const LIMITS = limitSet([
  limitOf('windSpeed', { low: { hold: '3 mph' }, high: { hold: '12 mph', stop: '15 mph' } }),
  limitOf('windGust', { high: { hold: '20 mph', stop: '25 mph' } }),
  limitOf('relativeHumidity', { low: { hold: '30 %', stop: '20 %' } }),
]);
const SITE = siteWith({ protected: [EAST_SCHOOL] });
const GOOD = { relativeHumidityPct: 45, gustMps: mph(14) };
const steady = (to = '13:00') => every(5, '10:00', to, wandering(180, mph(7)), GOOD);
const full: WatchText = {
  stations: [ON_SITE, AIRPORT],
  planned: { site: SITE, limits: LIMITS },
  observations: steady(),
};
const judge = (text: WatchText = {}) => judgeWatch(watchInput({ ...full, ...text }));
const live = (text: WatchText = {}) => {
  const input = watchInput({ ...full, ...text });
  return liveVerdict(input.plan, input.burn, judgeWatch(input), input.nowMs);
};
const trueOf = (conditions: readonly Condition[]) =>
  conditions.filter((c) => c.truth === 'true').map((c) => `${c.code} ${c.subject}`.trim());

describe('the watch of an open burn', () => {
  it('names every condition that could matter, each once', () => {
    const keys = judge().map((c) => `${c.code} ${c.subject}`.trim());
    expect(keys).toEqual([
      'wind-shifted',
      'wind-unsteady',
      'smoke-turned-to-place east school',
      'observed-beyond-limit windSpeed',
      'observed-beyond-limit windGust',
      'observed-beyond-limit relativeHumidity',
      'thunder-near',
      'station-silent mast',
      'station-doubted mast',
      'station-silent KXYZ',
      'station-doubted KXYZ',
      'reading-missing wind',
      'reading-missing windGust',
      'reading-missing relativeHumidity',
      'official-alert',
      'plan-verdict',
      'plan-moved lightUp',
      'plan-moved lastCharge',
      'plan-moved coveredBy',
      'plan-worse',
      'wind-shift-ahead',
      'forecast-stale',
      'wind-drifted',
      'wind-unmeasured',
      'lit-against-plan',
      'lit-without-go',
      'last-charge-soon',
      'last-charge-due',
      'cover-due',
      'not-covered-by-dusk',
    ]);
  });

  it('in good order is true of nothing that matters, and the verdict is that of the plan', () => {
    expect(trueOf(judge())).toEqual(['station-silent KXYZ']);
    expect(live()).toMatchObject({ verdict: 'go', planVerdict: 'go', cannotSay: false });
  });

  it('is the same whatever the order of what it is given', () => {
    const turned = judge({ stations: [AIRPORT, ON_SITE], observations: steady().reverse() });
    expect(turned).toEqual(judge());
  });

  it('a wind that turns onto the school is told at once, and all that follows from it', () => {
    const turned = [...steady('12:45'), ...every(5, '12:50', '13:00', '270 4', GOOD)];
    expect(trueOf(judge({ observations: turned }))).toEqual([
      'wind-shifted',
      'smoke-turned-to-place east school',
      'station-silent KXYZ',
      'wind-drifted',
    ]);
    expect(live({ observations: turned })).toMatchObject({ verdict: 'stop', planVerdict: 'go' });
    expect(live({ observations: turned }).conditions[0]?.code).toBe('smoke-turned-to-place');
  });

  it('of a pit that is covered is that somebody looks again, and what is open is over', () => {
    const turned = [...steady('12:45'), ...every(5, '12:50', '13:00', '270 4', GOOD)];
    const before = judge({ observations: turned });
    const covered = { ...OPEN_BURN, state: 'covered' as const, closedAtMs: clock('12:58') };
    const after = judge({ observations: turned, burn: covered, covered: [covered], before });
    expect(the(after, 'wind-drifted').truth).toBe('false');
    expect(after.filter((c) => c.code === 'look-again').map((c) => c.subject)).toEqual(['1', '3', '7']);
    expect(after.some((c) => c.code === 'last-charge-due')).toBe(false);
  });

  it('without a burn still says what bars a light-up', () => {
    const strong = [...steady('12:55'), seen('13:00', `180 ${mph(16)}`, GOOD)];
    expect(live({ burn: null, observations: strong })).toMatchObject({ verdict: 'stop', planVerdict: 'go' });
  });
});

describe('the live verdict', () => {
  it('is a hold while nobody can say and a fire burns, with what is unknown behind it', () => {
    const silent = live({ observations: steady('12:40') });
    expect(silent).toMatchObject({ verdict: 'hold', planVerdict: 'go' });
    expect(silent.conditions.map((c) => c.code)).toContain('smoke-turned-to-place');
    const light = live({ observations: every(5, '10:00', '13:00', '180 1.4', GOOD) });
    expect(light.verdict).toBe('hold');
  });

  it('says that it is only because nobody can say', () => {
    const blank = [...steady('12:40'), ...every(5, '12:45', '13:00', 'none', GOOD)];
    const alone = { stations: [ON_SITE] };
    expect(live({ ...alone, observations: blank })).toMatchObject({ verdict: 'hold', cannotSay: true });
    const strong = [...steady('12:55'), seen('13:00', `180 ${mph(13)}`, GOOD)];
    expect(live({ ...alone, observations: strong })).toMatchObject({ verdict: 'hold', cannotSay: false });
  });

  it('goes by the plan alone where nobody observes at all, or holds where the site says so', () => {
    expect(live({ stations: [], observations: [] })).toMatchObject({ verdict: 'go' });
    expect(live({ stations: [], observations: [], settings: { unobserved: 'hold' } })).toMatchObject({
      verdict: 'hold',
      cannotSay: true,
    });
  });

  it('where nothing burns is no go from the latest light-up on, and while a fire burns charging goes on', () => {
    const input = watchInput(full);
    const go = input.plan?.windows.find((w) => w.verdict === 'go');
    if (!input.plan || !go) throw new Error('the plan of the day has a go');
    const { kindlingMin } = input.plan.site.burn;
    const latestMs = go.toMs - kindlingMin * 60_000;
    const verdictAt = (nowMs: number, burn: typeof input.burn) => liveVerdict(input.plan, burn, [], nowMs);
    expect(verdictAt(latestMs - 1, null)).toMatchObject({ verdict: 'go', tooLateUntilMs: null });
    expect(verdictAt(latestMs, null)).toMatchObject({
      verdict: 'hold',
      planVerdict: 'hold',
      tooLateUntilMs: go.toMs,
      cannotSay: false,
    });
    expect(verdictAt(latestMs, OPEN_BURN)).toMatchObject({ verdict: 'go', tooLateUntilMs: null });
  });

  it('without a fire is not held by what is unknown', () => {
    expect(live({ burn: null, stations: [ON_SITE], observations: [] }).planVerdict).toBe('go');
    const unknownOnly = live({ burn: null, stations: [], observations: [] });
    expect(unknownOnly.conditions.filter((c) => c.truth === 'unknown')).toEqual([]);
  });

  describe('without a fire, where the only station falls silent at noon', () => {
    const silent = (thunder: boolean | null, gust = mph(14)) => {
      const told = every(5, '10:00', '12:00', wandering(180, mph(7)), { ...GOOD, thunder, gustMps: gust });
      const at = (now: string, before: readonly Condition[]) => {
        const input = watchInput({
          ...full,
          stations: [ON_SITE],
          observations: told,
          burn: null,
          now,
          before,
        });
        const conditions = judgeWatch(input);
        return { conditions, live: liveVerdict(input.plan, null, conditions, input.nowMs) };
      };
      const noon = at('12:01', []);
      return { noon: noon.live, later: at('13:00', noon.conditions).live };
    };

    it.each([
      ['thunder', true, mph(14), 'thunder-near'],
      ['a gust over its stop', null, mph(26), 'observed-beyond-limit'],
    ] as const)('what stopped it still does: %s', (_, thunder, gust, code) => {
      const { noon, later } = silent(thunder, gust);
      expect(noon).toMatchObject({ verdict: 'stop', planVerdict: 'go' });
      expect(later).toMatchObject({ verdict: 'stop', planVerdict: 'go', cannotSay: false });
      expect(later.conditions[0]).toMatchObject({ code, truth: 'unknown', verdict: 'stop' });
    });

    it('thunder holds where it told of that, though there was none, and not where nobody does', () => {
      const thunderOf = (told: boolean | null) =>
        silent(told).later.conditions.find(({ code }) => code === 'thunder-near');
      expect(silent(false).noon.verdict).toBe('go');
      expect(silent(false).later).toMatchObject({ verdict: 'hold', cannotSay: true });
      expect(thunderOf(false)).toMatchObject({ truth: 'unknown', verdict: 'hold' });
      expect(thunderOf(null)).toBeUndefined();
    });
  });

  it('without a plan is a hold, and where the plan says nothing of the moment', () => {
    expect(live({ plan: null })).toMatchObject({ verdict: 'hold', planVerdict: 'hold' });
    const input = watchInput(full);
    const later = clock('13:00') + 9 * 86_400_000;
    expect(liveVerdict(input.plan, OPEN_BURN, [], later)).toMatchObject({
      verdict: 'hold',
      planVerdict: 'hold',
    });
  });

  it('is never better than the plan: fine weather does not lift a forecast hold', () => {
    const windSpeed = byClock('windSpeed', { '00:00': '7 mph', '12:00': '20 mph' });
    const text = { planned: { site: SITE, limits: LIMITS, weather: { windSpeed } } };
    const found = live(text);
    expect(found).toMatchObject({ verdict: 'stop', planVerdict: 'stop' });
    expect(found.findings[0]?.code).toBe('over-limit');
  });
});

describe('a day with its watch, evaluation by evaluation', () => {
  /** What is true at each minute given, each evaluation knowing the one before. */
  function play(observations: ReturnType<typeof steady>, clocks: readonly string[]): string[] {
    let before: readonly Condition[] = [];
    return clocks.map((now) => {
      const known = observations.filter((o) => o.receivedAtMs <= clock(now));
      const input = watchInput({ ...full, stations: [ON_SITE], observations: known, now, before });
      before = judgeWatch(input);
      const { verdict } = liveVerdict(input.plan, input.burn, before, input.nowMs);
      return `${now} ${verdict} ${trueOf(before).join(', ')}`.trim();
    });
  }

  it('a gust over the stop: worse at once, better slowly, silence no better', () => {
    const gusts: Readonly<Record<string, number>> = { '12:10': 26, '12:15': 19, '12:20': 17, '12:25': 17 };
    const day = every(5, '10:00', '12:25', wandering(180, mph(7)), GOOD).map((o) => {
      const gust = Object.entries(gusts).find(([when]) => clock(when) === o.observedAtMs)?.[1];
      return gust === undefined ? o : { ...o, gustMps: mph(gust) };
    });
    const later = every(5, '13:00', '13:20', wandering(180, mph(7)), GOOD);
    const clocks = ['12:06', '12:11', '12:16', '12:21', '12:26', '12:45', '13:01', '13:11', '13:16'];
    expect(play([...day, ...later], clocks)).toEqual([
      '12:06 go',
      '12:11 stop observed-beyond-limit windGust',
      '12:16 stop observed-beyond-limit windGust',
      '12:21 stop observed-beyond-limit windGust',
      '12:26 stop observed-beyond-limit windGust',
      // Silent since 12:25, stale from 12:37:30: nobody can say, and it stays what it was.
      '12:45 stop station-silent mast',
      '13:01 stop observed-beyond-limit windGust',
      '13:11 stop observed-beyond-limit windGust',
      '13:16 go',
    ]);
  });
});
