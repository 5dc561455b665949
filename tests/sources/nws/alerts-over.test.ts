// Which alerts are over or replaced (reference, part D, of the API's public reports). Zones are invented.

import { describe, expect, it } from 'vitest';
import { type AlertCollection, readAlerts } from '#sources/nws/alerts.ts';
import { alert, answerTo, hourMs, vtec, ZONES } from './alert-fixture.ts';

const point = (...features: unknown[]) => answerTo('point', features);
const all = (...features: unknown[]) => answerTo('all', features);
const read = (...collections: AlertCollection[]) => readAlerts(collections, ZONES);
const idsOf = (...collections: AlertCollection[]) => read(...collections).alerts.map(({ id }) => id);
const only = (feature: unknown) => read(point(feature)).alerts[0];

describe('what is over', () => {
  const reasons = (...features: unknown[]) =>
    read(point(...features)).dropped.map(({ id, reason }) => `${id} ${reason}`);

  it('an alert that was upgraded is out, though still listed (nws_alerts#45; recorded)', () => {
    const watch = { id: 'a', event: 'Fire Weather Watch', urgency: 'Past' };
    expect(reasons(alert({ ...watch, vtec: [vtec('UPG', 'FW.A.0021')] }))).toEqual(['a ended']);
  });

  it('a cancellation is out, and what it refers to (eas-station#2283)', () => {
    const old = alert({ id: 'u2', vtec: [vtec('CON')], sent: '2026-03-02T10:00:00+00:00' });
    const cancel = alert({ id: 'c', messageType: 'Cancel', replaces: ['u2'], vtec: [vtec('CAN')] });
    expect(reasons(old, cancel)).toEqual(['u2 replaced', 'c ended']);
  });

  it('an update stands in for what it refers to (AccessiWeather#449)', () => {
    const first = alert({ id: 'u1', vtec: [vtec('NEW')], sent: '2026-03-02T10:00:00+00:00' });
    const second = alert({ id: 'u2', replaces: ['u1'], vtec: [vtec('CON')] });
    expect(idsOf(point(first, second))).toEqual(['u2']);
    expect(read(point(second)).endedIds).toContain('u1');
  });

  it('an update on the same event and zones stands in without a reference', () => {
    const first = alert({ id: 'u1', vtec: [vtec('NEW')], sent: '2026-03-02T10:00:00+00:00' });
    expect(idsOf(point(first, alert({ id: 'u2', vtec: [vtec('EXT')] })))).toEqual(['u2']);
  });

  it('an update for fewer zones leaves the alert before it in force', () => {
    const zones = ['fire/XXZ238', 'fire/XXZ239'];
    const first = alert({ id: 'u1', zones, vtec: [vtec('NEW')], sent: '2026-03-02T10:00:00+00:00' });
    expect(idsOf(point(first, alert({ id: 'u2', vtec: [vtec('CON')] })))).toEqual(['u1', 'u2']);
  });

  it('two events in one product both stand, with equal texts and zones', () => {
    const today = alert({ id: 'a', vtec: [vtec('EXB', 'FW.W.0007')] });
    const tomorrow = alert({ id: 'b', vtec: [vtec('NEW', 'FW.W.0008')], sent: '2026-03-02T12:30:00+00:00' });
    expect(idsOf(point(today, tomorrow))).toEqual(['a', 'b']);
  });

  it('what is named in expiredReferences is out', () => {
    const old = alert({ id: 'urn:oid:1', vtec: [vtec('NEW')], sent: '2026-03-02T06:00:00+00:00' });
    const expiredReferences = [
      'w@example.gov,urn:oid:1,2026-03-02T06:00:00+00:00 w@example.gov,urn:oid:0,2026-03-01T06:00:00+00:00',
    ];
    const now = alert({
      id: 'urn:oid:2',
      vtec: [vtec('NEW', 'FW.W.0008')],
      parameters: { expiredReferences },
    });
    const reading = read(point(old, now));
    expect(reading.alerts.map(({ id }) => id)).toEqual(['urn:oid:2']);
    expect([...reading.endedIds].sort()).toEqual(['urn:oid:0', 'urn:oid:1']);
  });

  it('a message of elsewhere, a test, or one that may not be ours ends nothing', () => {
    const ours = alert({ id: 'a', sent: '2026-03-02T06:00:00+00:00' });
    const elsewhere = alert({ id: 'b', zones: ['fire/XXZ999'], replaces: ['a'] });
    const doubtful = alert({ id: 'c', zones: ['forecast/XXZ238'], replaces: ['a'] });
    const trial = alert({ id: 'd', status: 'Test', replaces: ['a'] });
    expect(read(all(ours, elsewhere, doubtful, trial)).alerts.map(({ id }) => id)).toEqual(['a', 'c']);
  });

  it('two messages that name each other do not put out both', () => {
    const one = alert({ id: 'a', replaces: ['b'] });
    const other = alert({ id: 'b', replaces: ['a'] });
    expect(idsOf(point(one, other))).toEqual(['a', 'b']);
    expect(idsOf(point(alert({ id: 'a', replaces: ['b'], sent: null }), other))).toEqual(['a', 'b']);
  });

  it('a cancellation of one event leaves another in the same message in force', () => {
    const both = alert({ id: 'a', vtec: [vtec('UPG', 'FW.A.0021'), vtec('NEW', 'FW.W.0007')] });
    expect(idsOf(point(both))).toEqual(['a']);
  });

  it('a Cancel with a live event contradicts itself and stays; one without an event is out', () => {
    expect(idsOf(point(alert({ id: 'a', messageType: 'Cancel', vtec: [vtec('CON')] })))).toEqual(['a']);
    expect(reasons(alert({ id: 'a', messageType: 'Cancel' }))).toEqual(['a ended']);
  });

  it('an expiry that is told before the end stands until that end', () => {
    expect(only(alert({ id: 'a', vtec: [vtec('EXP')] }))?.toMs).toBe(hourMs(26));
    const told = { id: 'a', vtec: [vtec('EXP')], sent: '2026-03-03T02:05:00+00:00' };
    expect(reasons(alert(told))).toEqual(['a ended']);
    expect(reasons(alert({ id: 'a', vtec: [vtec('EXP')], ends: null }))).toEqual(['a ended']);
  });

  it('a VTEC that cannot be read ends nothing', () => {
    expect(idsOf(point(alert({ id: 'a', vtec: ['/O.CAN.KZZZ/'] })))).toEqual(['a']);
  });
});

describe('a re-issue without VTEC', () => {
  const quality = (id: string, sent: number, from: number, to: number | null, more: object = {}) => {
    const text = (hour: number) => new Date(hourMs(hour)).toISOString();
    const expires = to === null ? 'x' : text(to);
    return alert({
      id,
      event: 'Air Quality Alert',
      sent: text(sent),
      onset: text(from),
      ends: null,
      expires,
      ...more,
    });
  };

  it('stands in for what it covers (api: no VTEC, no ends)', () => {
    expect(idsOf(point(quality('a', 6, 6, 28), quality('b', 12, 12, 28)))).toEqual(['b']);
    expect(idsOf(point(quality('a', 6, 6, 28), quality('b', 12, 12, null)))).toEqual(['b']);
  });

  it.each([
    ['ends sooner', quality('b', 12, 12, 20)],
    ['begins later, for tomorrow', quality('b', 12, 30, 52)],
    ['comes from another office', quality('b', 12, 12, 28, { senderName: 'NWS Elsewhere' })],
    ['is of another event', quality('b', 12, 12, 28, { event: 'Dense Smoke Advisory' })],
    ['was sent at the same time', quality('b', 6, 6, 28)],
    ['was sent at a time that cannot be read', quality('b', 12, 12, 28, { sent: 'x' })],
    ['names more zones', quality('b', 12, 12, 28, { geocode: { UGC: ['XXZ238', 'XXZ777'] } })],
  ])('leaves the other in force where it %s', (_, other) => {
    expect(idsOf(point(quality('a', 6, 6, 28), other))).toEqual(['a', 'b']);
  });
});
