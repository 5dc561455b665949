// One message to a subscriber by Standard Webhooks 1.0.0: signed with every secret that is live, only a 2xx is success, and
// what the other side answers is not read.

import type { TryOutcome } from '#core/events/hook-step.ts';
import type { OutcomeReason } from './channel.ts';
import { type HttpDeps, type HttpResult, httpCaller } from './http-call.ts';
import { MOST_RETRY_AFTER_MS } from './outgoing-settings.ts';
import { type OutgoingPolicy, outgoingUrl } from './outgoing-url.ts';
import { retryAfterMs } from './retry-after.ts';
import { signWebhook, webhookKey } from './sign-webhook.ts';

export interface HookMessage {
  readonly url: string;
  /** `whsec_…`, the newest first. */
  readonly secrets: readonly string[];
  /** The same on every try. */
  readonly id: string;
  readonly contentType: string;
  readonly body: string;
}

export interface HookAnswer {
  readonly outcome: TryOutcome;
  /** A pause that it asked for [ms]. */
  readonly afterMs: number | null;
  /** HTTP status; null: no answer. */
  readonly status: number | null;
  readonly reason: OutcomeReason | null;
  /** Never what the other side said. */
  readonly detail: string | null;
}

export interface HookCaller {
  /** Never throws; null: it was called off. */
  send(message: HookMessage, signal: AbortSignal): Promise<HookAnswer | null>;
  close(): Promise<void>;
}

const CONNECT_MS = 5000;

export function hookCaller(policy: OutgoingPolicy, answerWithinMs: number, deps: HttpDeps): HookCaller {
  const connectMs = Math.min(CONNECT_MS, answerWithinMs);
  // A connection of its own for each: where a name leads is judged anew every time.
  const caller = httpCaller(
    policy,
    { connectMs, wholeMs: answerWithinMs, mostBytes: 0, keptConnections: 0 },
    deps,
  );
  return {
    async send({ url: address, secrets, id, contentType, body }, signal) {
      const url = outgoingUrl(address, policy);
      if (typeof url === 'string') return failed('forbidden-address', `the address ${url}`);
      const keys = secrets.map(webhookKey).filter((key) => key !== null);
      if (keys.length === 0) return failed('auth', 'no secret to sign with');
      const timestampS = Math.floor(deps.clock.nowMs() / 1000);
      const headers = {
        'content-type': contentType,
        'user-agent': 'pitward',
        'webhook-id': id,
        'webhook-timestamp': String(timestampS),
        'webhook-signature': signWebhook(keys, id, timestampS, body),
      };
      return meaningOf(await caller.call({ url, method: 'POST', headers, body }, signal), deps);
    },
    close: () => caller.close(),
  };
}

const failed = (reason: OutcomeReason, detail: string): HookAnswer => ({
  outcome: 'failed',
  afterMs: null,
  status: null,
  reason,
  detail,
});

/** Of that very message, not of who sent it or where to. */
const REFUSED = new Set([400, 413, 415, 422]);

function meaningOf(result: HttpResult, { clock }: HttpDeps): HookAnswer | null {
  if (result.kind === 'fault')
    return result.reason === 'called-off' ? null : failed(result.reason, result.detail);
  const { status, headers } = result;
  if (status >= 200 && status < 300)
    return { outcome: 'taken', afterMs: null, status, reason: null, detail: null };
  const afterMs = retryAfterMs(headers['retry-after'], clock.nowMs(), MOST_RETRY_AFTER_MS);
  const [outcome, reason] = kindOf(status);
  return { outcome, afterMs, status, reason, detail: `answer ${status}` };
}

function kindOf(status: number): [TryOutcome, OutcomeReason] {
  if (status === 410) return ['gone', 'gone'];
  if (REFUSED.has(status)) return ['refused', 'refused'];
  if (status >= 300 && status < 400) return ['failed', 'redirected'];
  if (status === 401 || status === 403) return ['failed', 'auth'];
  if (status === 429) return ['failed', 'rate-limited'];
  return ['failed', status >= 500 || status === 408 ? 'unavailable' : 'refused'];
}
