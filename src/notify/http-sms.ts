// Texts over any gateway that takes an HTTP request: the request and the meaning of its answers are configuration.

import { z } from 'zod';
import type { Answer, AnswerRule } from './answer-rules.ts';
import {
  allHold,
  answerCondition,
  answerRule,
  asksJson,
  jsonPointer,
  readAnswer,
  valueAt,
} from './answer-rules.ts';
import type { Channel, ChannelDeps, Outcome, Outgoing } from './channel.ts';
import { channelStanding } from './channel-standing.ts';
import { type HttpRequest, type HttpResult, httpCaller } from './http-call.ts';
import { oneSegment } from './one-segment.ts';
import { outcome } from './outcome.ts';
import { limitsOf, MOST_RETRY_AFTER_MS, outgoingFields, policyOf, secretName } from './outgoing-settings.ts';
import { outgoingUrl } from './outgoing-url.ts';
import { phoneNumber } from './phone-number.ts';
import { retryAfterMs } from './retry-after.ts';
import {
  fillLeaf,
  fillNode,
  NotSetFault,
  type TemplateLeaf,
  type TemplateValues,
  templateLeaf,
  templateNode,
} from './template.ts';

const headerName = z.string().regex(/^[A-Za-z0-9-]{1,60}$/);
/** What people said stays out of headers. */
const headerLeaf = templateLeaf.refine(
  (leaf) => typeof leaf !== 'string' || !leaf.includes('{text}'),
  'a header cannot carry {text}',
);

export const httpSmsSettings = z
  .strictObject({
    kind: z.literal('http-sms'),
    url: z.string(),
    method: z.enum(['POST', 'PUT', 'GET']).default('POST'),
    /** Who it comes from, where the gateway wants to be told. */
    from: z.string().max(20).default(''),
    /** `digits`: without the plus sign. */
    numbers: z.enum(['plus', 'digits']).default('plus'),
    basic: z.strictObject({ user: z.string().min(1), password: secretName }).exactOptional(),
    headers: z.record(headerName, headerLeaf).default({}),
    query: z.record(z.string().min(1), templateLeaf).default({}),
    json: templateNode.exactOptional(),
    form: z.record(z.string().min(1), templateLeaf).exactOptional(),
    success: z
      .strictObject({
        statuses: z.array(z.int().min(200).max(299)).min(1).default([200, 201, 202]),
        all: z.array(answerCondition).default([]),
      })
      .prefault({}),
    /** Where the answer tells what the gateway calls the message. */
    reference: jsonPointer.nullable().default(null),
    /** The first that holds says what an answer means, before anything else does. */
    rules: z.array(answerRule).default([]),
    /** True where the gateway sends a message once only, however often the same {id} comes. */
    knowsRepeats: z.boolean().default(false),
    mostAnswerBytes: z.int().min(256).max(1_048_576).default(65_536),
    keptConnections: z.int().min(0).max(64).default(8),
    ...outgoingFields,
  })
  .superRefine((settings, context) => {
    const url = outgoingUrl(settings.url, policyOf(settings));
    if (typeof url === 'string')
      context.addIssue({ code: 'custom', path: ['url'], message: `the address ${url}` });
    if (settings.json !== undefined && settings.form !== undefined)
      context.addIssue({ code: 'custom', path: ['form'], message: 'a body is json or form, not both' });
    if (settings.method === 'GET' && (settings.json !== undefined || settings.form !== undefined))
      context.addIssue({ code: 'custom', path: ['method'], message: 'a GET has no body' });
  });
export type HttpSmsSettings = z.output<typeof httpSmsSettings>;

export function httpSms(settings: HttpSmsSettings, deps: ChannelDeps): Channel {
  const caller = httpCaller(
    policyOf(settings),
    limitsOf(settings, { mostBytes: settings.mostAnswerBytes, keptConnections: settings.keptConnections }),
    deps,
  );
  const standing = channelStanding(deps.clock);
  return {
    async send(outgoing, signal) {
      const request = requestOf(settings, outgoing, deps);
      const made =
        'kind' in request ? request : meaningOf(settings, await caller.call(request, signal), deps);
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

function requestOf(settings: HttpSmsSettings, outgoing: Outgoing, deps: ChannelDeps): HttpRequest | Outcome {
  const number = phoneNumber(outgoing.to);
  if (number === null)
    return outcome.failed('bad-address', 'way', 'not a number with + and the country code');
  const text = oneSegment(outgoing.text);
  if (typeof text !== 'string') return text;
  const values: TemplateValues = {
    to: settings.numbers === 'digits' ? number.slice(1) : number,
    text,
    id: outgoing.id,
    from: settings.from,
    validForS: String(Math.max(1, Math.floor((outgoing.validUntilMs - deps.clock.nowMs()) / 1000))),
  };
  try {
    return filledRequest(settings, values, deps);
  } catch (fault) {
    const detail =
      fault instanceof NotSetFault ? fault.message : 'the request cannot be made from the template';
    return outcome.failed(fault instanceof NotSetFault ? 'auth' : 'render', 'channel', detail);
  }
}

function filledRequest(settings: HttpSmsSettings, values: TemplateValues, deps: ChannelDeps): HttpRequest {
  const leaf = (from: TemplateLeaf): string => fillLeaf(from, values, deps.secret);
  const leaves = (from: Readonly<Record<string, TemplateLeaf>>) =>
    Object.entries(from).map(([name, value]) => [name, leaf(value)] as [string, string]);
  const url = new URL(settings.url);
  for (const [name, value] of leaves(settings.query)) url.searchParams.append(name, value);
  const headers: Record<string, string> = Object.fromEntries(leaves(settings.headers));
  if (settings.basic !== undefined) {
    const pair = `${settings.basic.user}:${leaf({ $env: settings.basic.password, before: '' })}`;
    headers['authorization'] = `Basic ${Buffer.from(pair, 'utf8').toString('base64')}`;
  }
  if (Object.values(headers).some((value) => !/^[\x20-\x7e]*$/.test(value)))
    throw new RangeError('a header has characters that headers cannot carry');
  let body: string | null = null;
  if (settings.json !== undefined) {
    headers['content-type'] ??= 'application/json';
    body = JSON.stringify(fillNode(settings.json, values, deps.secret));
  } else if (settings.form !== undefined) {
    headers['content-type'] ??= 'application/x-www-form-urlencoded';
    body = new URLSearchParams(leaves(settings.form)).toString();
  }
  return { url, method: settings.method, headers, body };
}

function meaningOf(settings: HttpSmsSettings, result: HttpResult, { clock }: ChannelDeps): Outcome {
  if (result.kind === 'fault') {
    if (result.reason === 'forbidden-address') return outcome.failed(result.reason, 'channel', result.detail);
    if (result.begun && !settings.knowsRepeats) return outcome.uncertain(result.reason, result.detail);
    return outcome.retry(result.reason, result.detail);
  }
  const answer = readAnswer(result.status, result.text, result.isWhole);
  const afterMs = retryAfterMs(result.headers['retry-after'], clock.nowMs(), MOST_RETRY_AFTER_MS);
  const rule = settings.rules.find((one) => allHold(one.when, answer));
  if (rule !== undefined) return byRule(rule.means, answer, afterMs);
  if (settings.success.statuses.includes(answer.status)) return bySuccess(settings, answer);
  return byStatus(answer.status, afterMs);
}

function byRule(means: AnswerRule['means'], { status }: Answer, afterMs: number | null): Outcome {
  const detail = `a rule for answer ${status}`;
  switch (means) {
    case 'rate-limited':
    case 'unavailable':
      return outcome.retry(means, detail, afterMs);
    case 'opted-out':
    case 'bad-address':
      return outcome.failed(means, 'way', detail);
    case 'auth':
      return outcome.failed(means, 'channel', detail);
    case 'refused':
      return outcome.failed(means, 'message', detail);
  }
}

function bySuccess({ success, reference }: HttpSmsSettings, answer: Answer): Outcome {
  if (allHold(success.all, answer)) {
    const value = reference === null ? null : valueAt(answer.json, reference);
    return outcome.sent(typeof value === 'string' || typeof value === 'number' ? String(value) : null);
  }
  if (asksJson(success.all) && answer.json === undefined)
    return outcome.uncertain('unreadable', `answer ${answer.status}, but none that can be read`);
  return outcome.failed('refused', 'message', `answer ${answer.status} without what tells success`);
}

function byStatus(status: number, afterMs: number | null): Outcome {
  const detail = `answer ${status}`;
  if (status === 429) return outcome.retry('rate-limited', detail, afterMs);
  if (status === 408 || status === 425 || status >= 500) return outcome.retry('unavailable', detail, afterMs);
  if (status === 401 || status === 403) return outcome.failed('auth', 'channel', detail);
  if (status >= 300 && status < 400) return outcome.failed('redirected', 'channel', detail);
  // These speak of the one message; any other refusal would meet the next message too.
  const isOfMessage = status < 300 || status === 400 || status === 413 || status === 422;
  return outcome.failed('refused', isOfMessage ? 'message' : 'channel', detail);
}
