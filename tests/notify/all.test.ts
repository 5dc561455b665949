import { createServer } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { CARRIES, channelSettings, createChannel } from '#notify/all.ts';
import { type Channel, OUTCOME_REASONS } from '#notify/channel.ts';
import { PUBLIC_ONLY } from '#notify/outgoing-url.ts';
import { safeChannel } from '#notify/safe-channel.ts';
import { wayFault } from '#notify/way-fault.ts';
import { never, outgoingOf, testDeps } from './deps.ts';
import { LOOPBACK } from './peer.ts';

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

/** A port where nobody listens. */
async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const address = server.address();
  await new Promise((resolve) => server.close(resolve));
  return typeof address === 'object' && address !== null ? address.port : 0;
}

const SUBSCRIPTION = JSON.stringify({
  endpoint: 'https://127.0.0.1:PORT/push',
  // The key of the example in RFC 8291, section 5.
  keys: {
    p256dh: 'BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4',
    auth: 'BTBZMqHH6r4Tts7J_aSIgg',
  },
});

const KINDS = {
  'http-sms': [{ url: 'http://127.0.0.1:PORT/send', json: { a: '{text}' }, ...LOOPBACK }, '+15550100'],
  smpp: [
    { host: '127.0.0.1', port: 1, tls: false, systemId: 'a', password: 'PASSWORD', from: '1' },
    '+15550100',
  ],
  email: [{ host: '127.0.0.1', port: 1, security: 'plain', from: 'a@orchard.example' }, 'b@orchard.example'],
  'web-push': [
    {
      subject: 'mailto:a@orchard.example',
      publicKey: `B${'A'.repeat(86)}`,
      privateKey: 'PASSWORD',
      ...LOOPBACK,
    },
    SUBSCRIPTION,
  ],
  webhook: [{ secrets: ['HOOK'], ...LOOPBACK }, 'http://127.0.0.1:PORT/hook'],
} as const;

async function everyKind() {
  const port = await freePort();
  const secrets = { PASSWORD: 'a', HOOK: `whsec_${Buffer.alloc(24, 1).toString('base64')}` };
  return Object.entries(KINDS).map(([kind, [written, to]]) => {
    const deps = testDeps({ secrets });
    const settings = JSON.parse(JSON.stringify({ kind, ...written }).replaceAll('PORT', String(port)));
    const channel = createChannel(
      channelSettings.parse('port' in settings ? { ...settings, port } : settings),
      deps,
    );
    open.push(channel);
    return { kind, channel, deps, out: outgoingOf(deps.clock, { to: to.replaceAll('PORT', String(port)) }) };
  });
}

describe('every kind of channel', () => {
  it('is made from its settings, and says what it carries', async () => {
    const made = await everyKind();
    expect(made.map((m) => m.kind).sort()).toEqual(Object.keys(CARRIES).sort());
    for (const { channel } of made)
      expect(['ready', 'connecting', 'broken']).toContain(channel.state().standing);
  });

  it('comes back with an outcome of the list where nobody is there, and is no success', async () => {
    for (const { kind, channel, deps, out } of await everyKind()) {
      const sent = channel.send(out, never());
      // A session waits for its link until its deadline.
      if (kind === 'smpp') deps.clock.advance(15_000);
      const made = await sent;
      expect(made.kind, kind).not.toBe('sent');
      if (made.kind !== 'sent') expect(OUTCOME_REASONS).toContain(made.reason);
    }
  });

  it('sends nothing that has expired, nothing that is called off, nothing after it is closed', async () => {
    for (const { kind, channel, deps, out } of await everyKind()) {
      for (const validUntilMs of [deps.clock.nowMs(), deps.clock.nowMs() - 1, Number.NaN])
        expect(await channel.send({ ...out, validUntilMs }, never()), kind).toMatchObject({
          kind: 'failed',
          reason: 'expired',
          permanent: 'message',
        });
      expect(await channel.send(out, AbortSignal.abort()), kind).toMatchObject({
        kind: 'retry',
        reason: 'called-off',
      });
      await channel.close();
      await channel.close();
      expect(await channel.send(out, never()), kind).toMatchObject({ kind: 'retry', reason: 'closed' });
      expect(channel.state().standing, kind).toBe('closed');
      expect(deps.clock.waiting(), kind).toBe(0);
    }
  });

  it.each(['', 'a b', 'a\r\nb', 'ä', 'x'.repeat(129)])('takes no id such as %j', async (id) => {
    for (const { channel, out } of await everyKind())
      expect(await channel.send({ ...out, id }, never())).toMatchObject({ kind: 'failed', reason: 'render' });
  });

  it('that throws has an uncertain outcome, and its fault is not told on', async () => {
    const deps = testDeps();
    const broken: Channel = {
      send: () => Promise.reject(new Error('to +15550100: secret')),
      state: () => ({ standing: 'ready', sinceMs: 0, detail: null }),
      close: async () => undefined,
    };
    const made = await safeChannel(broken, deps).send(outgoingOf(deps.clock), never());
    expect(made).toEqual({ kind: 'uncertain', reason: 'internal', detail: 'a fault of the program' });
  });

  it('of no known name, or with a key that nobody knows, is a fault', () => {
    for (const settings of [{ kind: 'fax' }, { kind: 'webhook', secrets: ['A'], retries: 3 }, {}])
      expect(channelSettings.safeParse(settings).success).toBe(false);
  });
});

describe('a way that is entered', () => {
  it.each([
    ['sms', '+1 (555) 010-0123', null],
    ['sms', '555-0100', 'not a number with + and the country code'],
    ['email', 'a@orchard.example', null],
    ['email', '5550100@vtext.com', 'vtext.com turns mail into texts no longer'],
    ['email', 'a', 'not one plain mail address'],
    ['webhook', 'https://dispatch.example/hook', null],
    ['webhook', 'https://169.254.169.254/', 'the address leads to an address that is not public'],
    ['push', '{}', 'not a push subscription'],
    ['push', SUBSCRIPTION.replace(':PORT', ''), 'the address leads to an address that is not public'],
    ['push', SUBSCRIPTION.replace('127.0.0.1:PORT', 'push.example'), null],
  ] as const)('%s %s: %s', (carries, to, fault) => {
    const said = wayFault(carries, to, PUBLIC_ONLY);
    if (fault === null) expect(said).toBeNull();
    else expect(said).toContain(fault);
  });
});
