// One HTTP request of a channel: its own deadlines, no redirect followed, no more of the answer read than needed, and
// whether it had begun to go out when it failed: from then on it may have been taken.

import { Agent, type Dispatcher } from 'undici';
import type { ChannelDeps, OutcomeReason } from './channel.ts';
import { deadline } from './deadline.ts';
import { guardedConnect, isConnectFault } from './guarded-connect.ts';
import type { OutgoingPolicy } from './outgoing-url.ts';

export interface HttpRequest {
  readonly url: URL;
  readonly method: 'POST' | 'PUT' | 'GET';
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string | Uint8Array | null;
}

export type HttpResult =
  | {
      readonly kind: 'answer';
      readonly status: number;
      /** Names in small letters. */
      readonly headers: Readonly<Record<string, string | undefined>>;
      /** No more than the cap; `isWhole` is false where that was not all, or the end did not come in time. */
      readonly text: string;
      readonly isWhole: boolean;
    }
  | {
      readonly kind: 'fault';
      readonly reason: OutcomeReason;
      /** True where some of the request may have gone out. */
      readonly begun: boolean;
      readonly detail: string;
    };

export interface HttpLimits {
  readonly connectMs: number;
  /** From the first step to the last byte of the answer. */
  readonly wholeMs: number;
  readonly mostBytes: number;
  /** Connections that stay open to the same place; 0: each request has its own. */
  readonly keptConnections: number;
}

export interface HttpCaller {
  call(request: HttpRequest, signal: AbortSignal): Promise<HttpResult>;
  close(): Promise<void>;
}

export type HttpDeps = Pick<ChannelDeps, 'clock' | 'resolve' | 'trust'>;

export function httpCaller(policy: OutgoingPolicy, limits: HttpLimits, deps: HttpDeps): HttpCaller {
  const makeAgent = () =>
    new Agent({
      connect: guardedConnect(policy, limits.connectMs, deps),
      connections: Math.max(1, limits.keptConnections),
      pipelining: limits.keptConnections > 0 ? 1 : 0,
      headersTimeout: 0,
      bodyTimeout: 0,
      maxHeaderSize: 16_384,
    });
  const kept = limits.keptConnections > 0 ? makeAgent() : null;
  const own = new Set<Agent>();
  return {
    async call(request, signal) {
      const agent = kept ?? makeAgent();
      if (kept === null) own.add(agent);
      try {
        return await callOnce(agent, request, limits, signal, deps);
      } finally {
        if (own.delete(agent)) await agent.destroy();
      }
    },
    async close() {
      await Promise.all([...(kept ? [kept] : []), ...own].map((agent) => agent.destroy()));
    },
  };
}

function callOnce(
  agent: Dispatcher,
  { url, method, headers, body }: HttpRequest,
  limits: HttpLimits,
  signal: AbortSignal,
  { clock }: HttpDeps,
): Promise<HttpResult> {
  const limit = deadline(clock, limits.wholeMs, signal);
  const { promise, resolve } = Promise.withResolvers<HttpResult>();
  const reader = answerReader(limits.mostBytes, resolve);
  limit.signal.addEventListener('abort', () => reader.giveUp(limit.why() ?? 'timeout'), { once: true });
  if (limit.signal.aborted) reader.giveUp('called-off');
  else {
    try {
      agent.dispatch(
        {
          origin: url.origin,
          path: `${url.pathname}${url.search}`,
          method,
          headers: { ...headers },
          body: body === null || typeof body === 'string' ? body : Buffer.from(body),
          idempotent: false,
        },
        reader.handler,
      );
    } catch {
      resolve({ kind: 'fault', reason: 'render', begun: false, detail: 'the request cannot be written' });
    }
  }
  return promise.finally(() => limit.done());
}

/** Gathers an answer up to a cap; the first that settles it counts. */
function answerReader(mostBytes: number, settle: (result: HttpResult) => void) {
  let controller: Dispatcher.DispatchController | null = null;
  let begun = false;
  let isGivenUp = false;
  let head: { status: number; headers: Record<string, string | undefined> } | null = null;
  const chunks: Buffer[] = [];
  let length = 0;

  const answer = (isWhole: boolean): void => {
    if (head === null) return;
    const text = Buffer.concat(chunks).subarray(0, mostBytes).toString('utf8');
    settle({ kind: 'answer', ...head, text, isWhole });
  };
  const fault = (reason: OutcomeReason, detail: string): void =>
    settle({ kind: 'fault', reason, begun, detail });

  const handler: Dispatcher.DispatchHandler = {
    onRequestStart(given) {
      controller = given;
      // What was given up while it still waited for a connection must not go out after all.
      if (isGivenUp) given.abort(new Error('given up'));
      else begun = true;
    },
    onResponseStart(_controller, status, headers) {
      head = { status, headers: plainHeaders(headers) };
    },
    onResponseData(given, chunk) {
      chunks.push(chunk);
      length += chunk.length;
      if (length <= mostBytes) return;
      answer(false);
      given.abort(new Error('enough read'));
    },
    onResponseEnd: () => answer(true),
    onResponseError(_controller, error) {
      if (head !== null) answer(false);
      else fault(isConnectFault(error) ? error.outcomeReason : 'unreachable', lineOf(error));
    },
  };
  return {
    handler,
    giveUp(why: 'timeout' | 'called-off') {
      isGivenUp = true;
      if (head !== null) answer(false);
      else fault(why, why === 'timeout' ? 'no answer in time' : 'called off');
      controller?.abort(new Error(why));
    },
  };
}

/** Never the message of a library: it may repeat what was sent. */
const lineOf = (error: Error): string =>
  isConnectFault(error)
    ? error.message
    : `the connection failed (${'code' in error ? String(error.code) : error.name})`;

function plainHeaders(headers: Readonly<Record<string, string | string[] | undefined>>) {
  const plain: Record<string, string | undefined> = {};
  for (const [name, value] of Object.entries(headers))
    plain[name.toLowerCase()] = Array.isArray(value) ? value[0] : value;
  return plain;
}
