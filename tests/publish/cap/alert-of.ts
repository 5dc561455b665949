// A message without a fault, with what matters to a test given.

import type { CapAlert, CapInfo } from '#core/cap/cap-alert.ts';

export const infoOf = (given: Partial<CapInfo>): CapInfo => ({
  language: 'en-US',
  categories: ['Fire'],
  event: 'Pit burn under way',
  responseType: 'Monitor',
  urgency: 'Immediate',
  severity: 'Minor',
  certainty: 'Observed',
  onset: null,
  expires: '2026-04-14T11:00:00-07:00',
  senderName: 'Pitward, own',
  headline: 'North block',
  description: 'A pit burns.',
  instruction: 'Ask the site.',
  contact: null,
  parameters: [['pitward:site', 'north-block']],
  areas: [{ areaDesc: 'Pit', polygons: [], circles: [{ at: [36.438, -120.231], radiusKm: 0.5 }] }],
  ...given,
});

export const alertOf = (given: Partial<CapAlert>): CapAlert => ({
  identifier: 'm2',
  sender: 'us',
  sent: '2026-04-14T10:00:00-07:00',
  status: 'Actual',
  msgType: 'Alert',
  scope: 'Restricted',
  restriction: 'For dispatch',
  addresses: [],
  note: null,
  references: [],
  incidents: ['burn-1'],
  infos: [infoOf({}), infoOf({ language: 'es-US' })],
  ...given,
});
