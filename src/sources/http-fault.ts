// A request that brought no usable answer: what failed, for the retry, and the fault to throw if none follows.

import { ServiceError } from '#errors.ts';
import { blockReference, isJsonType, readProblem, safeUrl, tracingFacts } from './http-problem.ts';
import { type HttpFailure, isPassing, isRefusal, retryAfterMs } from './http-retry.ts';
import type { HttpReply } from './http-send.ts';

export interface FailedTry {
  readonly failure: HttpFailure;
  readonly fault: ServiceError;
}

/** No answer at all: no connection, a reset, or too slow. */
export function noAnswer(url: URL, why: string, cause: unknown, facts: object = {}): FailedTry {
  const fault = new ServiceError('source_unreachable', `no answer from ${url.host}: ${why}`, {
    cause,
    retryable: true,
    facts: { url: safeUrl(url), status: null, ...facts },
  });
  return { failure: { status: null, problem: null, retryAfterMs: null, unreadable: false }, fault };
}

/** An answer that is an error, or a 200 that is no JSON. */
export function badAnswer(url: URL, reply: HttpReply, nowMs: number): FailedTry {
  const { status, headers, bytes } = reply;
  const contentType = headers['content-type'] ?? '';
  const problem = readProblem(contentType, bytes);
  const unreadable = status < 400;
  const failure: HttpFailure = {
    status,
    problem: problem.name,
    retryAfterMs: retryAfterMs(headers['retry-after'] ?? null, nowMs),
    unreadable,
  };
  const traced = tracingFacts(headers);
  const said =
    problem.title ?? (isJsonType(contentType) ? 'no reason given' : contentType || 'no content type');
  const fault = new ServiceError(codeOf(status), `${url.host} answered ${status}: ${said}`, {
    retryable: isPassing(failure) || isRefusal(status) || status === 503,
    facts: {
      url: safeUrl(url),
      status,
      problem: problem.name,
      detail: problem.detail,
      contentType,
      ...traced,
      correlationId: problem.correlationId ?? traced['correlationId'] ?? null,
      retryAfterMs: failure.retryAfterMs,
      blockReference: isJsonType(contentType) ? null : blockReference(bytes),
    },
  });
  return { failure, fault };
}

function codeOf(status: number): 'source_unreadable' | 'source_refused' | 'source_unreachable' {
  if (status < 400) return 'source_unreadable';
  return status < 500 && status !== 408 ? 'source_refused' : 'source_unreachable';
}
