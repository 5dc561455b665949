// Whose an alert is and when it holds (reference, part D, of the API's public reports). Zones are invented.

import { describe, expect, it } from 'vitest';
import { type AlertCollection, readAlerts } from '#sources/nws/alerts.ts';
import { alert, answerTo, hourMs, ZONES } from './alert-fixture.ts';

const point = (...features: unknown[]) => answerTo('point', features);
const zone = (...features: unknown[]) => answerTo('zone', features);
const all = (...features: unknown[]) => answerTo('all', features);
const read = (...collections: AlertCollection[]) => readAlerts(collections, ZONES);
const idsOf = (...collections: AlertCollection[]) => read(...collections).alerts.map(({ id }) => id);
const only = (feature: unknown) => read(point(feature)).alerts[0];

describe('whose alert it is', () => {
  it('a warning for the fire zone that the point query lacks is ours (api#109)', () => {
    const { alerts } = read(point(), zone(alert({ id: 'a' })));
    expect(alerts).toEqual([
      {
        id: 'a',
        event: 'Red Flag Warning',
        fromMs: hourMs(18),
        toMs: hourMs(26),
        sentMs: hourMs(12),
        senderName: 'NWS Nowhere',
        headline: 'a headline',
        possible: false,
      },
    ]);
  });

  it('one whose zone has our code but another kind may be ours (wg#1138)', () => {
    const { alerts } = read(all(alert({ id: 'a', zones: ['forecast/XXZ238'] })));
    expect(alerts.map(({ possible }) => possible)).toEqual([true]);
  });

  it('one without geometry is matched by its zones (AtticRadar#4)', () => {
    const wind = { event: 'Wind Advisory' };
    const reading = read(
      all(
        alert({ id: 'ours', zones: ['forecast/XXZ110'], ...wind }),
        alert({ id: 'other', zones: ['forecast/XXZ044'], ...wind }),
      ),
    );
    expect(reading.alerts.map(({ id }) => id)).toEqual(['ours']);
    expect(reading.dropped).toEqual([{ id: 'other', event: 'Wind Advisory', reason: 'elsewhere' }]);
  });

  it('one that only the point query brought is ours, whatever zones it names', () => {
    const { alerts } = read(point(alert({ id: 'a', zones: ['forecast/XXZ999'] })));
    expect(alerts.map(({ possible }) => possible)).toEqual([false]);
  });

  it('one that a zone query brought without naming our zone may be ours', () => {
    const { alerts } = read(zone(alert({ id: 'a', zones: ['forecast/XXZ999'] })));
    expect(alerts.map(({ possible }) => possible)).toEqual([true]);
  });

  it('one that names no zone at all may be ours', () => {
    expect(read(all(alert({ id: 'a', zones: [] }))).alerts.map(({ possible }) => possible)).toEqual([true]);
    const oddZones = alert({ id: 'a', affectedZones: 'x', geocode: null });
    expect(read(all(oddZones)).alerts.map(({ possible }) => possible)).toEqual([true]);
  });

  it('one that several queries bring counts once, and as certain if one of them makes it so', () => {
    const far = alert({ id: 'a', zones: ['forecast/XXZ999'] });
    expect(read(zone(far), point(far), zone(far)).alerts).toHaveLength(1);
    expect(read(zone(far), point(far)).alerts[0]?.possible).toBe(false);
  });
});

describe('two alerts under one id', () => {
  it('are one where they say the same, else both stand', () => {
    const first = alert({ id: 'a' });
    expect(idsOf(point(first, first))).toEqual(['a']);
    const both = read(
      point(
        first,
        alert({ id: 'a', event: 'High Wind Warning' }),
        alert({ id: 'a', ends: '2026-03-03T05:00:00+00:00' }),
      ),
    );
    expect(both.alerts.map(({ event, toMs }) => [event, toMs])).toEqual([
      ['Red Flag Warning', hourMs(26)],
      ['High Wind Warning', hourMs(26)],
      ['Red Flag Warning', hourMs(29)],
    ]);
  });
});

describe('when an alert holds', () => {
  it('begins at onset and ends at ends, though the message expires before it begins (api#15)', () => {
    const found = only(alert({ id: 'a' }));
    expect([found?.fromMs, found?.toMs]).toEqual([hourMs(18), hourMs(26)]);
  });

  it('a watch whose message expires 22 h before onset is kept whole (pirateweather#353)', () => {
    const found = only(
      alert({
        id: 'a',
        event: 'Fire Weather Watch',
        effective: '2026-03-02T08:00:00+00:00',
        onset: '2026-03-03T17:00:00+00:00',
        expires: '2026-03-02T19:00:00+00:00',
        ends: '2026-03-04T01:00:00+00:00',
      }),
    );
    expect([found?.fromMs, found?.toMs]).toEqual([hourMs(41), hourMs(49)]);
  });

  it.each([
    ['effective where onset is null', { onset: null }, hourMs(12), hourMs(26)],
    ['no beginning where neither can be read', { onset: 'soon', effective: null }, null, hourMs(26)],
    [
      'eventEndingTime where ends is null',
      { ends: null, parameters: { eventEndingTime: ['2026-03-03T01:00:00+00:00'] } },
      hourMs(18),
      hourMs(25),
    ],
    [
      'expires where nothing else ends it',
      { ends: null, expires: '2026-03-03T04:00:00+00:00' },
      hourMs(18),
      hourMs(28),
    ],
    ['no end where it expires before it begins', { ends: null }, hourMs(18), null],
    ['no end where it ends before it begins', { ends: '2026-03-02T17:00:00+00:00' }, hourMs(18), null],
    ['no end where none can be read', { ends: 'x', expires: 5 }, hourMs(18), null],
  ])('has %s', (_, members, fromMs, toMs) => {
    const found = only(alert({ id: 'a', ...members }));
    expect([found?.fromMs, found?.toMs]).toEqual([fromMs, toMs]);
  });

  it('an air quality alert without VTEC and ends holds until it expires', () => {
    const quality = { id: 'a', event: 'Air Quality Alert', onset: '2026-03-02T12:00:00+00:00', ends: null };
    expect(only(alert({ ...quality, expires: '2026-03-03T04:00:00+00:00' }))?.toMs).toBe(hourMs(28));
  });
});
