// A gateway on this machine that answers as gateways do: 200 with an error in the body, 429, 5xx, never, in drips. Codes of
// status: RFC 9110 and RFC 6585. Published reports repeated here: alertmanager#2121, #2111 (429 taken for good), #3727 (403
// given up without a word), #2657 (a slow gateway that had accepted).

import { afterEach, describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { httpSms, httpSmsSettings } from '#notify/http-sms.ts';
import { never, outgoingOf, testDeps } from './deps.ts';
import { type Answer, answerWith, LOOPBACK, peer } from './peer.ts';

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

type Written = Partial<z.input<typeof httpSmsSettings>>;

const JSON_GATEWAY: Written = {
  from: 'Pitward',
  headers: { authorization: { $env: 'GATEWAY_TOKEN', before: 'Bearer ' }, 'idempotency-key': '{id}' },
  json: {
    messages: [{ to: '{to}', from: '{from}', body: '{text}', ref: '{id}', ttl: '{validForS}', flash: false }],
  },
  success: { all: [{ at: '/messages/0/status', equals: ['0', 'queued'] }] },
  reference: '/messages/0/id',
};

async function gateway(answer: Answer, written: Written = JSON_GATEWAY) {
  const there = await peer(answer);
  const deps = testDeps({ secrets: { GATEWAY_TOKEN: 's3cret', GATEWAY_PASSWORD: 'pä:ss' } });
  const settings = httpSmsSettings.parse({
    kind: 'http-sms',
    url: `${there.origin}/v1/send`,
    ...LOOPBACK,
    ...written,
  });
  const channel = httpSms(settings, deps);
  open.push(channel, there);
  return { there, deps, channel, out: outgoingOf(deps.clock) };
}

const taken: Answer = (response) => answerWith(response, 200, { messages: [{ status: 0, id: 'g-17' }] });

describe('what a gateway is sent', () => {
  it('is the structure of the configuration with our values in it, and secrets from the environment', async () => {
    const { there, channel, out } = await gateway(taken);
    const text = 'Fosa "7" \\ {to} cambió: 180° \u001b';
    expect(await channel.send({ ...out, text }, never())).toEqual({ kind: 'sent', reference: 'g-17' });
    const [asked] = there.asked;
    expect(asked).toMatchObject({ method: 'POST', path: '/v1/send' });
    expect(asked?.headers).toMatchObject({
      authorization: 'Bearer s3cret',
      'idempotency-key': 'msg_7f3a.1-2',
      'content-type': 'application/json',
    });
    expect(JSON.parse(asked?.body.toString() ?? '')).toEqual({
      messages: [
        {
          to: '+15550100',
          from: 'Pitward',
          body: 'Fosa "7" \\ {to} cambio: 180 deg',
          ref: 'msg_7f3a.1-2',
          ttl: 1800,
          flash: false,
        },
      ],
    });
  });

  it('is encoded as a form where the gateway wants a form', async () => {
    const { there, channel, out } = await gateway((response) => answerWith(response, 200, 'ID: 4711'), {
      numbers: 'digits',
      basic: { user: 'pit', password: 'GATEWAY_PASSWORD' },
      query: { account: 'a&b', t: '{validForS}' },
      form: { dst: '{to}', msg: '{text}', key: '{id}' },
      success: { all: [{ contains: 'ID:' }] },
    });
    expect(await channel.send({ ...out, text: 'Gust 31 & more = ñ+%' }, never())).toEqual({
      kind: 'sent',
      reference: null,
    });
    const [asked] = there.asked;
    expect(asked?.path).toBe('/v1/send?account=a%26b&t=1800');
    expect(asked?.headers['content-type']).toBe('application/x-www-form-urlencoded');
    const encoded = asked?.headers.authorization?.replace('Basic ', '') ?? '';
    expect(Buffer.from(encoded, 'base64').toString('utf8')).toBe('pit:pä:ss');
    expect(Object.fromEntries(new URLSearchParams(asked?.body.toString()))).toEqual({
      dst: '15550100',
      msg: 'Gust 31 & more = ñ+%',
      key: 'msg_7f3a.1-2',
    });
  });

  it('has the same id and body on every try', async () => {
    const { there, channel, out } = await gateway((response, _asked, count) =>
      count === 1 ? answerWith(response, 503) : taken(response, _asked, count),
    );
    expect(await channel.send(out, never())).toMatchObject({ kind: 'retry', reason: 'unavailable' });
    expect(await channel.send(out, never())).toMatchObject({ kind: 'sent' });
    expect(there.asked[0]?.body.equals(there.asked[1]?.body ?? Buffer.alloc(0))).toBe(true);
  });
});

describe('what a gateway answers', () => {
  const rules: Written['rules'] = [
    { when: [{ at: '/messages/0/status', equals: ['1', '31'] }], means: 'rate-limited' },
    { when: [{ at: '/messages/0/error', equals: 'opted_out' }], means: 'opted-out' },
    { when: [{ statuses: [400] }, { contains: 'invalid number' }], means: 'bad-address' },
    { when: [{ at: '/messages/0/status', equals: 4 }], means: 'auth' },
  ];

  it.each([
    [200, { messages: [{ status: 'queued', id: 5 }] }, {}, { kind: 'sent', reference: '5' }],
    [201, { messages: [{ status: 0 }] }, {}, { kind: 'sent', reference: null }],
    [200, { messages: [{ status: 1 }] }, {}, { kind: 'retry', reason: 'rate-limited', afterMs: null }],
    [200, { messages: [{ status: 4 }] }, {}, { kind: 'failed', reason: 'auth', permanent: 'channel' }],
    [200, { messages: [{ status: 99 }] }, {}, { kind: 'failed', reason: 'refused', permanent: 'message' }],
    [200, { error: 'quota' }, {}, { kind: 'failed', reason: 'refused', permanent: 'message' }],
    [
      200,
      { messages: [{ error: 'opted_out' }] },
      {},
      { kind: 'failed', reason: 'opted-out', permanent: 'way' },
    ],
    [200, '<html>OK</html>', {}, { kind: 'uncertain', reason: 'unreadable' }],
    [200, '', {}, { kind: 'uncertain', reason: 'unreadable' }],
    [204, '', {}, { kind: 'failed', reason: 'refused', permanent: 'message' }],
    [302, '', { location: '/login' }, { kind: 'failed', reason: 'redirected', permanent: 'channel' }],
    [400, 'invalid number', {}, { kind: 'failed', reason: 'bad-address', permanent: 'way' }],
    [400, 'what?', {}, { kind: 'failed', reason: 'refused', permanent: 'message' }],
    [401, '', {}, { kind: 'failed', reason: 'auth', permanent: 'channel' }],
    [403, '', {}, { kind: 'failed', reason: 'auth', permanent: 'channel' }],
    [404, '', {}, { kind: 'failed', reason: 'refused', permanent: 'channel' }],
    [408, '', {}, { kind: 'retry', reason: 'unavailable', afterMs: null }],
    [425, '', {}, { kind: 'retry', reason: 'unavailable', afterMs: null }],
    [429, '', { 'retry-after': '7' }, { kind: 'retry', reason: 'rate-limited', afterMs: 7000 }],
    [429, '', { 'retry-after': '86400' }, { kind: 'retry', reason: 'rate-limited', afterMs: 600_000 }],
    [500, '', {}, { kind: 'retry', reason: 'unavailable', afterMs: null }],
    [503, '', { 'retry-after': '30' }, { kind: 'retry', reason: 'unavailable', afterMs: 30_000 }],
  ])('%i with %j means %j %j', async (status, body, headers, means) => {
    const { channel, out } = await gateway(
      (response) => answerWith(response, status, body, headers as Record<string, string>),
      {
        ...JSON_GATEWAY,
        rules,
      },
    );
    expect(await channel.send(out, never())).toMatchObject(means);
  });

  it('a refusal of everything marks the channel broken, and a message that goes marks it whole again', async () => {
    const { channel, out } = await gateway((response, asked, count) =>
      count === 1 ? answerWith(response, 401) : taken(response, asked, count),
    );
    expect(channel.state().standing).toBe('ready');
    await channel.send(out, never());
    expect(channel.state()).toMatchObject({ standing: 'broken', detail: 'auth: answer 401' });
    await channel.send(out, never());
    expect(channel.state()).toMatchObject({ standing: 'ready', detail: null });
    await channel.close();
    expect(channel.state().standing).toBe('closed');
  });

  it('larger than the cap is no success that could be read', async () => {
    const { channel, out } = await gateway(
      (response) => answerWith(response, 200, { messages: [{ status: 0 }], x: 'y'.repeat(2000) }),
      {
        ...JSON_GATEWAY,
        mostAnswerBytes: 300,
      },
    );
    expect(await channel.send(out, never())).toMatchObject({ kind: 'uncertain', reason: 'unreadable' });
  });
});

describe('a gateway that does not answer', () => {
  it('may have taken the text: uncertain, unless it knows repeats', async () => {
    for (const knowsRepeats of [false, true]) {
      const { there, deps, channel, out } = await gateway(() => undefined, { ...JSON_GATEWAY, knowsRepeats });
      const made = channel.send(out, never());
      await there.request(1);
      deps.clock.advance(15_000);
      expect(await made).toMatchObject({ kind: knowsRepeats ? 'retry' : 'uncertain', reason: 'timeout' });
    }
  });

  it('and breaks the connection may have taken it too', async () => {
    const { channel, out } = await gateway((response) => response.socket?.destroy());
    expect(await channel.send(out, never())).toMatchObject({ kind: 'uncertain', reason: 'unreachable' });
  });

  it('because nobody listens has not taken it', async () => {
    const { there, channel, out } = await gateway(taken);
    await there.close();
    expect(await channel.send(out, never())).toMatchObject({ kind: 'retry', reason: 'unreachable' });
  });
});

describe('what is never sent', () => {
  it.each([
    [{ to: '5550100' }, { reason: 'bad-address', permanent: 'way' }],
    [{ to: '+1555\r\n0100' }, { reason: 'sent' }],
    [{ to: '' }, { reason: 'bad-address', permanent: 'way' }],
    [{ text: 'x'.repeat(161) }, { reason: 'too-long', permanent: 'message' }],
    [{ text: '€'.repeat(81) }, { reason: 'too-long', permanent: 'message' }],
    [{ text: '  ' }, { reason: 'render', permanent: 'message' }],
  ])('%j: %j', async (more, means) => {
    const { there, channel, out } = await gateway(taken);
    const made = await channel.send({ ...out, ...more }, never());
    if (means.reason === 'sent') expect(made.kind).toBe('sent');
    else expect(made).toMatchObject({ kind: 'failed', ...means });
    expect(there.asked.length).toBe(means.reason === 'sent' ? 1 : 0);
  });

  it('anything, where a secret is not set', async () => {
    const { there, channel, out } = await gateway(taken, {
      ...JSON_GATEWAY,
      json: { key: [{ deep: { $env: 'NOT_THERE' } }] },
    });
    expect(await channel.send(out, never())).toMatchObject({
      kind: 'failed',
      reason: 'auth',
      permanent: 'channel',
      detail: 'the environment variable NOT_THERE is not set',
    });
    expect(there.asked).toEqual([]);
  });
});

describe('a configuration', () => {
  const faultsOf = (written: Written) => {
    const parsed = httpSmsSettings.safeParse({
      kind: 'http-sms',
      url: 'https://gateway.example/send',
      ...written,
    });
    return parsed.success ? [] : parsed.error.issues.map((i) => i.path.join('.'));
  };

  it.each([
    [{ json: { a: '{text}' } }, []],
    [{ json: { a: '{phone}' } }, ['json.a']],
    [{ form: { a: '{Text}' } }, ['form.a']],
    [{ json: { a: '{ "b": 1 }' } }, []],
    [{ headers: { 'x-said': '{text}' } }, ['headers.x-said']],
    [{ json: { a: { $env: 'lower' } } }, ['json.a.$env']],
    [{ json: { a: 1 }, form: { b: '1' } }, ['form']],
    [{ method: 'GET', json: 1 }, ['method']],
    [{ url: 'http://gateway.example/send' }, ['url']],
    [{ url: 'https://user:pw@gateway.example/' }, ['url']],
    [{ url: 'https://10.0.0.1/' }, ['url']],
    [{ url: 'http://10.0.0.1:9000/', allow: ['10.0.0.1'] }, []],
    [{ allow: ['0.0.0.0/0'] }, ['allow.0']],
    [{ reference: 'messages[0]' }, ['reference']],
    [{ unknown: 1 } as Written, ['']],
  ] as [Written, string[]][])('%j has faults at %j', (written, at) => {
    expect(faultsOf(written)).toEqual(at);
  });
});
