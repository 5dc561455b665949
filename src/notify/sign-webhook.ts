// Signatures of Standard Webhooks 1.0.0: HMAC-SHA256 over id, moment and body, one for each secret that is in use.

import { createHmac } from 'node:crypto';

/** The bytes of a secret `whsec_…` (24 to 64 of them); null where it is none. */
export function webhookKey(secret: string): Uint8Array | null {
  const written = /^whsec_([A-Za-z0-9+/]+={0,2})$/.exec(secret)?.[1];
  if (written === undefined) return null;
  const key = Buffer.from(written, 'base64');
  return key.length >= 24 && key.length <= 64 ? key : null;
}

/** The header `webhook-signature`. */
export const signWebhook = (
  keys: readonly Uint8Array[],
  id: string,
  timestampS: number,
  body: string,
): string =>
  keys
    .map((key) => `v1,${createHmac('sha256', key).update(`${id}.${timestampS}.${body}`).digest('base64')}`)
    .join(' ');
