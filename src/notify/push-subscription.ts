// A push subscription as a browser gives it (W3C Push API): where to, and the keys that only that browser can answer to.

import { z } from 'zod';

const base64url = z.string().regex(/^[A-Za-z0-9_-]+={0,2}$/);

const subscription = z.object({
  endpoint: z.string(),
  keys: z.object({ p256dh: base64url, auth: base64url }),
});
export type PushSubscription = z.output<typeof subscription>;

/** From the JSON text of a contact's way; null where it is none. */
export function pushSubscription(text: string): PushSubscription | null {
  try {
    const { success, data } = subscription.safeParse(JSON.parse(text));
    return success && isKeyPair(data) ? data : null;
  } catch {
    return null;
  }
}

/** RFC 8291, section 3.2: an uncompressed point of P-256, and 16 bytes. */
function isKeyPair({ keys }: PushSubscription): boolean {
  const point = Buffer.from(keys.p256dh, 'base64url');
  return point.length === 65 && point[0] === 4 && Buffer.from(keys.auth, 'base64url').length === 16;
}
