// An SMPP gateway on this machine by the package's own server: it binds whoever knows the password and answers as told.

import type { AddressInfo, Server } from 'node:net';
import { createServer, type Pdu, type Session } from 'smpp';
import { SERVER_TLS } from './deps.ts';

/** What to answer to the text of that number (from 1): a status, or null for no answer. */
export type AnswerText = (pdu: Pdu, count: number) => number | null;

export interface Smsc {
  readonly port: number;
  readonly texts: Pdu[];
  /** Every session so far, the newest last. */
  readonly sessions: Session[];
  readonly checks: number[];
  answerText: AnswerText;
  bindStatus: number;
  answersChecks: boolean;
  /** Resolves when something is so; looked at after every PDU and connection. */
  until(isSo: () => boolean): Promise<void>;
  close(): Promise<void>;
}

export async function smsc(options: { readonly tls?: boolean; readonly port?: number } = {}): Promise<Smsc> {
  const waits = new Set<{ isSo: () => boolean; resolve: () => void }>();
  const look = () => {
    for (const wait of waits) {
      if (!wait.isSo()) continue;
      waits.delete(wait);
      wait.resolve();
    }
  };
  const server: Server = createServer(options.tls ? SERVER_TLS : {}, (session) =>
    serve(session, there, look),
  );
  const there: Smsc = {
    port: 0,
    texts: [],
    sessions: [],
    checks: [],
    answerText: () => 0,
    bindStatus: 0,
    answersChecks: true,
    until(isSo) {
      if (isSo()) return Promise.resolve();
      return new Promise((resolve) => {
        waits.add({ isSo, resolve });
      });
    },
    close: () =>
      new Promise((resolve) => {
        for (const session of there.sessions) session.destroy();
        server.close(() => resolve());
      }),
  };
  await new Promise<void>((resolve) => {
    server.listen(options.port ?? 0, '127.0.0.1', resolve);
  });
  return Object.assign(there, { port: (server.address() as AddressInfo).port });
}

function serve(session: Session, there: Smsc, look: () => void): void {
  there.sessions.push(session);
  session.on('error', () => undefined);
  session.on('close', look);
  session.on('pdu', (pdu: Pdu) => {
    answer(session, pdu, there);
    look();
  });
}

function answer(session: Session, pdu: Pdu, there: Smsc): void {
  if (pdu.command === 'bind_transceiver') {
    const isKnown = pdu['system_id'] === 'pitward' && pdu['password'] === 'geheim';
    const status = there.bindStatus === 0 && !isKnown ? 0x0e : there.bindStatus;
    session.send(pdu.response(status === 0 ? { system_id: 'smsc' } : { command_status: status }));
  } else if (pdu.command === 'enquire_link') {
    there.checks.push(there.sessions.indexOf(session));
    if (there.answersChecks) session.send(pdu.response());
  } else if (pdu.command === 'submit_sm') {
    there.texts.push(pdu);
    const count = there.texts.length;
    const status = there.answerText(pdu, count);
    if (status !== null)
      session.send(pdu.response(status === 0 ? { message_id: `m-${count}` } : { command_status: status }));
  } else if (pdu.command === 'unbind') session.send(pdu.response());
}
