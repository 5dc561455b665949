// An SMTP server on this machine that keeps what it was sent, as another program reads it.

import type { AddressInfo, Socket } from 'node:net';
import { type ParsedMail, simpleParser } from 'mailparser';
import { SMTPServer, type SMTPServerOptions } from 'smtp-server';
import { SERVER_TLS } from './deps.ts';

export interface Mailbox {
  readonly port: number;
  readonly mails: ParsedMail[];
  /** As it came over the wire. */
  readonly raw: string[];
  readonly recipients: string[];
  /** Cuts every connection. */
  cut(): void;
  close(): Promise<void>;
}

/** A reply that is no success. */
export const reply = (responseCode: number): Error =>
  Object.assign(new Error(`reply ${responseCode}`), { responseCode });

export interface MailboxOptions extends SMTPServerOptions {
  /** After the whole message was read: null, a reply, or nothing at all. */
  readonly afterData?: (box: Mailbox) => Error | null | 'silence';
}

export async function mailbox(options: MailboxOptions = {}): Promise<Mailbox> {
  const { afterData = () => null, ...rest } = options;
  const server = new SMTPServer({
    ...SERVER_TLS,
    authOptional: true,
    disableReverseLookup: true,
    closeTimeout: 100,
    ...rest,
    onData(stream, session, callback) {
      const chunks: Buffer[] = [];
      stream.on('data', (chunk: Buffer) => chunks.push(chunk));
      stream.on('end', () => {
        const raw = Buffer.concat(chunks);
        simpleParser(raw).then((mail) => {
          box.raw.push(raw.toString('latin1'));
          box.mails.push(mail);
          box.recipients.push(...session.envelope.rcptTo.map((to) => to.address));
          const after = afterData(box);
          if (after !== 'silence') callback(after);
        }, callback);
      });
    },
  });
  server.on('error', () => undefined);
  const box: Mailbox = {
    port: 0,
    mails: [],
    raw: [],
    recipients: [],
    cut() {
      for (const one of server.connections) (one as { _socket: Socket })._socket.destroy();
    },
    close: () =>
      new Promise((resolve) => {
        box.cut();
        server.close(() => resolve());
      }),
  };
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  return Object.assign(box, { port: (server.server.address() as AddressInfo).port });
}
