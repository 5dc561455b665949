// Standard Webhooks 1.0.0 (github.com/standard-webhooks/standard-webhooks, spec). The vector is a fixed one of that
// specification's libraries, computed with the `standardwebhooks` package 1.1.1, which also verifies here what was sent.

import { Webhook } from 'standardwebhooks';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { z } from 'zod';
import { signWebhook, webhookKey } from '#notify/sign-webhook.ts';
import { webhook, webhookSettings } from '#notify/webhook.ts';
import { never, outgoingOf, testDeps } from './deps.ts';
import { type Answer, answerWith, LOOPBACK, peer } from './peer.ts';

const open: { close(): unknown }[] = [];
afterEach(async () => {
  vi.useRealTimers();
  for (const one of open.splice(0)) await one.close();
});

const SECRET = 'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw';
const OLDER = `whsec_${Buffer.alloc(32, 7).toString('base64')}`;

async function receiver(answer: Answer, written: Partial<z.input<typeof webhookSettings>> = {}) {
  const there = await peer(answer);
  const deps = testDeps({ secrets: { HOOK_SECRET: SECRET, HOOK_SECRET_OLD: OLDER, WEAK: 'whsec_c2hvcnQ=' } });
  const settings = webhookSettings.parse({
    kind: 'webhook',
    secrets: ['HOOK_SECRET'],
    ...LOOPBACK,
    ...written,
  });
  const channel = webhook(settings, deps);
  open.push(channel, there);
  return { there, deps, channel, out: outgoingOf(deps.clock, { to: `${there.origin}/hooks/pit` }) };
}

describe('a signature', () => {
  it('is that of the published vector', () => {
    const key = webhookKey(SECRET);
    expect(key).not.toBeNull();
    expect(
      signWebhook(
        [key ?? new Uint8Array()],
        'msg_p5jXN8AQM9LWM0D4loKWxJek',
        1614265330,
        '{"test": 2432232314}',
      ),
    ).toBe('v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=');
  });

  it.each([
    'MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw',
    'whsec_',
    'whsec_c2hvcnQ=',
    `whsec_${Buffer.alloc(65).toString('base64')}`,
    'whsec_not base64!',
  ])('takes no secret such as %s', (secret) => {
    expect(webhookKey(secret)).toBeNull();
  });
});

describe('a webhook', () => {
  it('is what an independent verifier accepts: body as signed, id constant, moment of each try', async () => {
    const { there, deps, channel, out } = await receiver((response, _asked, count) =>
      answerWith(response, count === 1 ? 503 : 204),
    );
    expect(await channel.send(out, never())).toMatchObject({ kind: 'retry', reason: 'unavailable' });
    deps.clock.advance(65_000);
    expect(await channel.send(out, never())).toEqual({ kind: 'sent', reference: null });
    const moments = there.asked.map(({ headers, body }) => {
      // The verifier looks at the clock of this process, and at 5 minutes both ways.
      vi.useFakeTimers({ now: Number(headers['webhook-timestamp']) * 1000 + 299_000, toFake: ['Date'] });
      const data = new Webhook(SECRET).verify(body.toString(), headers as Record<string, string>);
      expect(data).toEqual({
        type: 'notice',
        timestamp: '2026-03-02T19:42:00.000Z',
        data: { site: 'pit-7', verdict: 'stop' },
      });
      vi.useFakeTimers({ now: Number(headers['webhook-timestamp']) * 1000 + 301_000, toFake: ['Date'] });
      expect(() => new Webhook(SECRET).verify(body.toString(), headers as Record<string, string>)).toThrow(
        'too old',
      );
      expect(headers['webhook-id']).toBe('msg_7f3a.1-2');
      return Number(headers['webhook-timestamp']);
    });
    expect((moments[1] ?? 0) - (moments[0] ?? 0)).toBe(65);
    expect(there.asked[0]?.body.equals(there.asked[1]?.body ?? Buffer.alloc(0))).toBe(true);
  });

  it('carries both signatures while a secret is changed: whoever has either accepts it', async () => {
    const { there, channel, out } = await receiver((response) => answerWith(response, 200), {
      secrets: ['HOOK_SECRET', 'HOOK_SECRET_OLD'],
    });
    await channel.send(out, never());
    const [asked] = there.asked;
    const headers = asked?.headers as Record<string, string>;
    expect(headers['webhook-signature']?.split(' ').length).toBe(2);
    vi.useFakeTimers({ now: Number(headers['webhook-timestamp']) * 1000, toFake: ['Date'] });
    for (const secret of [SECRET, OLDER])
      expect(() => new Webhook(secret).verify(asked?.body.toString() ?? '', headers)).not.toThrow();
    const foreign = `whsec_${Buffer.alloc(32, 8).toString('base64')}`;
    expect(() => new Webhook(foreign).verify(asked?.body.toString() ?? '', headers)).toThrow(
      'No matching signature',
    );
    expect(() => new Webhook(SECRET).verify(`${asked?.body.toString()} `, headers)).toThrow(
      'No matching signature',
    );
  });

  it.each([
    [200, {}, { kind: 'sent' }],
    [202, {}, { kind: 'sent' }],
    [
      301,
      { location: 'https://elsewhere.example/' },
      { kind: 'failed', reason: 'redirected', permanent: 'way' },
    ],
    [
      307,
      { location: 'http://169.254.169.254/' },
      { kind: 'failed', reason: 'redirected', permanent: 'way' },
    ],
    [400, {}, { kind: 'failed', reason: 'refused', permanent: 'way' }],
    [401, {}, { kind: 'failed', reason: 'auth', permanent: 'way' }],
    [404, {}, { kind: 'failed', reason: 'refused', permanent: 'way' }],
    [410, {}, { kind: 'failed', reason: 'gone', permanent: 'way' }],
    [408, {}, { kind: 'retry', reason: 'unavailable' }],
    [429, { 'retry-after': '20' }, { kind: 'retry', reason: 'rate-limited', afterMs: 20_000 }],
    [500, {}, { kind: 'retry', reason: 'unavailable', afterMs: null }],
    [502, {}, { kind: 'retry', reason: 'unavailable' }],
    [503, { 'retry-after': '999999' }, { kind: 'retry', reason: 'unavailable', afterMs: 600_000 }],
    [504, {}, { kind: 'retry', reason: 'unavailable' }],
  ])('answered with %i %j is %j', async (status, headers, means) => {
    const { there, channel, out } = await receiver((response) =>
      answerWith(response, status, '<secret of the inside>', headers as Record<string, string>),
    );
    const made = await channel.send(out, never());
    expect(made).toMatchObject(means);
    expect(JSON.stringify(made)).not.toContain('secret of the inside');
    expect(there.asked.length).toBe(1);
  });

  it('that is not answered is tried again: the id tells the repeat', async () => {
    const { there, deps, channel, out } = await receiver(() => undefined);
    const made = channel.send(out, never());
    await there.request(1);
    deps.clock.advance(15_000);
    expect(await made).toMatchObject({ kind: 'retry', reason: 'timeout' });
  });

  it.each([
    ['http://10.0.0.7/hook', 'forbidden-address'],
    ['https://169.254.169.254/', 'forbidden-address'],
    ['http://dispatch.example.test:PORT/', 'forbidden-address'],
    ['https://user:pw@dispatch.example.test/', 'forbidden-address'],
    ['not an address', 'forbidden-address'],
  ])('to %s is not sent', async (to, reason) => {
    const { there, channel, out } = await receiver((response) => answerWith(response, 200), {
      allow: ['127.9.0.0/16'],
    });
    const made = await channel.send({ ...out, to: to.replace('PORT', String(there.port)) }, never());
    expect(made).toMatchObject({ kind: 'failed', reason, permanent: 'way' });
    expect(there.asked).toEqual([]);
  });

  it('without a secret, with a weak one, with nothing to say or too much is not sent', async () => {
    const { there, deps, channel, out } = await receiver((response) => answerWith(response, 200));
    expect(await channel.send({ ...out, event: null }, never())).toMatchObject({ reason: 'render' });
    const long = { type: 'notice', atMs: deps.clock.nowMs(), data: 'x'.repeat(20_000) };
    expect(await channel.send({ ...out, event: long }, never())).toMatchObject({ reason: 'too-long' });
    for (const name of ['NOT_THERE', 'WEAK']) {
      const weak = await receiver((response) => answerWith(response, 200), { secrets: [name] });
      expect(await weak.channel.send(weak.out, never())).toMatchObject({
        reason: 'auth',
        permanent: 'channel',
      });
      expect(weak.channel.state().standing).toBe('broken');
    }
    expect(there.asked).toEqual([]);
  });
});
