import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { officialAlerts, UNREADABLE_ALERT } from '#core/rules/official-alerts.ts';
import type { OfficialAlert } from '#core/series/official-alert.ts';
import { alertOf, alertsSeen } from '../../builders/alerts.ts';
import { one, told } from '../../builders/findings.ts';
import { contextOf, hasGo, inputOf, verdictAt } from '../../builders/plan.ts';
import { PLAIN_SITE, siteWith } from '../../builders/site.ts';
import { at, minutes } from '../../builders/time.ts';

const DATE = '2026-03-02';
const NOW = at(`${DATE} 06:00`);
const inputWith = (...alerts: OfficialAlert[]) => inputOf({ alerts: alertsSeen(NOW, alerts) });
const foundFor = (...alerts: OfficialAlert[]) => officialAlerts(contextOf(inputWith(...alerts)));
const noon = at(`${DATE} 12:00`);
const four = at(`${DATE} 16:00`);

describe('events by the table of the site (the defaults that the service promises)', () => {
  it.each([
    ['Red Flag Warning', 'stop'],
    ['High Wind Warning', 'stop'],
    ['Severe Thunderstorm Warning', 'stop'],
    ['Tornado Warning', 'stop'],
    ['Fire Weather Watch', 'hold'],
    ['Wind Advisory', 'hold'],
    ['Air Quality Alert', 'hold'],
    ['Air Stagnation Advisory', 'hold'],
    ['Dense Smoke Advisory', 'hold'],
    ['Special Weather Statement', 'go'],
    ['An Event Nobody Heard Of', 'go'],
  ])('%s is %s', (event, verdict) => {
    expect(told(foundFor(alertOf(event, noon, four)), DATE)).toEqual([
      `${verdict} official-alert 12:00-16:00`,
    ]);
  });

  it('an event named like something that every object has is advice too', () => {
    expect(one(foundFor(alertOf('constructor', noon, four)), 'official-alert').verdict).toBe('go');
  });

  it('an event written in capitals or with a space too many is still that event', () => {
    for (const event of ['RED FLAG WARNING', 'Red Flag Warning ', 'red flag warning']) {
      expect(one(foundFor(alertOf(event, noon, four)), 'official-alert').verdict, event).toBe('stop');
    }
  });

  it('listed twice in two spellings mean the worse of the two: the operator who wrote stop gets stop', () => {
    const site = siteWith({ alertVerdicts: { ...PLAIN_SITE.alertVerdicts, 'wind advisory': 'stop' } });
    const input = { ...inputWith(alertOf('Wind Advisory', noon, four)), site };
    expect(one(officialAlerts(contextOf(input)), 'official-alert').verdict).toBe('stop');
  });

  it('are changed by the site', () => {
    const site = siteWith({
      alertVerdicts: { ...PLAIN_SITE.alertVerdicts, 'Special Weather Statement': 'hold' },
    });
    const input = { ...inputWith(alertOf('Special Weather Statement', noon, four)), site };
    expect(one(officialAlerts(contextOf(input)), 'official-alert').verdict).toBe('hold');
  });
});

describe('the time of an alert', () => {
  it('without a beginning has always been, without an end goes on', () => {
    expect(told(foundFor(alertOf('Wind Advisory', null, noon)), DATE)).toEqual([
      'hold official-alert 2026-03-01 00:00-12:00',
    ]);
    expect(told(foundFor(alertOf('Wind Advisory', noon, null)), DATE)).toEqual([
      'hold official-alert 12:00-later',
    ]);
    expect(one(foundFor(alertOf('Wind Advisory', noon, null)), 'official-alert').figures.openEnded).toBe(
      true,
    );
  });

  it('whose end does not come after its beginning goes on: such an end cannot be trusted', () => {
    for (const end of [noon, noon - 1, at('2026-02-01 00:00')]) {
      expect(told(foundFor(alertOf('Wind Advisory', noon, end)), DATE)).toEqual([
        'hold official-alert 12:00-later',
      ]);
    }
  });

  it('that is no number is open, and never lets the alert vanish', () => {
    for (const alert of [
      alertOf('Red Flag Warning', Number.NaN, four),
      alertOf('Red Flag Warning', noon, Number.NaN),
    ]) {
      expect(foundFor(alert).length).toBe(1);
    }
  });

  it('that is over, or yet to come, says nothing of this day', () => {
    expect(foundFor(alertOf('Red Flag Warning', at('2026-02-20 10:00'), at('2026-02-21 10:00')))).toEqual([]);
    expect(foundFor(alertOf('Red Flag Warning', at('2026-03-09 10:00'), at('2026-03-10 10:00')))).toEqual([]);
  });

  it('stops the pit to the minute, and holds the charging for burn-down and cover before', () => {
    const plan = makePlan(inputWith(alertOf('Red Flag Warning', at(`${DATE} 13:17`), four)));
    expect(
      [at(`${DATE} 13:16`), at(`${DATE} 13:17`), at(`${DATE} 15:59`)].map((ms) => verdictAt(plan, ms)),
    ).toEqual(['hold', 'stop', 'stop']);
    expect([at(`${DATE} 11:46`), at(`${DATE} 11:47`)].map((ms) => verdictAt(plan, ms))).toEqual([
      'go',
      'hold',
    ]);
  });
});

describe('an alert', () => {
  it('that may not be ours counts in full, and says that it may not be ours', () => {
    const found = one(
      foundFor({ ...alertOf('Red Flag Warning', noon, four), possible: true }),
      'official-alert',
    );
    expect(found).toMatchObject({ verdict: 'stop', figures: { possible: true } });
  });

  it('that cannot be read is a hold because nobody can say', () => {
    expect(one(foundFor(alertOf(UNREADABLE_ALERT, null, null)), 'official-alert')).toMatchObject({
      verdict: 'hold',
      unknown: true,
    });
  });

  it('keeps who sent it, its headline and id', () => {
    expect(one(foundFor(alertOf('Wind Advisory', noon, four)), 'official-alert').figures).toMatchObject({
      sender: 'NWS Testville',
      headline: 'Wind Advisory for the test county',
      id: 'urn:test:Wind Advisory',
    });
  });
});

describe('alerts that were not seen', () => {
  const cases = [
    ['never read', null, 'never-read'],
    ['read in part', { ...alertsSeen(NOW), complete: false }, 'incomplete'],
    ['read two hours ago', alertsSeen(NOW - minutes(120)), 'old'],
    ['read eleven minutes from now', alertsSeen(NOW + minutes(11)), 'future'],
  ] as const;
  it.each(cases)('%s are a hold: none seen is not none', (_, alerts, why) => {
    const input = { ...inputOf(), alerts };
    expect(one(officialAlerts(contextOf(input)), 'alerts-unknown')).toMatchObject({
      verdict: 'hold',
      unknown: true,
      figures: { why },
    });
    expect(hasGo(makePlan(input))).toBe(false);
  });

  it('read an hour and 59 minutes ago, or by a clock ten minutes ahead, are good', () => {
    for (const fetched of [NOW - minutes(119), NOW + minutes(10)])
      expect(hasGo(makePlan(inputOf({ alerts: alertsSeen(fetched) })))).toBe(true);
  });

  it('in part still show those that were seen', () => {
    const alerts = { ...alertsSeen(NOW, [alertOf('Red Flag Warning', noon, four)]), complete: false };
    expect(
      officialAlerts(contextOf(inputOf({ alerts })))
        .map((f) => f.code)
        .sort(),
    ).toEqual(['alerts-unknown', 'official-alert']);
  });
});
