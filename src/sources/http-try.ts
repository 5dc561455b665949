// One try of a GET, conditional where a copy is kept: an answer, or what failed.

import { messageOf, ServiceError } from '#errors.ts';
import type { Permit } from './http-breaker.ts';
import { ageOnArrivalMs, type KeptAnswer, keepAnswer } from './http-cache.ts';
import { badAnswer, type FailedTry, noAnswer } from './http-fault.ts';
import type { Ask, HttpAnswer, HttpOptions, Parts } from './http-parts.ts';
import { isJsonType } from './http-problem.ts';
import { isHostFault } from './http-retry.ts';
import { type HttpReply, sendGet } from './http-send.ts';

export type Outcome = { readonly answer: HttpAnswer } | FailedTry;

export async function tryOnce(
  parts: Omit<Parts, 'pacer'>,
  url: URL,
  ask: Ask,
  permit: Permit,
): Promise<Outcome> {
  const { options, cache, gate } = parts;
  const kept = ask.anew ? null : cache.get(url.href);
  const sent = await send(parts, url, ask, kept, permit);
  if ('fault' in sent) return sent;
  const { reply } = sent;
  const nowMs = options.nowMs();
  if (reply.status === 304 && kept) {
    gate.answered(url.host);
    permit.answered();
    const confirmed = { ...kept, confirmedAtMs: nowMs - ageOnArrivalMs(reply.headers, nowMs) };
    cache.keep(url.href, confirmed);
    return { answer: answerOf(confirmed, true, nowMs) };
  }
  const contentType = reply.headers['content-type'] ?? '';
  if (reply.status !== 200 || !isJsonType(contentType) || /problem\+json/i.test(contentType)) {
    const failed = badAnswer(url, reply, nowMs);
    if (isHostFault(failed.failure)) permit.failed(false);
    else permit.answered();
    return failed;
  }
  gate.answered(url.host);
  permit.answered();
  return { answer: answerOf(keepAnswer(cache, url.href, reply, nowMs), false, nowMs) };
}

/** A request whose turn comes past its deadline is not sent; that is nobody's failure, and it may be asked at once again. */
export function tooLate({ options }: Pick<Parts, 'options'>, url: URL, ask: Ask): FailedTry | null {
  const againAtMs = options.nowMs();
  return againAtMs < ask.deadlineMs
    ? null
    : noAnswer(url, 'its turn did not come in time', null, { againAtMs });
}

async function send(
  parts: Omit<Parts, 'pacer'>,
  url: URL,
  ask: Ask,
  kept: KeptAnswer | null,
  permit: Permit,
): Promise<{ readonly reply: HttpReply } | FailedTry> {
  const { options, requestTimeoutMs } = parts;
  const late = tooLate(parts, url, ask);
  if (late) return late;
  const leftMs = ask.deadlineMs - options.nowMs();
  const timeout = AbortSignal.timeout(Math.min(requestTimeoutMs, leftMs));
  try {
    const reply = await sendGet(url, {
      dispatcher: parts.dispatcher,
      headers: requestHeaders(options, kept, ask.anew),
      maxBytes: ask.maxBytes,
      signal: AbortSignal.any([timeout, ask.signal]),
    });
    return { reply };
  } catch (fault) {
    ask.signal.throwIfAborted();
    if (fault instanceof ServiceError) {
      permit.answered();
      throw fault;
    }
    // A host that was given less time than it may take has not failed.
    if (!timeout.aborted || leftMs >= requestTimeoutMs) permit.failed(true);
    return noAnswer(url, timeout.aborted ? 'took too long' : messageOf(fault), fault);
  }
}

function requestHeaders(
  options: HttpOptions,
  kept: KeptAnswer | null,
  anew: boolean,
): Record<string, string> {
  return {
    ...options.headers,
    'user-agent': options.userAgent,
    accept: options.accept,
    'accept-encoding': 'gzip',
    ...(anew ? { 'accept-language': 'en-US' } : {}),
    ...(kept?.etag ? { 'if-none-match': kept.etag } : {}),
    ...(kept?.lastModified ? { 'if-modified-since': kept.lastModified } : {}),
  };
}

export const answerOf = (kept: KeptAnswer, reused: boolean, nowMs: number): HttpAnswer => ({
  bytes: kept.bytes,
  receivedAtMs: kept.receivedAtMs,
  confirmedAtMs: kept.confirmedAtMs,
  ageMs: Math.max(0, nowMs - kept.confirmedAtMs),
  etag: kept.etag,
  lastModified: kept.lastModified,
  reused,
});
