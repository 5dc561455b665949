// Tests, features and answers that are not what they should be. Zones are invented.

import { describe, expect, it } from 'vitest';
import {
  type AlertCollection,
  readAlertCollection,
  readAlerts,
  readSavedAlerts,
} from '#sources/nws/alerts.ts';
import { alert, answerTo, vtec, ZONES } from './alert-fixture.ts';
import { bytesOf } from './grid-fixture.ts';

const point = (...features: unknown[]) => answerTo('point', features);
const all = (...features: unknown[]) => answerTo('all', features);
const read = (...collections: AlertCollection[]) => readAlerts(collections, ZONES);
const idsOf = (...collections: AlertCollection[]) => read(...collections).alerts.map(({ id }) => id);

describe('a test', () => {
  const mark = 'THIS_MESSAGE_IS_FOR_TEST_PURPOSES_ONLY';

  it('is out by its VTEC class, its status or its mark (nws_alerts#13)', () => {
    const tests = [
      alert({ id: 'a', event: 'Tsunami Warning', description: mark, vtec: [vtec('NEW', 'TS.W.9013', 'T')] }),
      alert({ id: 'b', status: 'Exercise' }),
      alert({ id: 'c', description: `${mark}.` }),
      alert({ id: 'd', event: 'Test Message' }),
    ];
    expect(read(point(...tests)).dropped.map(({ id, reason }) => `${id} ${reason}`)).toEqual([
      'a test',
      'b not-actual',
      'c test',
      'd test',
    ]);
  });

  it('is not seen in a word: a real event that mentions tests stays', () => {
    expect(idsOf(point(alert({ id: 'a', description: 'a test of the siren is put off' })))).toEqual(['a']);
    expect(idsOf(point(alert({ id: 'a', description: mark, vtec: [vtec('NEW')] })))).toEqual(['a']);
  });

  it('is not seen where the status is lacking', () => {
    expect(idsOf(point(alert({ id: 'a', status: null })))).toEqual(['a']);
  });
});

/** An alert with one member replaced, whatever it is. */
function overwritten(member: string, value: unknown): object {
  const feature = alert({ id: 'a' }) as { properties: object };
  return { ...feature, properties: { ...feature.properties, [member]: value } };
}

describe('a feature that cannot be read', () => {
  it.each([[null], [3], ['x'], [[]], [{}], [{ properties: null }], [{ properties: { event: 5 } }]])(
    '%j stays as an unreadable alert',
    (feature) => {
      const { alerts, dropped } = read(all(feature));
      expect(dropped).toEqual([]);
      expect(alerts).toHaveLength(1);
      expect(alerts[0]).toMatchObject({
        event: 'unreadable alert',
        fromMs: null,
        toMs: null,
        possible: true,
      });
      expect(alerts[0]?.id).toMatch(/^unnamed-[0-9a-f]{16}$/);
    },
  );

  it('stays even when it claims to be a test', () => {
    expect(read(point({ properties: { status: 'Test' } })).alerts).toHaveLength(1);
  });

  it('does not take the others with it', () => {
    expect(idsOf(point(null, alert({ id: 'a' })))).toContain('a');
  });

  it.each([
    ['affectedZones'],
    ['geocode'],
    ['references'],
    ['parameters'],
    ['sent'],
    ['headline'],
    ['messageType'],
  ])('odd JSON in %s loses nothing', (member) => {
    for (const odd of [null, 3, 'x', [], {}, [null], [3], { UGC: 3, VTEC: [3], expiredReferences: [3] }]) {
      expect(read(point(overwritten(member, odd))).alerts).toHaveLength(1);
    }
  });
});

describe('an alerts answer', () => {
  const saved = (document: unknown) => readSavedAlerts(bytesOf(document), ZONES, 7);

  it('may be empty, and is then complete', () => {
    expect(saved({ type: 'FeatureCollection', features: [] })).toEqual({
      fetchedAtMs: 7,
      complete: true,
      alerts: [],
    });
  });

  it('with another page is not the whole list', () => {
    const pagination = { next: 'https://api.weather.gov/alerts/active?cursor=x' };
    expect(saved({ features: [], pagination }).complete).toBe(false);
  });

  it('may be a single alert', () => {
    expect(saved(alert({ id: 'a' })).alerts).toHaveLength(1);
  });

  it('takes every alert where no zones are given', () => {
    const bytes = bytesOf({ features: [alert({ id: 'a', zones: ['fire/XXZ999'] })] });
    expect(readSavedAlerts(bytes, null, 7).alerts).toHaveLength(1);
  });

  it.each([[''], ['null'], ['{}'], ['{"features":null}'], ['{"title":"Not Found"}'], ['<html>']])(
    'that is %s is refused',
    (text) => {
      expect(() => readAlertCollection(bytesOf(text))).toThrow(
        expect.objectContaining({ code: 'source_unreadable' }),
      );
    },
  );
});
