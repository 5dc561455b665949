// Answers about sites that are finished, given to whoever may read them: with the same checks, counts and heads as the gate
// and the routes have, and without the framework between. Whatever is not plain is left to these.

import type { IncomingMessage } from 'node:http';
import type { Access, Caller, Heads } from '#publish/access/caller.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { siteKeyFor } from '#publish/site-key.ts';
import { mayDo } from '#publish/viewer.ts';
import { type Answer, type AnswerCache, answerKeyOf, matches } from './answer-cache.ts';
import { DATA_HEADERS } from './data-headers.ts';
import type { Answerer } from './front.ts';
import type { CountAnswer } from './http-metrics.ts';
import type { Limiter } from './rate-limit.ts';

export interface ReadyAnswersOptions {
  readonly access: Access;
  readonly cache: AnswerCache;
  readonly desk: Pick<PlanDesk, 'versionOf' | 'nowMs'>;
  readonly limiter: Limiter;
  /** Then the address of whoever asks without a key is the framework's to tell. */
  readonly behindProxy: boolean;
  callerOf(heads: Heads, nowMs: number, isSecure: boolean): Caller;
  requestIdFor(given: string | string[] | undefined): string;
  isUnderPressure(): boolean;
  readonly count: CountAnswer;
}

const ADDRESS = /^\/v1\/sites\/([a-z0-9-]{1,63})\/(windows|hours|plan)(?:\?|$)/;

export function createReadyAnswers(options: ReadyAnswersOptions): Answerer {
  const { access, desk, limiter, behindProxy, count } = options;
  return (request, response) => {
    const began = performance.now();
    const asked = askedBy(request);
    if (asked === null || options.isUnderPressure()) return false;
    const nowMs = desk.nowMs();
    const caller = options.callerOf(request.headers, nowMs, false);
    const { prefix, byCookie } = caller;
    const answer = answerFor(options, caller, asked, nowMs);
    // Whether it came by HTTPS, and so which cookie counts, is the framework's to tell, too.
    if (answer === null || ((prefix === null || byCookie) && behindProxy)) return false;
    // Refused there, where it is counted once more: whoever asks too often waits no less for it.
    if (limiter.take(prefix, request.socket.remoteAddress ?? '') > 0) return false;
    if (prefix !== null && access.kind === 'keys') access.used(prefix, nowMs);
    const same = matches(request.headers['if-none-match'], answer.etag);
    const status = same ? 304 : 200;
    const heads = same ? headsOf(answer).same : headsOf(answer).whole;
    response.writeHead(status, [...heads, options.requestIdFor(request.headers['x-request-id'])]);
    response.end(same ? undefined : answer.bytes);
    count(asked.route, 'GET', status, (performance.now() - began) / 1000);
    return true;
  };
}

interface Asked {
  readonly url: string;
  readonly id: string;
  readonly route: string;
}

function askedBy(request: IncomingMessage): Asked | null {
  const { url = '' } = request;
  const [, id, kind] = (isPlain(request) && ADDRESS.exec(url)) || [];
  return id === undefined || kind === undefined ? null : { url, id, route: `/v1/sites/:id/${kind}` };
}

/** Null where there is none, or not for this caller. */
function answerFor(
  { cache, desk }: Pick<ReadyAnswersOptions, 'cache' | 'desk'>,
  { viewer, refusal }: Caller,
  { url, id }: Asked,
  nowMs: number,
): Answer | null {
  if (viewer === null || refusal !== null || !mayDo(viewer, 'read')) return null;
  const siteKey = siteKeyFor(viewer, id);
  return siteKey === null ? null : cache.get(answerKeyOf(siteKey, url), desk.versionOf(siteKey), nowMs);
}

/** A GET without a body. */
const isPlain = ({ method, headers }: IncomingMessage): boolean =>
  method === 'GET' && headers['content-length'] === undefined && headers['transfer-encoding'] === undefined;

interface ReadyHeads {
  readonly whole: readonly string[];
  readonly same: readonly string[];
}

const made = new WeakMap<Answer, ReadyHeads>();

/** Names and values in turn; the last name waits for its value, the id of the request. */
function headsOf(answer: Answer): ReadyHeads {
  const known = made.get(answer);
  if (known) return known;
  const { etag, contentType, bytes } = answer;
  const same = [...Object.entries(DATA_HEADERS).flat(), 'etag', etag, 'cache-control', 'no-cache'];
  const body = ['content-type', contentType, 'content-length', String(bytes.byteLength)];
  const heads = { whole: [...same, ...body, 'x-request-id'], same: [...same, 'x-request-id'] };
  made.set(answer, heads);
  return heads;
}
