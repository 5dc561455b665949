// Web Push (RFC 8030, 8291, 8292): an extra beside texts and mail, never the only way, since a phone may be off for days.

import { createHash } from 'node:crypto';
import { z } from 'zod';
import type { Channel, ChannelDeps, Outcome, Outgoing } from './channel.ts';
import { channelStanding } from './channel-standing.ts';
import { type HttpRequest, type HttpResult, httpCaller } from './http-call.ts';
import { outcome } from './outcome.ts';
import { limitsOf, MOST_RETRY_AFTER_MS, outgoingFields, policyOf, secretName } from './outgoing-settings.ts';
import { outgoingUrl } from './outgoing-url.ts';
import { type PushSubscription, pushSubscription } from './push-subscription.ts';
import { retryAfterMs } from './retry-after.ts';

export const webPushSettings = z.strictObject({
  kind: z.literal('web-push'),
  /** Whom the push service may reach about us. */
  subject: z.string().regex(/^(mailto:[^\s@]+@[^\s@]+|https:\/\/\S+)$/, 'expected mailto:… or https://…'),
  /** As browsers are given it to subscribe: an uncompressed point of P-256 in base64url. */
  publicKey: z.string().regex(/^[A-Za-z0-9_-]{87}$/, 'expected 65 bytes in base64url'),
  privateKey: secretName,
  ...outgoingFields,
});
export type WebPushSettings = z.output<typeof webPushSettings>;

/** One record of 4096 bytes less its header, delimiter and tag (RFC 8291, section 4). */
const MOST_PAYLOAD_BYTES = 3993;
const MOST_ANSWER_BYTES = 4096;

export function webPush(settings: WebPushSettings, deps: ChannelDeps): Channel {
  const caller = httpCaller(
    policyOf(settings),
    limitsOf(settings, { mostBytes: MOST_ANSWER_BYTES, keptConnections: 0 }),
    deps,
  );
  const standing = channelStanding(deps.clock);
  return {
    async send(outgoing, signal) {
      const request = await requestOf(settings, outgoing, deps);
      const made = 'kind' in request ? request : meaningOf(await caller.call(request, signal), deps);
      standing.note(made);
      return made;
    },
    state: standing.state,
    async close() {
      standing.close();
      await caller.close();
    },
  };
}

async function requestOf(
  settings: WebPushSettings,
  outgoing: Outgoing,
  deps: ChannelDeps,
): Promise<HttpRequest | Outcome> {
  const to = pushSubscription(outgoing.to);
  if (to === null) return outcome.failed('bad-address', 'way', 'not a push subscription');
  const url = outgoingUrl(to.endpoint, policyOf(settings));
  if (typeof url === 'string') return outcome.failed('forbidden-address', 'way', `the address ${url}`);
  const privateKey = deps.secret(settings.privateKey);
  if (privateKey === null)
    return outcome.failed('auth', 'channel', `the environment variable ${settings.privateKey} is not set`);
  const ttlS = Math.max(1, Math.floor((outgoing.validUntilMs - deps.clock.nowMs()) / 1000));
  const payload = payloadOf(outgoing);
  if (payload.byteLength > MOST_PAYLOAD_BYTES)
    return outcome.failed('too-long', 'message', `over ${MOST_PAYLOAD_BYTES} bytes`);
  const authorization = await vapid(settings, privateKey, to);
  if (authorization === null)
    return outcome.failed('auth', 'channel', 'the keys of the configuration are no pair of P-256');
  const { encryptNotification } = await library();
  const body = await encryptNotification(withExpiry(to), payload);
  const topic = outgoing.topic === null ? {} : { topic: topicOf(outgoing.topic) };
  const headers = {
    authorization,
    'content-encoding': 'aes128gcm',
    'content-type': 'application/octet-stream',
    ttl: String(ttlS),
    urgency: outgoing.urgency,
    ...topic,
  };
  return { url, method: 'POST', headers, body };
}

async function vapid(
  { subject, publicKey }: WebPushSettings,
  privateKey: string,
  to: PushSubscription,
): Promise<string | null> {
  const { vapidHeaders } = await library();
  try {
    const { headers } = await vapidHeaders(withExpiry(to), { subject, publicKey, privateKey });
    return headers.authorization;
  } catch {
    return null;
  }
}

/** Loaded by the first message: who sends none starts sooner. */
const library = () => import('@block65/webcrypto-web-push');

const withExpiry = (to: PushSubscription) => ({ ...to, expirationTime: null });

const payloadOf = ({ id, subject, text, link, validUntilMs }: Outgoing): Uint8Array =>
  new TextEncoder().encode(JSON.stringify({ id, title: subject, body: text, url: link, validUntilMs }));

/** At most 32 characters of base64url (RFC 8030, section 5.4), the same for the same topic. */
const topicOf = (topic: string): string =>
  createHash('sha256').update(topic).digest('base64url').slice(0, 32);

function meaningOf(result: HttpResult, { clock }: ChannelDeps): Outcome {
  if (result.kind === 'fault') {
    // A repeat is known by its id (and replaces, where it has a topic): another try is right even where this may have arrived.
    return result.reason === 'forbidden-address'
      ? outcome.failed(result.reason, 'way', result.detail)
      : outcome.retry(result.reason, result.detail);
  }
  const { status, headers } = result;
  const detail = `answer ${status}`;
  const afterMs = retryAfterMs(headers['retry-after'], clock.nowMs(), MOST_RETRY_AFTER_MS);
  if (status === 200 || status === 201 || status === 202) return outcome.sent(headers['location'] ?? null);
  if (status === 404 || status === 410) return outcome.failed('gone', 'way', detail);
  if (status === 401 || status === 403) return outcome.failed('auth', 'channel', detail);
  if (status === 413) return outcome.failed('too-long', 'message', detail);
  if (status === 429) return outcome.retry('rate-limited', detail, afterMs);
  if (status === 408 || status === 425 || status >= 500) return outcome.retry('unavailable', detail, afterMs);
  if (status >= 300 && status < 400) return outcome.failed('redirected', 'way', detail);
  return outcome.failed('refused', 'message', detail);
}
