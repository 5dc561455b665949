// Against a push service on this machine over TLS, with a browser of our own that opens what it got. Standards: RFC 8030
// (TTL, Urgency, Topic, 404 and 410), RFC 8188, RFC 8291 (with the example of its section 5), RFC 8292.

import { createECDH, randomBytes } from 'node:crypto';
import { afterEach, describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { webPush, webPushSettings } from '#notify/web-push.ts';
import { never, outgoingOf, testDeps } from './deps.ts';
import { browser, openPush, vapidClaims } from './open-push.ts';
import { type Answer, answerWith, LOOPBACK, peer } from './peer.ts';

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

const vapid = createECDH('prime256v1');
vapid.generateKeys();
const PUBLIC = vapid.getPublicKey('base64url');
const PRIVATE = Buffer.concat([Buffer.alloc(32), vapid.getPrivateKey()])
  .subarray(-32)
  .toString('base64url');

async function service(answer: Answer, written: Partial<z.input<typeof webPushSettings>> = {}) {
  const there = await peer(answer, 'https');
  const deps = testDeps({ secrets: { VAPID_PRIVATE: PRIVATE } });
  const settings = webPushSettings.parse({
    kind: 'web-push',
    subject: 'mailto:office@orchard.example',
    publicKey: PUBLIC,
    privateKey: 'VAPID_PRIVATE',
    ...LOOPBACK,
    ...written,
  });
  const channel = webPush(settings, deps);
  open.push(channel, there);
  const phone = browser(randomBytes(16));
  return {
    there,
    deps,
    channel,
    phone,
    out: outgoingOf(deps.clock, { to: phone.subscription(`${there.origin}/push/abc`) }),
  };
}

describe('the browser of these tests', () => {
  it('opens the example of RFC 8291, section 5', () => {
    const phone = browser(
      Buffer.from('BTBZMqHH6r4Tts7J_aSIgg', 'base64url'),
      Buffer.from('q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94', 'base64url'),
    );
    const body = Buffer.from(
      'DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8wEqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN',
      'base64url',
    );
    expect(openPush(body, phone)).toBe('When I grow up, I want to be a watermelon');
  });
});

describe('a push message', () => {
  it('is opened by the browser that subscribed, and by no other', async () => {
    const { there, deps, channel, phone, out } = await service((response) =>
      answerWith(response, 201, '', { location: '/m/1' }),
    );
    expect(
      await channel.send({ ...out, text: 'Fosa 7: señal 🔥', link: 'https://pits.example/a/x' }, never()),
    ).toEqual({
      kind: 'sent',
      reference: '/m/1',
    });
    const [asked] = there.asked;
    const body = asked?.body ?? Buffer.alloc(0);
    expect(JSON.parse(openPush(body, phone))).toEqual({
      id: 'msg_7f3a.1-2',
      title: 'Pit 7: PUT IT OUT',
      body: 'Fosa 7: señal 🔥',
      url: 'https://pits.example/a/x',
      validUntilMs: deps.clock.nowMs() + 1_800_000,
    });
    expect(() => openPush(body, browser(randomBytes(16)))).toThrow();
    expect(body.length).toBe(4096);
    expect(asked).toMatchObject({ method: 'POST', path: '/push/abc' });
    expect(asked?.headers).toMatchObject({ ttl: '1800', urgency: 'high', 'content-encoding': 'aes128gcm' });
    expect(asked?.headers['topic']).toMatch(/^[A-Za-z0-9_-]{32}$/);
  });

  it('says who sends it, for that service only and for less than a day', async () => {
    const { there, channel, out } = await service((response) => answerWith(response, 201));
    await channel.send(out, never());
    const { claims, key } = vapidClaims(there.asked[0]?.headers.authorization ?? '');
    expect(key).toBe(PUBLIC);
    expect(claims).toMatchObject({ aud: there.origin, sub: 'mailto:office@orchard.example' });
    const inS = claims.exp - Date.now() / 1000;
    expect(inS).toBeGreaterThan(0);
    expect(inS).toBeLessThan(24 * 3600);
  });

  it('of the same topic replaces the one before, and one without a topic replaces none', async () => {
    const { there, channel, out } = await service((response) => answerWith(response, 201));
    for (const topic of ['own/pit-7', 'own/pit-7', 'own/pit-8', null])
      await channel.send({ ...out, topic }, never());
    const topics = there.asked.map((a) => a.headers['topic']);
    expect(topics[0]).toBe(topics[1]);
    expect(topics[2]).not.toBe(topics[0]);
    expect(topics[3]).toBeUndefined();
  });

  it('always carries a TTL of at least a second', async () => {
    const { there, deps, channel, out } = await service((response) => answerWith(response, 201));
    await channel.send({ ...out, validUntilMs: deps.clock.nowMs() + 20 }, never());
    expect(there.asked[0]?.headers['ttl']).toBe('1');
  });

  it.each([
    [201, {}, { kind: 'sent' }],
    [404, {}, { kind: 'failed', reason: 'gone', permanent: 'way' }],
    [410, {}, { kind: 'failed', reason: 'gone', permanent: 'way' }],
    [401, {}, { kind: 'failed', reason: 'auth', permanent: 'channel' }],
    [403, {}, { kind: 'failed', reason: 'auth', permanent: 'channel' }],
    [400, {}, { kind: 'failed', reason: 'refused', permanent: 'message' }],
    [413, {}, { kind: 'failed', reason: 'too-long', permanent: 'message' }],
    [302, { location: 'https://127.0.0.1/' }, { kind: 'failed', reason: 'redirected', permanent: 'way' }],
    [429, { 'retry-after': '30' }, { kind: 'retry', reason: 'rate-limited', afterMs: 30_000 }],
    [500, {}, { kind: 'retry', reason: 'unavailable', afterMs: null }],
    [503, { 'retry-after': '5' }, { kind: 'retry', reason: 'unavailable', afterMs: 5000 }],
  ])('answered with %i %j is %j', async (status, headers, means) => {
    const { channel, out } = await service((response) =>
      answerWith(response, status, '', headers as Record<string, string>),
    );
    expect(await channel.send(out, never())).toMatchObject(means);
  });

  it('that is not answered is tried again', async () => {
    const { there, deps, channel, out } = await service(() => undefined);
    const made = channel.send(out, never());
    await there.request(1);
    deps.clock.advance(15_000);
    expect(await made).toMatchObject({ kind: 'retry', reason: 'timeout' });
  });

  it('to a subscription that is none, or that leads to the inside, is not sent', async () => {
    const { there, channel, phone, out } = await service((response) => answerWith(response, 201));
    for (const to of [
      '',
      '{}',
      'https://push.example.test/',
      '{"endpoint":"https://push.example.test/","keys":{"p256dh":"AAAA","auth":"AAAA"}}',
    ])
      expect(await channel.send({ ...out, to }, never())).toMatchObject({
        reason: 'bad-address',
        permanent: 'way',
      });
    for (const endpoint of ['https://10.0.0.1/push', 'https://[::1]/push'])
      expect(await channel.send({ ...out, to: phone.subscription(endpoint) }, never())).toMatchObject({
        reason: 'forbidden-address',
        permanent: 'way',
      });
    expect(there.asked).toEqual([]);
  });

  it('too long, without a key or with a wrong one is not sent', async () => {
    const { there, channel, out } = await service((response) => answerWith(response, 201));
    expect(await channel.send({ ...out, text: 'x'.repeat(4000) }, never())).toMatchObject({
      reason: 'too-long',
    });
    const none = await service((response) => answerWith(response, 201), { privateKey: 'NOT_THERE' });
    expect(await none.channel.send(none.out, never())).toMatchObject({
      reason: 'auth',
      permanent: 'channel',
    });
    const wrong = await service((response) => answerWith(response, 201), { publicKey: `B${'A'.repeat(86)}` });
    expect(await wrong.channel.send(wrong.out, never())).toMatchObject({
      reason: 'auth',
      permanent: 'channel',
    });
    expect([...there.asked, ...none.there.asked, ...wrong.there.asked]).toEqual([]);
  });
});
