// A list of official alerts as a document: the same list has the same bytes, whenever it was read.

import { hash } from 'node:crypto';
import type { AlertsSeen } from '#core/series/official-alert.ts';
import type { NewDocument } from '#store/document.ts';

export function alertsDocument({ complete, alerts }: AlertsSeen): NewDocument {
  const bytes = Buffer.from(JSON.stringify({ complete, alerts }), 'utf8');
  return { hash: hash('sha256', bytes, 'hex'), kind: 'alerts', bytes };
}

export const readAlertsDocument = (bytes: Uint8Array): Omit<AlertsSeen, 'fetchedAtMs'> =>
  JSON.parse(Buffer.from(bytes).toString('utf8')) as Omit<AlertsSeen, 'fetchedAtMs'>;
