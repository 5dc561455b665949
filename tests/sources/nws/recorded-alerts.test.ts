// Recorded alert lists: nothing is lost in silence, and what is left out is left out for a reason that can be counted.

import { expect, it } from 'vitest';
import { readAlertCollection, readAlerts, readSavedAlerts } from '#sources/nws/alerts.ts';
import { describeRecorded, parsed, recorded, recordedNames } from '../recorded.ts';

interface Properties {
  readonly id: string;
  readonly event: string;
  readonly messageType: string;
  readonly parameters: { readonly VTEC?: readonly string[] };
}

const MAY = 'alerts-active_national_20260514_30-red-flag_reltime.json';
const JULY = 'alerts-active_national_202607_red-flag-and-smoke_reltime.json';

function snapshot(name: string) {
  const { bytes } = recorded(name);
  const { features } = readAlertCollection(bytes);
  const raw = rawFeatures(bytes);
  // In the list of July three features come twice, word for word.
  const distinct = [...new Map(raw.map((feature) => [JSON.stringify(feature), feature])).values()];
  const properties = distinct.map((feature) => (feature as { properties: Properties }).properties);
  return { features, properties, reading: readAlerts([{ query: 'all', features }], null) };
}

const rawFeatures = (bytes: Uint8Array): readonly unknown[] =>
  (parsed(bytes) as { readonly features: readonly unknown[] }).features;

const count = (names: readonly string[]): Record<string, number> => {
  const counts: Record<string, number> = {};
  for (const name of names) counts[name] = (counts[name] ?? 0) + 1;
  return counts;
};

describeRecorded('a national list of alerts', () => {
  it.each([
    [MAY, 246],
    [JULY, 396],
  ])('%s: each of %d features stands or is named among those left out', (name, features) => {
    const { features: listed, properties, reading } = snapshot(name);
    expect(listed).toHaveLength(features);
    const accounted = [...reading.alerts, ...reading.dropped];
    expect(accounted.map(({ id }) => id).sort()).toEqual(properties.map(({ id }) => id).sort());
    expect(count(accounted.map(({ event }) => event))).toEqual(count(properties.map(({ event }) => event)));
    expect(reading.alerts.every(({ event }) => event !== 'unreadable alert')).toBe(true);
  });

  it.each([[MAY], [JULY]])(
    '%s: what its own VTEC cancels or upgrades is out, and nothing else with a live event of its own',
    (name) => {
      const { properties, reading } = snapshot(name);
      const over = properties.filter(({ parameters }) =>
        parameters.VTEC?.every((text) => /^\/O\.(CAN|UPG)\./.test(text)),
      );
      expect(reading.dropped.filter(({ reason }) => reason === 'ended').map(({ id }) => id)).toEqual(
        expect.arrayContaining(over.map(({ id }) => id)),
      );
      const ended = reading.dropped.filter(({ reason }) => reason === 'ended').length;
      expect(ended - over.length).toBe(properties.filter((p) => endedOtherwise(p)).length);
    },
  );

  const endedOtherwise = ({ messageType, parameters }: Properties): boolean =>
    parameters.VTEC === undefined
      ? messageType === 'Cancel'
      : parameters.VTEC.every((text) => text.startsWith('/O.EXP.'));

  it('keeps all 30 red flag warnings of May and 9 of 10 watches, the tenth being upgraded', () => {
    // README of the recordings: 30 Red Flag Warnings, 10 Fire Weather Watches of which one was already upgraded.
    const { reading } = snapshot(MAY);
    const standing = count(reading.alerts.map(({ event }) => event));
    expect(standing['Red Flag Warning']).toBe(30);
    expect(standing['Fire Weather Watch']).toBe(9);
  });

  it('keeps the fire and smoke alerts of July', () => {
    // README of the recordings: 11 Dense Smoke, 11 Red Flag, 2 Fire Weather Watch.
    const standing = count(snapshot(JULY).reading.alerts.map(({ event }) => event));
    expect(standing['Dense Smoke Advisory']).toBe(11);
    expect(standing['Red Flag Warning']).toBe(11);
    expect(standing['Fire Weather Watch']).toBe(2);
  });

  it.each([[MAY], [JULY]])(
    '%s: only a re-issue of the same event and office takes the place of an alert',
    (name) => {
      const { reading } = snapshot(name);
      const replaced = reading.dropped.filter(({ reason }) => reason === 'replaced');
      const standing = new Set(reading.alerts.map(({ event }) => event));
      for (const { event } of replaced) expect(standing).toContain(event);
      expect(reading.dropped.every(({ reason }) => reason === 'ended' || reason === 'replaced')).toBe(true);
    },
  );

  it.each([[MAY], [JULY]])('%s: every alert that stands begins before it ends, or has no end', (name) => {
    for (const { fromMs, toMs } of snapshot(name).reading.alerts) {
      expect(fromMs).not.toBeNull();
      if (fromMs !== null && toMs !== null) expect(toMs).toBeGreaterThan(fromMs);
    }
  });

  it('matches a red flag warning to its fire zone, and only as possible to a public zone of that code', () => {
    const { bytes, nowMs } = recorded(MAY);
    const warning = rawFeatures(bytes)
      .map((feature) => (feature as { properties: Properties & { affectedZones: string[] } }).properties)
      .find(({ event }) => event === 'Red Flag Warning');
    const code = warning?.affectedZones[0]?.split('/').at(-1) ?? '';
    const ours = (kind: string) =>
      readSavedAlerts(bytes, [{ kind, code }], nowMs).alerts.find(({ id }) => id === warning?.id)?.possible;
    expect(warning?.affectedZones[0]).toContain('/zones/fire/');
    expect(ours('fire')).toBe(false);
    expect(ours('forecast')).toBe(true);
    expect(ours('county')).toBe(true);
  });
});

describeRecorded('every recorded alert file', () => {
  it.each(recordedNames('alert'))('%s is read, with a time and an office for each', (name) => {
    const { bytes, nowMs } = recorded(name);
    const { alerts, complete } = readSavedAlerts(bytes, null, nowMs);
    expect(complete).toBe(true);
    for (const { sentMs, senderName, event } of alerts) {
      expect(sentMs).not.toBeNull();
      expect(senderName).not.toBe('');
      expect(event).not.toBe('unreadable alert');
    }
  });
});
