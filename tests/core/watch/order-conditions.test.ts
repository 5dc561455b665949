// What an office has said: alerts and orders, in force, to come, issued anew, gone, and not to be read.

import { describe, expect, it } from 'vitest';
import { orderConditions } from '#core/watch/order-conditions.ts';
import { alertOf, alertsSeen } from '../../builders/alerts.ts';
import { siteWith } from '../../builders/site.ts';
import { clock } from '../../builders/watch.ts';
import { type WatchText, watchContextOf } from '../../builders/watch-input.ts';

describe('official alerts', () => {
  const FLAG = alertOf('Red Flag Warning', clock('09:00'), clock('20:00'));
  const alerted = (text: WatchText) =>
    orderConditions(watchContextOf({ now: '10:00', ...text }))
      .filter((c) => c.code === 'official-alert')
      .map((c) => [c.subject, c.truth, c.verdict]);
  const seenAt = (when: string, ...alerts: Parameters<typeof alertsSeen>[1] & object) =>
    alertsSeen(clock(when), alerts);

  it('in force count as the site says, unlisted ones as advice', () => {
    const statement = alertOf('Special Weather Statement', clock('09:00'), null);
    expect(alerted({ alerts: seenAt('09:55', FLAG, statement) })).toEqual([
      ['', 'false', 'hold'],
      [FLAG.id, 'true', 'stop'],
      [statement.id, 'true', 'go'],
    ]);
  });

  it('that come within the shift are told ahead as advice, later ones not, ended ones no more', () => {
    expect(alerted({ alerts: seenAt('09:55', { ...FLAG, fromMs: clock('15:00') }) })[1]).toEqual([
      FLAG.id,
      'true',
      'go',
    ]);
    expect(alerted({ alerts: seenAt('09:55', { ...FLAG, fromMs: clock('19:00') }) })).toEqual([
      ['', 'false', 'hold'],
    ]);
    expect(alerted({ alerts: seenAt('09:55', { ...FLAG, toMs: clock('10:00') }) })).toEqual([
      ['', 'false', 'hold'],
    ]);
  });

  it('that are to come are not over because the plan is lost', () => {
    const alerts = seenAt('09:55', { ...FLAG, fromMs: clock('15:00') });
    const before = orderConditions(watchContextOf({ now: '09:56', alerts }));
    expect(alerted({ alerts, before, plan: null })[1]).toEqual([FLAG.id, 'true', 'go']);
  });

  it('without a beginning or an end are in force', () => {
    expect(alerted({ alerts: seenAt('09:55', { ...FLAG, fromMs: null, toMs: null }) })[1]?.[2]).toBe('stop');
    expect(
      alerted({ alerts: seenAt('09:55', { ...FLAG, fromMs: clock('09:00'), toMs: clock('08:00') }) })[1]?.[2],
    ).toBe('stop');
  });

  it('that cannot be read are a hold', () => {
    expect(
      alerted({ alerts: seenAt('09:55', alertOf('unreadable alert', null, null)) })[1]?.slice(1),
    ).toEqual(['true', 'hold']);
  });

  it.each([
    ['never read', null],
    ['read in part', { ...alertsSeen(clock('09:55')), complete: false }],
    ['read too long ago', alertsSeen(clock('08:00'))],
    ['read in the future', alertsSeen(clock('10:11'))],
  ])('%s are a hold by themselves, and one that was in force is not over', (_, alerts) => {
    const before = orderConditions(watchContextOf({ now: '09:50', alerts: seenAt('09:45', FLAG) }));
    expect(alerted({ alerts })).toEqual([['', 'true', 'hold']]);
    expect(alerted({ alerts, before })).toEqual([
      ['', 'true', 'hold'],
      [FLAG.id, 'unknown', 'stop'],
    ]);
  });

  it('that are issued anew go on under their name; another event, or one of another time, is another', () => {
    const before = orderConditions(watchContextOf({ now: '09:50', alerts: seenAt('09:45', FLAG) }));
    const now = (change: Partial<typeof FLAG>) =>
      alerted({ alerts: seenAt('09:55', { ...FLAG, id: 'anew', ...change }), before });
    const same = [
      ['', 'false', 'hold'],
      [FLAG.id, 'true', 'stop'],
    ];
    expect(now({})).toEqual(same);
    // The list may have both for a while.
    expect(alerted({ alerts: seenAt('09:55', FLAG, { ...FLAG, id: 'anew' }), before })).toEqual(same);
    for (const change of [
      { event: 'Fire Weather Watch' },
      { fromMs: clock('08:00') },
      { senderName: 'Other' },
    ]) {
      const [, other, gone] = now(change);
      expect([other?.[0], gone]).toEqual(['anew', [FLAG.id, 'false', 'stop']]);
    }
  });

  it('gone from a list that is whole are over', () => {
    const before = orderConditions(watchContextOf({ now: '09:50', alerts: seenAt('09:45', FLAG) }));
    expect(alerted({ alerts: seenAt('09:55'), before })[1]).toEqual([FLAG.id, 'false', 'stop']);
  });
});

describe('local orders', () => {
  const ordered = (fromMs: number | null, toMs: number | null) => {
    const site = siteWith({
      orders: [{ kind: 'order', name: 'burn ban', issuer: 'county', fromMs, toMs, verdict: 'stop' }],
    });
    return orderConditions(watchContextOf({ now: '10:00', planned: { site } }))
      .filter((c) => c.code === 'local-order')
      .map((c) => [c.subject, c.truth, c.verdict]);
  };

  it('in force count, those of the shift are told ahead, others are none', () => {
    expect(ordered(null, null)).toEqual([['county burn ban', 'true', 'stop']]);
    expect(ordered(clock('10:00'), clock('11:00'))).toEqual([['county burn ban', 'true', 'stop']]);
    expect(ordered(clock('12:00'), null)).toEqual([['county burn ban', 'true', 'go']]);
    expect(ordered(null, clock('10:00'))).toEqual([]);
    expect(ordered(clock('20:00'), null)).toEqual([]);
  });
});
