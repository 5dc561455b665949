// The evening and the dawn text: each at its time on the site's clock, at most once for a date, whatever the clock and the
// process do. Clock changes of 2026 in the United States: 8 March and 1 November, at 02:00 (15 U.S.C. 260a).

import { describe, expect, it } from 'vitest';
import {
  DAY_TEXT_TIMES,
  type DayTextTimes,
  dayTextMessage,
  dayTextName,
  dayTextsDue,
  sinceEvening,
} from '#core/notices/day-texts.ts';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import { parseInstantMs, rfc3339 } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { ZONE } from '../../builders/contacts.ts';
import { SITE } from '../../builders/notices.ts';

const ms = (text: string): number => parseInstantMs(text) ?? Number.NaN;

/** Every minute from one instant to another, with what was told kept as the store keeps it: `local time kind about`. */
function minutes(
  from: string,
  to: string,
  times: DayTextTimes = DAY_TEXT_TIMES,
  told = new Set<string>(),
): string[] {
  const said: string[] = [];
  for (let nowMs = ms(from); nowMs < ms(to); nowMs += MINUTE_MS) {
    for (const due of dayTextsDue({ site: SITE, timeZone: ZONE, times }, told, nowMs)) {
      told.add(dayTextName(due));
      said.push(`${rfc3339(nowMs, ZONE)} ${due.kind} ${due.about}`);
    }
  }
  return said;
}

it('the evening text tells of tomorrow, the dawn text of today, each at its time', () => {
  expect(minutes('2026-06-10T00:00:00-05:00', '2026-06-12T00:00:00-05:00')).toEqual([
    '2026-06-10T04:45:00-05:00 dawn 2026-06-10',
    '2026-06-10T17:05:00-05:00 evening 2026-06-11',
    '2026-06-11T04:45:00-05:00 dawn 2026-06-11',
    '2026-06-11T17:05:00-05:00 evening 2026-06-12',
  ]);
});

describe('on the nights on which the clock is changed', () => {
  // Within the hour that is skipped, or comes twice.
  const times = { evening: '01:30', dawn: '02:30', lateMs: 180 * MINUTE_MS };

  it('there is one of each, though its hour is skipped', () => {
    expect(minutes('2026-03-08T00:00:00-06:00', '2026-03-09T00:00:00-05:00', times)).toEqual([
      '2026-03-08T01:30:00-06:00 evening 2026-03-09',
      '2026-03-08T03:30:00-05:00 dawn 2026-03-08',
    ]);
  });

  it('there is one of each, though its hour comes twice', () => {
    expect(minutes('2026-11-01T00:00:00-05:00', '2026-11-02T00:00:00-06:00', times)).toEqual([
      '2026-11-01T01:30:00-05:00 evening 2026-11-02',
      '2026-11-01T02:30:00-06:00 dawn 2026-11-01',
    ]);
  });

  it('those at their usual times are at their usual times', () => {
    for (const date of ['2026-03-08', '2026-11-01']) {
      const said = minutes(`${date}T06:00:00Z`, `${date}T23:59:00Z`);
      expect(said.map((line) => line.slice(11, 16))).toEqual(['04:45', '17:05']);
    }
  });
});

describe('after a pause', () => {
  it('a text that was missed is told once it is not too late, and not after that', () => {
    expect(minutes('2026-06-10T19:30:00-05:00', '2026-06-11T00:00:00-05:00')).toEqual([
      '2026-06-10T19:30:00-05:00 evening 2026-06-11',
    ]);
    expect(minutes('2026-06-10T20:05:00-05:00', '2026-06-11T00:00:00-05:00')).toEqual([]);
  });

  it('a text that was told is not told again: not after a restart, nor after the clock was set back', () => {
    const told = new Set([dayTextName({ site: SITE, date: '2026-06-10', kind: 'evening' })]);
    expect(minutes('2026-06-10T12:00:00-05:00', '2026-06-11T00:00:00-05:00', DAY_TEXT_TIMES, told)).toEqual(
      [],
    );
    // That of another site is another one.
    const other = new Set([
      dayTextName({ site: 'fern-hollow/south-block', date: '2026-06-10', kind: 'evening' }),
    ]);
    expect(
      minutes('2026-06-10T12:00:00-05:00', '2026-06-11T00:00:00-05:00', DAY_TEXT_TIMES, other),
    ).toHaveLength(1);
  });

  it('one that was due before midnight is still told after it, for its own date', () => {
    const late = { evening: '23:30', dawn: null, lateMs: 120 * MINUTE_MS };
    expect(minutes('2026-06-11T00:10:00-05:00', '2026-06-11T12:00:00-05:00', late)).toEqual([
      '2026-06-11T00:10:00-05:00 evening 2026-06-11',
    ]);
  });
});

it('a text that is not wanted is not due', () => {
  const none = { evening: null, dawn: null, lateMs: 180 * MINUTE_MS };
  expect(minutes('2026-06-10T00:00:00-05:00', '2026-06-11T00:00:00-05:00', none)).toEqual([]);
});

describe('the dawn text says what moved since the evening', () => {
  const at = (clock: string): number => ms(`2026-06-11T${clock}:00-05:00`);
  const dayOf = (change: Partial<DaySummary> = {}): DaySummary => ({
    date: '2026-06-11',
    verdict: 'go',
    cannotSay: false,
    times: {
      lightUp: at('09:00'),
      lightUpBy: at('13:00'),
      lastCharge: at('14:00'),
      burnedDown: at('15:00'),
      coveredBy: at('15:30'),
    },
    reasons: ['over-limit windGust'],
    windows: [['go', at('09:00'), at('17:00')]],
    ...change,
  });
  const dawnMs = at('04:45');
  const evening = { date: '2026-06-11', day: dayOf(), changes: null };

  it('nothing, where the verdict and the times are the same to the minute, whatever decides them', () => {
    expect(sinceEvening(evening, dayOf({ reasons: ['dark'] }), dawnMs)).toEqual([]);
  });

  it('each time that moved, a minute too, and the verdict', () => {
    const times = { ...(dayOf().times as NonNullable<DaySummary['times']>), coveredBy: at('15:29') };
    expect(sinceEvening(evening, dayOf({ times }), dawnMs)).toMatchObject([
      { kind: 'time', time: 'coveredBy', movedMin: -1, tendency: 'worse' },
    ]);
    const changes = sinceEvening(evening, dayOf({ verdict: 'hold', times: null }), dawnMs);
    expect(changes?.[0]).toMatchObject({ kind: 'verdict', from: 'go', to: 'hold', tendency: 'worse' });
  });

  it('nothing can be said where no evening text was told, or one of another day', () => {
    expect(sinceEvening(null, dayOf(), dawnMs)).toBeNull();
    expect(sinceEvening({ ...evening, date: '2026-06-10' }, dayOf(), dawnMs)).toBeNull();
  });

  it('and whoever makes it makes the same message, whatever the plan is by then', () => {
    const due = dayTextsDue({ site: SITE, timeZone: ZONE, times: DAY_TEXT_TIMES }, new Set(), dawnMs)[0];
    if (due === undefined) throw new Error('it is due');
    const hash = (text: string): string => text;
    const one = dayTextMessage(due, dayOf(), evening, { nowMs: dawnMs, hash });
    const two = dayTextMessage(due, dayOf({ verdict: 'hold' }), evening, { nowMs: dawnMs + 5, hash });
    expect(two.id).toBe(one.id);
    expect(one).toMatchObject({
      kind: 'dawn',
      day: { changes: [] },
      needsAnswer: false,
      validUntilMs: at('07:45'),
    });
  });
});
