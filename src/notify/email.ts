// Mail over SMTP. One connection for each message, one deadline for all of it, a Message-ID made from our own id so that a
// repeat can be known, and a clear word on whether the server may have taken it when the connection broke.

import { z } from 'zod';
import { carrierFault } from './carrier-domains.ts';
import type { Channel, ChannelDeps, Outcome, Outgoing } from './channel.ts';
import { channelStanding } from './channel-standing.ts';
import { deadline } from './deadline.ts';
import { isMailAddress } from './mail-address.ts';
import { mailFault } from './mail-fault.ts';
import { outcome } from './outcome.ts';
import { secretName } from './outgoing-settings.ts';
import { trusted } from './trusted.ts';

export const emailSettings = z
  .strictObject({
    kind: z.literal('email'),
    host: z.string().regex(/^[A-Za-z0-9.:-]{1,253}$/),
    port: z.int().min(1).max(65_535).default(465),
    /** tls: from the first byte. starttls: asked for, and nothing goes without it. plain: for a server on this machine. */
    security: z.enum(['tls', 'starttls', 'plain']).default('tls'),
    user: z.string().min(1).exactOptional(),
    password: secretName.exactOptional(),
    from: z.string().refine(isMailAddress, 'expected a mail address'),
    fromName: z.string().max(60).default('Pitward'),
    /** From the first step to the server's last word. */
    wholeMs: z.int().min(1000).max(300_000).default(30_000),
  })
  .superRefine((settings, context) => {
    if ((settings.user === undefined) !== (settings.password === undefined))
      context.addIssue({ code: 'custom', path: ['password'], message: 'user and password go together' });
    if (settings.security === 'plain' && settings.user !== undefined)
      context.addIssue({
        code: 'custom',
        path: ['security'],
        message: 'no password goes over a plain connection',
      });
  });
export type EmailSettings = z.output<typeof emailSettings>;

export function email(settings: EmailSettings, deps: ChannelDeps): Channel {
  const standing = channelStanding(deps.clock);
  const sending = new Set<AbortController>();
  return {
    async send(outgoing, signal) {
      const own = new AbortController();
      sending.add(own);
      const made = await sendOne(settings, outgoing, AbortSignal.any([signal, own.signal]), deps);
      sending.delete(own);
      standing.note(made);
      return made;
    },
    state: standing.state,
    async close() {
      standing.close();
      for (const one of sending) one.abort();
    },
  };
}

async function sendOne(
  settings: EmailSettings,
  outgoing: Outgoing,
  signal: AbortSignal,
  deps: ChannelDeps,
): Promise<Outcome> {
  if (!isMailAddress(outgoing.to)) return outcome.failed('bad-address', 'way', 'not one plain mail address');
  const carrier = carrierFault(outgoing.to);
  if (carrier !== null) return outcome.failed('forbidden-address', 'way', carrier);
  const password = settings.password === undefined ? '' : deps.secret(settings.password);
  if (password === null)
    return outcome.failed('auth', 'channel', `the environment variable ${settings.password} is not set`);
  if (signal.aborted) return outcome.retry('called-off', 'called off');
  const progress = { isAllWritten: false };
  const limit = deadline(deps.clock, settings.wholeMs, signal);
  try {
    const transport = await transportOf(settings, password, progress, deps);
    const sent = await transport.sendMail({ ...messageOf(settings, outgoing, deps), signal: limit.signal });
    return outcome.sent(sent.messageId);
  } catch (fault) {
    return mailFault(fault, progress.isAllWritten, limit.why());
  } finally {
    limit.done();
  }
}

async function transportOf(
  settings: EmailSettings,
  password: string,
  progress: { isAllWritten: boolean },
  { trust }: ChannelDeps,
) {
  const { host, port, security, user, wholeMs } = settings;
  // Loaded by the first mail: who sends none starts sooner.
  const { createTransport } = await import('nodemailer');
  return createTransport({
    host,
    port,
    secure: security === 'tls',
    requireTLS: security === 'starttls',
    ignoreTLS: security === 'plain',
    ...(user === undefined ? {} : { auth: { user, pass: password } }),
    tls: { minVersion: 'TLSv1.2', ...trusted(trust) },
    // Ours strikes first: these only bound what is idle, and start anew with every byte.
    connectionTimeout: wholeMs,
    greetingTimeout: wholeMs,
    socketTimeout: wholeMs,
    disableFileAccess: true,
    disableUrlAccess: true,
    logger: watcher(progress),
  });
}

/**
 * The library tells nowhere but in its log that the last byte of a message was written. Until then no server can have
 * taken it; afterwards it may have, whatever becomes of the connection.
 */
function watcher(progress: { isAllWritten: boolean }) {
  const look = (facts: unknown) => {
    if (typeof facts === 'object' && facts !== null && 'tnx' in facts && facts.tnx === 'message')
      progress.isAllWritten = true;
  };
  const quiet = () => undefined;
  return { level: quiet, trace: quiet, debug: quiet, info: look, warn: quiet, error: quiet, fatal: quiet };
}

function messageOf(settings: EmailSettings, outgoing: Outgoing, { clock }: ChannelDeps) {
  const domain = settings.from.slice(settings.from.lastIndexOf('@') + 1);
  return {
    envelope: { from: settings.from, to: [outgoing.to] },
    from: { name: settings.fromName, address: settings.from },
    to: { name: '', address: outgoing.to },
    subject: outgoing.subject.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' '),
    text: outgoing.text,
    ...(outgoing.html === null ? {} : { html: outgoing.html }),
    messageId: `<${outgoing.id}@${domain}>`,
    date: new Date(clock.nowMs()),
    headers: {
      // RFC 3834: so that no machine answers it.
      'Auto-Submitted': 'auto-generated',
      ...(outgoing.urgency === 'high' ? { Importance: 'high', 'X-Priority': '1' } : {}),
    },
  };
}
