// Our rules on messages that the schema of the standard lets pass, and on the samples of others. Each case was put to
// xmllint with the OASIS schema: it finds nothing wrong with those marked so.

import { describe, expect, it } from 'vitest';
import type { CapAlert } from '#core/cap/cap-alert.ts';
import { capFaults, ownCapFaults } from '#core/cap/cap-rules.ts';
import { capXml } from '#publish/cap/cap-xml.ts';
import { capFile, HAS_SCHEMA, readAlert, schemaFaults } from '../../service/cap/read-cap.ts';
import { alertOf, infoOf } from './alert-of.ts';

const reference = { sender: 'us', identifier: 'm1', sent: '2026-04-14T09:00:00-07:00' };
const square = [
  [36, -120],
  [37, -120],
  [37, -119],
  [36, -120],
] as const;
const area = (polygon: readonly (readonly [number, number])[]) => ({
  areaDesc: 'Pit',
  polygons: [polygon],
  circles: [],
});
const infos = (given: Parameters<typeof infoOf>[0]) => [
  infoOf(given),
  infoOf({ ...given, language: 'es-US' }),
];

const WRONG: readonly [string, Partial<CapAlert>, schemaSays: 'nothing' | 'fault'][] = [
  ['an identifier with a space', { identifier: 'a b' }, 'nothing'],
  ['an identifier with a comma', { identifier: 'a,b' }, 'nothing'],
  ['an identifier with a sign that opens a tag', { identifier: 'a<' }, 'nothing'],
  ['a sender with a space', { sender: 'us and them' }, 'nothing'],
  ['an Update of nothing', { msgType: 'Update' }, 'nothing'],
  ['a Cancel of nothing', { msgType: 'Cancel' }, 'nothing'],
  [
    'a message that names itself',
    { msgType: 'Update', references: [{ ...reference, identifier: 'm2' }] },
    'nothing',
  ],
  [
    'a message that names a later one',
    { msgType: 'Update', references: [{ ...reference, sent: '2026-04-14T11:00:00-07:00' }] },
    'nothing',
  ],
  ['a restricted one that does not say to whom', { restriction: null }, 'nothing'],
  ['a private one without addresses', { scope: 'Private' }, 'nothing'],
  [
    'one that expires before it is sent',
    { infos: infos({ expires: '2020-01-01T00:00:00-07:00' }) },
    'nothing',
  ],
  [
    'a polygon that is open',
    { infos: infos({ areas: [area([...square.slice(0, 3), [36.1, -120]])] }) },
    'nothing',
  ],
  ['a polygon of three points', { infos: infos({ areas: [area(square.slice(0, 3))] }) }, 'nothing'],
  [
    'longitude before latitude',
    { infos: infos({ areas: [area(square.map(([lat, lon]) => [lon, lat] as const))] }) },
    'nothing',
  ],
  ['a moment with Z', { sent: '2026-04-14T17:00:00Z' }, 'fault'],
  ['a moment with milliseconds', { sent: '2026-04-14T10:00:00.000-07:00' }, 'fault'],
  ['a public one', { scope: 'Public' }, 'nothing'],
  ['a draft', { status: 'Draft' }, 'nothing'],
  ['an Alert that follows upon another', { references: [reference] }, 'nothing'],
  ['one in one language', { infos: [infoOf({})] }, 'nothing'],
  [
    'languages that differ in what they tell',
    { infos: [infoOf({}), infoOf({ language: 'es-US', urgency: 'Future' })] },
    'nothing',
  ],
  ['one without a place', { infos: infos({ areas: [] }) }, 'nothing'],
];

it('the message that all of these are made from has no fault', async () => {
  expect(ownCapFaults(alertOf({}))).toEqual([]);
  expect(await schemaFaults([capXml(alertOf({}))])).toEqual([]);
});

describe.each(WRONG)('%s', (_, change, schemaSays) => {
  it('is found', () => {
    const alert = alertOf(change);
    expect(ownCapFaults(alert).length).toBeGreaterThan(0);
    expect(ownCapFaults(readAlert(capXml(alert))).length).toBeGreaterThan(0);
  });
  it.skipIf(!HAS_SCHEMA)('whatever the schema says', async () => {
    expect((await schemaFaults([capXml(alertOf(change))])).length > 0).toBe(schemaSays === 'fault');
  });
});

describe.skipIf(!HAS_SCHEMA)('the samples of the standard', () => {
  const samples = [
    'oasis-a1-hsas',
    'oasis-a2-thunderstorm',
    'oasis-a3-earthquake-update',
    'oasis-a4-amber',
    'update-wcatwc',
  ];
  it.each(samples)('%s has no fault by the text of the standard, and none of them is one of ours', (name) => {
    const alert = readAlert(capFile(`samples/${name}.xml`));
    expect(alert.identifier).not.toBe('');
    expect(capFaults(alert)).toEqual([]);
    expect(ownCapFaults(alert)).not.toEqual([]);
  });

  it('the negative sample is found by the schema and by our rules', async () => {
    const text = capFile('negative/element-order-invalid.xml');
    expect((await schemaFaults([text])).length).toBeGreaterThan(0);
    expect(ownCapFaults(readAlert(text))).not.toEqual([]);
  });
});
