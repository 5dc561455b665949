// Signed JSON to a program of dispatch, by Standard Webhooks 1.0.0: the same id on every try, the moment of each try, and
// only a 2xx is success. What the other side answers is not shown to anybody.

import { z } from 'zod';
import type { Channel, ChannelDeps, Outcome, Outgoing } from './channel.ts';
import { channelStanding } from './channel-standing.ts';
import { type HttpResult, httpCaller } from './http-call.ts';
import { outcome } from './outcome.ts';
import { limitsOf, MOST_RETRY_AFTER_MS, outgoingFields, policyOf, secretName } from './outgoing-settings.ts';
import { outgoingUrl } from './outgoing-url.ts';
import { retryAfterMs } from './retry-after.ts';
import { signWebhook, webhookKey } from './sign-webhook.ts';

export const webhookSettings = z.strictObject({
  kind: z.literal('webhook'),
  /** One, or two while one takes the place of the other: the newer first. */
  secrets: z.array(secretName).min(1).max(2),
  ...outgoingFields,
});
export type WebhookSettings = z.output<typeof webhookSettings>;

/** The standard wants payloads under 20 kB. */
const MOST_BODY_BYTES = 20_000;
const MOST_ANSWER_BYTES = 4096;

export function webhook(settings: WebhookSettings, deps: ChannelDeps): Channel {
  const policy = policyOf(settings);
  const limits = limitsOf(settings, { mostBytes: MOST_ANSWER_BYTES, keptConnections: 0 });
  const caller = httpCaller(policy, limits, deps);
  const standing = channelStanding(deps.clock);

  const send = async (outgoing: Outgoing, signal: AbortSignal): Promise<Outcome> => {
    const url = outgoingUrl(outgoing.to, policy);
    if (typeof url === 'string') return outcome.failed('forbidden-address', 'way', `the address ${url}`);
    const keys = keysOf(settings, deps);
    if (typeof keys === 'string') return outcome.failed('auth', 'channel', keys);
    const body = bodyOf(outgoing);
    if (body === null) return outcome.failed('render', 'message', 'nothing for a program to read');
    if (Buffer.byteLength(body) > MOST_BODY_BYTES) return outcome.failed('too-long', 'message', 'over 20 kB');
    const timestampS = Math.floor(deps.clock.nowMs() / 1000);
    const headers = {
      'content-type': 'application/json',
      'user-agent': 'pitward',
      'webhook-id': outgoing.id,
      'webhook-timestamp': String(timestampS),
      'webhook-signature': signWebhook(keys, outgoing.id, timestampS, body),
    };
    return meaningOf(await caller.call({ url, method: 'POST', headers, body }, signal), deps);
  };

  return {
    async send(outgoing, signal) {
      const made = await send(outgoing, signal);
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

function keysOf({ secrets }: WebhookSettings, deps: ChannelDeps): readonly Uint8Array[] | string {
  const keys: Uint8Array[] = [];
  for (const name of secrets) {
    const secret = deps.secret(name);
    if (secret === null) return `the environment variable ${name} is not set`;
    const key = webhookKey(secret);
    if (key === null) return `the environment variable ${name} holds no whsec_ secret of 24 to 64 bytes`;
    keys.push(key);
  }
  return keys;
}

/** The same text on every try: it is what is signed. */
const bodyOf = ({ event }: Outgoing): string | null =>
  event &&
  JSON.stringify({ type: event.type, timestamp: new Date(event.atMs).toISOString(), data: event.data });

function meaningOf(result: HttpResult, { clock }: ChannelDeps): Outcome {
  if (result.kind === 'fault') {
    // The id tells a repeat apart, so that another try is right even where this one may have arrived.
    return result.reason === 'forbidden-address'
      ? outcome.failed(result.reason, 'way', result.detail)
      : outcome.retry(result.reason, result.detail);
  }
  const { status, headers } = result;
  const detail = `answer ${status}`;
  const afterMs = retryAfterMs(headers['retry-after'], clock.nowMs(), MOST_RETRY_AFTER_MS);
  if (status >= 200 && status < 300) return outcome.sent(null);
  if (status >= 300 && status < 400) return outcome.failed('redirected', 'way', detail);
  if (status === 410) return outcome.failed('gone', 'way', detail);
  if (status === 429) return outcome.retry('rate-limited', detail, afterMs);
  if (status === 408 || status === 425 || status >= 500) return outcome.retry('unavailable', detail, afterMs);
  return outcome.failed(status === 401 || status === 403 ? 'auth' : 'refused', 'way', detail);
}
