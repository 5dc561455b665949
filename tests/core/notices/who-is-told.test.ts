// Whose business what is; hours in which nobody is woken; silences; and that nothing is taken back before people who
// never heard of it.

import { describe, expect, it } from 'vitest';
import { TOLD_BY } from '#core/notices/codes.ts';
import type { Contact } from '#core/notices/contact.ts';
import type { Message } from '#core/notices/message.ts';
import type { Silence } from '#core/notices/silence.ts';
import { heardKey, whoIsTold } from '#core/notices/who-is-told.ts';
import { HOUR_MS } from '#core/units/time.ts';
import type { ConditionCode } from '#core/watch/condition.ts';
import { audienceOf, contactOf, noticeMessage, transitionOf } from '../../builders/contacts.ts';
import { conditionOf, EIGHT_MS, gust, SITE, shift } from '../../builders/notices.ts';

const CREW = contactOf('crew');
const BACKUP = contactOf('backup', { step: 1 });
const OFFICE = contactOf('office', { role: 'office', step: 2 });
const DESK = contactOf('desk', { role: 'dispatch' });
const EVERYBODY = [CREW, BACKUP, OFFICE, DESK];

/** `contact@step` for those told, `?` for those who are asked; `contact: why` for the others. */
function told(
  message: Message,
  contacts: readonly Contact[] = EVERYBODY,
  change: object = {},
  nowMs = EIGHT_MS,
) {
  const who = whoIsTold(message, audienceOf(contacts, change), nowMs);
  return [
    ...who.told.map((t) => `${t.contact.id}@${t.step}${t.asked ? '?' : ''}`),
    ...who.not.map((n) => `${n.contact.id}: ${n.why}`),
  ];
}

const about = (code: ConditionCode, verdict: 'go' | 'hold' | 'stop', needsAnswer: boolean): Message =>
  noticeMessage([transitionOf({ condition: conditionOf(code, 'true', { verdict }) })], {
    verdict,
    needsAnswer,
  });

const OFFICE_TOO = ['lit-against-plan', 'lit-without-go', 'not-covered-by-dusk', 'authority-stop'];
const DISPATCH_TOO = ['not-covered-by-dusk', 'authority-stop'];

describe('by role', () => {
  it.each(Object.keys(TOLD_BY) as ConditionCode[])(
    '%s as news: the crew, and whose business it is besides',
    (code) => {
      const office = OFFICE_TOO.includes(code) ? 'office@0' : 'office: role';
      const desk = DISPATCH_TOO.includes(code) ? 'desk@0' : 'desk: role';
      expect(told(about(code, 'go', false)).sort()).toEqual(['crew@0', 'backup@0', office, desk].sort());
    },
  );

  it.each(Object.keys(TOLD_BY) as ConditionCode[])(
    '%s as a stop: the crew in turn, then the office; dispatch at once',
    (code) => {
      const asked = ['crew@0?', 'backup@1?', 'office@2?', 'desk@0'];
      const office = OFFICE_TOO.includes(code) ? ['office@0'] : [];
      expect(told(about(code, 'stop', true)).sort()).toEqual([...asked, ...office].sort());
    },
  );

  it('the office is never asked first, whatever its step says, and dispatch only where it has one', () => {
    expect(told(about('thunder-near', 'hold', true), [contactOf('o', { role: 'office' })])).toEqual(['o@1?']);
    expect(told(about('thunder-near', 'hold', true), [DESK])).toEqual(['desk: role']);
    expect(told(about('thunder-near', 'hold', true), [{ ...DESK, step: 3 }])).toContain('desk@3?');
  });

  it('plans go to the crew, taps to dispatch, what concerns the texts to the office', () => {
    const base = noticeMessage([], { needsAnswer: false });
    const tap = { burn: 'b', tap: 'lit' as const, tappedAtMs: EIGHT_MS, by: 'Ana', pit: null };
    const matter = { what: 'opted-out' as const, contact: 'crew', about: null, detail: null };
    const day = { date: '2026-03-03', changes: null, day: dayOf() };
    expect(told({ ...base, kind: 'evening', day }).filter((t) => t.includes('@'))).toEqual([
      'crew@0',
      'backup@0',
    ]);
    expect(told({ ...base, kind: 'dawn', day }).filter((t) => t.includes('@'))).toEqual([
      'crew@0',
      'backup@0',
    ]);
    expect(told({ ...base, kind: 'burn', tap }).filter((t) => t.includes('@'))).toEqual(['desk@0']);
    expect(told({ ...base, kind: 'office', matter }).filter((t) => t.includes('@'))).toEqual(['office@0']);
    expect(told({ ...base, kind: 'drill' }).filter((t) => t.includes('@'))).toHaveLength(4);
  });

  it('only of their own sites', () => {
    const message = about('thunder-near', 'stop', true);
    expect(told(message, [contactOf('a', { sites: ['south-block'] })])).toEqual(['a: other-site']);
    expect(told(message, [contactOf('a', { sites: ['north-block'] })])).toEqual(['a@0?']);
    expect(told(message, [contactOf('a', { sites: ['north'] })])).toEqual(['a: other-site']);
  });
});

const dayOf = () => ({
  date: '2026-03-03',
  verdict: 'go' as const,
  cannotSay: false,
  times: null,
  reasons: [],
  windows: [],
});

describe('in quiet hours', () => {
  // 08:00 at the site lies within.
  const sleeper = contactOf('a', { quiet: { from: '20:00', to: '09:00' } });

  it('only a stop on an open burn comes through', () => {
    expect(told(about('thunder-near', 'stop', true), [sleeper])).toEqual(['a@0?']);
    expect(told(about('thunder-near', 'stop', false), [sleeper], { burnOpen: false })).toEqual(['a: quiet']);
    expect(told(about('thunder-near', 'hold', true), [sleeper])).toEqual(['a: quiet']);
    expect(told({ ...noticeMessage([]), kind: 'drill' }, [sleeper])).toEqual(['a: quiet']);
  });

  it('the end of a stop waits', () => {
    const over = noticeMessage([transitionOf({ kind: 'over', verdict: 'go', was: 'stop' })]);
    const heard = new Set([heardKey('a', transitionOf())]);
    expect(told(over, [sleeper], { heard })).toEqual(['a: quiet']);
    expect(told(over, [sleeper], { heard }, EIGHT_MS + HOUR_MS)).toEqual(['a@0?']);
  });

  it('row 13: the one gate is before all channels: what is not told has no delivery at all (grafana#105839)', () => {
    const ways = [{ channel: 'webhook', to: 'https://example.org/in' }];
    const who = whoIsTold(about('thunder-near', 'hold', true), audienceOf([{ ...sleeper, ways }]), EIGHT_MS);
    expect(who.told).toEqual([]);
  });
});

describe('what is taken back', () => {
  const over = transitionOf({ kind: 'over', verdict: 'go', was: 'hold', condition: gust('false', 'hold') });

  it.each(['over', 'eased', 'corrected'] as const)(
    '%s: is told only to those who were told of it',
    (kind) => {
      const message = noticeMessage([{ ...over, kind }], { needsAnswer: false });
      expect(told(message, [CREW, BACKUP])).toEqual(['crew: not-told-before', 'backup: not-told-before']);
      expect(told(message, [CREW, BACKUP], { heard: new Set([heardKey('crew', over)]) })).toEqual([
        'crew@0',
        'backup: not-told-before',
      ]);
      // Another episode of the same thing is another thing.
      const before = new Set([heardKey('crew', { ...over, episode: '0' })]);
      expect(told(message, [CREW], { heard: before })).toEqual(['crew: not-told-before']);
    },
  );

  it('beside something new, those who never heard of it are told the new alone', () => {
    const message = noticeMessage([transitionOf({ condition: shift('true', 'stop') }), over]);
    const who = whoIsTold(
      message,
      audienceOf([CREW, BACKUP], { heard: new Set([heardKey('crew', over)]) }),
      EIGHT_MS,
    );
    expect(who.told.map((t) => [t.contact.id, t.parts])).toEqual([
      ['crew', [0, 1]],
      ['backup', [0]],
    ]);
  });
});

describe('a silence', () => {
  const silence = (change: Partial<Silence> = {}): Silence => ({
    id: 's',
    site: SITE,
    code: 'thunder-near',
    fromMs: EIGHT_MS,
    untilMs: EIGHT_MS + HOUR_MS,
    reason: 'the sensor is being moved',
    by: 'Ana',
    role: 'crew',
    endedAtMs: null,
    endedBy: null,
    ...change,
  });
  const hold = about('thunder-near', 'hold', true);
  const at = (afterMs: number, message = hold, change: Partial<Silence> = {}) =>
    told(message, [CREW], { silences: [silence(change)] }, EIGHT_MS + afterMs)[0];

  it('keeps from telling what it names, at its site, until its end, and then it is told if it still is so', () => {
    expect([at(0), at(HOUR_MS - 1), at(HOUR_MS)]).toEqual(['crew: silenced', 'crew: silenced', 'crew@0?']);
    expect(at(0, about('wind-shifted', 'hold', true))).toBe('crew@0?');
    expect(at(0, hold, { site: 'fern-hollow/south-block' })).toBe('crew@0?');
    expect(at(0, about('wind-shifted', 'hold', true), { code: null })).toBe('crew: silenced');
  });

  it('row 25: ends for good when it is ended, and never comes back with a clock that was set back (alertmanager#2415)', () => {
    expect(at(1, hold, { endedAtMs: EIGHT_MS, endedBy: 'Ben' })).toBe('crew@0?');
    expect(at(-HOUR_MS)).toBe('crew@0?');
    // However far its end is said to be.
    expect(at(4 * HOUR_MS, hold, { untilMs: EIGHT_MS + 1000 * HOUR_MS })).toBe('crew@0?');
  });

  it('of the crew does not silence a stop that was observed; one of the office does', () => {
    const stop = about('thunder-near', 'stop', true);
    expect(at(0, stop)).toBe('crew@0?');
    expect(at(0, stop, { role: 'office' })).toBe('crew: silenced');
    const forecast = noticeMessage([
      transitionOf({
        condition: conditionOf('thunder-near', 'true', { verdict: 'stop', basis: 'forecast' }),
      }),
    ]);
    expect(at(0, forecast)).toBe('crew: silenced');
  });

  it('leaves the rest of a message as it is', () => {
    const message = noticeMessage([transitionOf(), ...hold.transitions]);
    const who = whoIsTold(message, audienceOf([CREW], { silences: [silence()] }), EIGHT_MS);
    expect(who.told.map((t) => t.parts)).toEqual([[0]]);
  });
});
