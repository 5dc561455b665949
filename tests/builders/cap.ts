// A published message for tests of the store.

import type { CapMessage } from '#store/cap-records.ts';

export const capMessageOf = (given: Partial<CapMessage>): CapMessage => ({
  organisation: 'own',
  site: 'own/north-block',
  chain: 'burn own/north-block b1',
  number: 1,
  identifier: 'pitward.own.1',
  sender: 'us',
  sent: '2026-04-14T10:00:00-07:00',
  sentMs: Date.UTC(2026, 3, 14, 17),
  expiresMs: Date.UTC(2026, 3, 14, 18),
  ends: false,
  headline: 'A pit burns',
  summary: '{}',
  told: { kind: 'burn' },
  body: '<alert/>',
  ...given,
});
