// Against a real SMTP server on this machine, read back by mailparser. Replies: RFC 5321, section 4.2; Auto-Submitted: RFC
// 3834. Published reports repeated here: nodemailer#1479 (an idle timer is no deadline), pimalaya/core PR#45 (an error after
// DATA that was a success).

import { createServer } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { ChannelDeps } from '#notify/channel.ts';
import { email, emailSettings } from '#notify/email.ts';
import { never, outgoingOf, testDeps } from './deps.ts';
import { type Mailbox, type MailboxOptions, mailbox, reply } from './smtp.ts';

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

type Written = Partial<z.input<typeof emailSettings>>;

function channelTo(port: number, written: Written = {}, more: Partial<ChannelDeps> = {}) {
  const deps = testDeps({ secrets: { SMTP_PASSWORD: 'geheim' }, ...more });
  const settings = emailSettings.parse({
    kind: 'email',
    host: '127.0.0.1',
    port,
    security: 'plain',
    from: 'notices@orchard.example',
    ...written,
  });
  const channel = email(settings, deps);
  open.push(channel);
  const out = outgoingOf(deps.clock, { to: 'foreman@orchard.example', html: '<p>PUT IT OUT ñ</p>' });
  return { deps, channel, out };
}

async function served(options: MailboxOptions, written: Written = {}, more: Partial<ChannelDeps> = {}) {
  const box = await mailbox(options);
  open.push(box);
  return { box, ...channelTo(box.port, written, more) };
}

describe('a mail', () => {
  it('arrives as another program reads it, with a Message-ID of our own', async () => {
    const { box, channel, out } = await served({});
    const text = 'Fosa 7: APAGUEN.\nRacha observada 31 mph, límite 25.\n';
    expect(await channel.send({ ...out, subject: 'Fosa 7: APAGUEN – señal', text }, never())).toEqual({
      kind: 'sent',
      reference: '<msg_7f3a.1-2@orchard.example>',
    });
    const [mail] = box.mails;
    expect(mail).toMatchObject({
      messageId: '<msg_7f3a.1-2@orchard.example>',
      subject: 'Fosa 7: APAGUEN – señal',
      text,
      html: '<p>PUT IT OUT ñ</p>',
    });
    expect(mail?.from?.text).toBe('"Pitward" <notices@orchard.example>');
    expect(mail?.to).toMatchObject({ text: 'foreman@orchard.example' });
    expect(mail?.date?.toISOString()).toBe('2026-03-02T19:42:00.000Z');
    expect(mail?.headers.get('auto-submitted')).toBe('auto-generated');
    expect(mail?.headers.get('priority')).toBe('high');
    expect(box.recipients).toEqual(['foreman@orchard.example']);
  });

  it('has the same Message-ID on every try', async () => {
    let count = 0;
    const { box, channel, out } = await served({ afterData: () => (++count === 1 ? reply(451) : null) });
    expect(await channel.send(out, never())).toMatchObject({ kind: 'retry', reason: 'unavailable' });
    expect(await channel.send(out, never())).toMatchObject({ kind: 'sent' });
    expect(new Set(box.mails.map((m) => m.messageId)).size).toBe(1);
  });

  it('cannot be given headers by what somebody wrote', async () => {
    const { box, channel, out } = await served({});
    await channel.send({ ...out, subject: 'a\r\nBcc: other@orchard.example\r\n\r\nbody' }, never());
    expect(box.mails[0]?.subject).toBe('a Bcc: other@orchard.example body');
    expect(box.mails[0]?.bcc).toBeUndefined();
    expect(box.recipients).toEqual(['foreman@orchard.example']);
  });
});

describe('a server', () => {
  const onRcptTo = (code: number): MailboxOptions => ({
    onRcptTo: (_to, _session, done) => done(reply(code)),
  });
  const onMailFrom = (code: number): MailboxOptions => ({
    onMailFrom: (_from, _session, done) => done(reply(code)),
  });
  const onConnect = (code: number): MailboxOptions => ({ onConnect: (_session, done) => done(reply(code)) });
  const afterData = (code: number): MailboxOptions => ({ afterData: () => reply(code) });

  it.each([
    ['that refuses the recipient', onRcptTo(550), { kind: 'failed', reason: 'refused', permanent: 'way' }],
    ['that puts the recipient off', onRcptTo(450), { kind: 'retry', reason: 'unavailable' }],
    ['that refuses the sender', onMailFrom(550), { kind: 'failed', reason: 'refused', permanent: 'channel' }],
    ['that is full', onMailFrom(452), { kind: 'retry', reason: 'unavailable' }],
    ['that refuses the message', afterData(554), { kind: 'failed', reason: 'refused', permanent: 'message' }],
    ['that puts the message off', afterData(451), { kind: 'retry', reason: 'unavailable' }],
    ['that is closing', onConnect(421), { kind: 'retry', reason: 'unavailable' }],
    ['that wants nothing of us', onConnect(554), { kind: 'failed', reason: 'refused', permanent: 'channel' }],
  ] as const)('%s: %j', async (_what, options, means) => {
    const { channel, out } = await served(options);
    expect(await channel.send(out, never())).toMatchObject(means);
  });

  it('that cuts the connection after the message may have taken it', async () => {
    const afterAll = (box: Mailbox) => {
      box.cut();
      return 'silence' as const;
    };
    const { box, channel, out } = await served({ afterData: afterAll });
    expect(await channel.send(out, never())).toMatchObject({ kind: 'uncertain', reason: 'unreachable' });
    expect(box.mails.length).toBe(1);
  });

  it('that never answers after the message may have taken it', async () => {
    const { promise: taken, resolve } = Promise.withResolvers<void>();
    const { deps, channel, out } = await served({
      afterData: () => {
        resolve();
        return 'silence';
      },
    });
    const made = channel.send(out, never());
    await taken;
    deps.clock.advance(30_000);
    expect(await made).toMatchObject({ kind: 'uncertain', reason: 'timeout' });
  });

  it('that cuts the connection before the message has not taken it', async () => {
    const { box, channel, out } = await served({ onRcptTo: () => box.cut() });
    expect(await channel.send(out, never())).toMatchObject({ kind: 'retry', reason: 'unreachable' });
  });

  it('that drips its greeting for ever is left at the deadline', async () => {
    const { promise: dripped, resolve } = Promise.withResolvers<void>();
    const server = createServer((socket) => {
      socket.on('error', () => undefined);
      let lines = 0;
      const drip = () => {
        lines += 1;
        if (lines === 50) resolve();
        if (!socket.destroyed && lines < 10_000) socket.write('220-wait\r\n', () => setImmediate(drip));
      };
      drip();
    });
    await new Promise<void>((done) => {
      server.listen(0, '127.0.0.1', done);
    });
    open.push({ close: () => new Promise((done) => server.close(done)) });
    const address = server.address();
    const { deps, channel, out } = channelTo(typeof address === 'object' && address ? address.port : 0);
    const made = channel.send(out, never());
    await dripped;
    deps.clock.advance(30_000);
    expect(await made).toEqual({
      kind: 'retry',
      reason: 'timeout',
      afterMs: null,
      detail: 'not taken in time',
    });
    expect(deps.clock.waiting()).toBe(0);
  });

  it('that is not there has not taken it', async () => {
    const { box, channel, out } = await served({});
    await box.close();
    expect(await channel.send(out, never())).toMatchObject({ kind: 'retry', reason: 'unreachable' });
  });

  it('that we leave, or never called, has not taken it', async () => {
    const { promise: asked, resolve } = Promise.withResolvers<void>();
    const { box, channel, out } = await served({ onRcptTo: () => resolve() });
    const made = channel.send(out, never());
    await asked;
    await channel.close();
    expect(await made).toMatchObject({ kind: 'retry', reason: 'called-off' });
    expect(await channel.send(out, AbortSignal.abort())).toMatchObject({
      kind: 'retry',
      reason: 'called-off',
    });
    expect(box.mails).toEqual([]);
  });
});

describe('TLS and password', () => {
  const auth: MailboxOptions = {
    authOptional: false,
    onAuth: ({ username, password }, _session, done) =>
      username === 'pit' && password === 'geheim' ? done(null, { user: 'pit' }) : done(reply(535)),
  };
  const login: Written = { user: 'pit', password: 'SMTP_PASSWORD' };

  it.each([
    ['tls', { ...auth, secure: true }],
    ['starttls', auth],
  ] as const)('%s is used, and the password goes over it', async (security, options) => {
    const { box, channel, out } = await served(options, { ...login, security });
    expect(await channel.send(out, never())).toMatchObject({ kind: 'sent' });
    expect(box.mails.length).toBe(1);
  });

  it('a wrong password breaks the channel', async () => {
    const { channel, out } = await served(
      { ...auth, secure: true },
      { ...login, user: 'other', security: 'tls' },
    );
    expect(await channel.send(out, never())).toMatchObject({
      kind: 'failed',
      reason: 'auth',
      permanent: 'channel',
    });
    expect(channel.state().standing).toBe('broken');
  });

  it('a certificate that nobody vouches for is not talked to', async () => {
    const { box, channel, out } = await served({ secure: true }, { security: 'tls' }, { trust: null });
    expect(await channel.send(out, never())).toMatchObject({ kind: 'retry', reason: 'unreachable' });
    expect(box.mails).toEqual([]);
  });

  it('a server without STARTTLS is sent nothing where it is asked for', async () => {
    const { box, channel, out } = await served(
      { disabledCommands: ['STARTTLS', 'AUTH'] },
      { security: 'starttls' },
    );
    expect((await channel.send(out, never())).kind).not.toBe('sent');
    expect(box.mails).toEqual([]);
  });

  it('a password is not put into a plain connection, nor sent where it is not set', async () => {
    const settings = { kind: 'email', host: 'mail.example', from: 'a@b.example', ...login };
    expect(emailSettings.safeParse({ ...settings, security: 'plain' }).success).toBe(false);
    expect(emailSettings.safeParse({ ...settings, password: undefined }).success).toBe(false);
    const { channel, out } = await served(
      { secure: true },
      { ...login, security: 'tls', password: 'NOT_THERE' },
    );
    expect(await channel.send(out, never())).toMatchObject({ reason: 'auth', permanent: 'channel' });
  });
});
