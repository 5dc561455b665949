// Alert features of invented offices (KZZZ) and zones (XXZ…), written for these tests.

import { readAlertFeature } from '#sources/nws/alert-feature.ts';
import type { Zones } from '#sources/nws/alert-fit.ts';
import type { AlertCollection } from '#sources/nws/alerts.ts';

export const ZONES: Zones = [
  { kind: 'forecast', code: 'XXZ110' },
  { kind: 'county', code: 'XXC005' },
  { kind: 'fire', code: 'XXZ238' },
];

const zoneUrl = (zone: string): string => `https://api.weather.gov/zones/${zone}`;
export const vtec = (action: string, rest = 'FW.W.0007', productClass = 'O'): string =>
  `/${productClass}.${action}.KZZZ.${rest}.260302T1800Z-260303T0200Z/`;

interface Shape {
  readonly id: string;
  readonly zones?: readonly string[];
  readonly vtec?: readonly string[];
  /** Ids of the messages that it refers to. */
  readonly replaces?: readonly string[];
  readonly parameters?: object;
  readonly [member: string]: unknown;
}

/** A Red Flag Warning for the fire zone, 18Z to 02Z, sent at 12Z, but for what is given. */
export function alert({
  id,
  zones = ['fire/XXZ238'],
  vtec: events,
  replaces,
  parameters,
  ...rest
}: Shape): object {
  return {
    id: `https://api.weather.gov/alerts/${id}`,
    type: 'Feature',
    geometry: null,
    properties: {
      id,
      geocode: { UGC: zones.map((zone) => zone.split('/')[1]) },
      affectedZones: zones.map(zoneUrl),
      references: (replaces ?? []).map((identifier) => ({ identifier, sent: '2026-03-02T06:00:00+00:00' })),
      sent: '2026-03-02T12:00:00+00:00',
      effective: '2026-03-02T12:00:00+00:00',
      onset: '2026-03-02T18:00:00+00:00',
      expires: '2026-03-02T17:45:00+00:00',
      ends: '2026-03-03T02:00:00+00:00',
      status: 'Actual',
      messageType: 'Alert',
      event: 'Red Flag Warning',
      senderName: 'NWS Nowhere',
      headline: 'a headline',
      description: 'a description',
      parameters: { ...(events ? { VTEC: events } : {}), ...parameters },
      ...rest,
    },
  };
}

/** Hours after 2026-03-02T00Z, epoch ms. */
export const hourMs = (hour: number): number => Date.UTC(2026, 2, 2) + hour * 3_600_000;

/** Features as the answer to a query. */
export const answerTo = (query: AlertCollection['query'], features: readonly unknown[]): AlertCollection => ({
  query,
  features: features.map(readAlertFeature),
});
