// What of the smpp package is used; it brings no types of its own.

declare module 'smpp' {
  import type { EventEmitter } from 'node:events';
  import type { Server as NetServer, Socket } from 'node:net';

  export interface Pdu {
    readonly command: string;
    readonly command_status: number;
    readonly sequence_number: number;
    readonly [field: string]: unknown;
    isResponse(): boolean;
    response(fields?: Readonly<Record<string, unknown>>): Pdu;
  }

  type Send = (fields: Readonly<Record<string, unknown>>, answered?: (pdu: Pdu) => void) => boolean;

  export interface Session extends EventEmitter {
    readonly socket: Socket;
    readonly bind_transceiver: Send;
    readonly submit_sm: Send;
    readonly deliver_sm: Send;
    readonly enquire_link: Send;
    readonly unbind: Send;
    send(pdu: Pdu): boolean;
    close(): void;
    destroy(): void;
  }

  export function connect(options: Readonly<Record<string, unknown>>): Session;
  export function createServer(
    options: Readonly<Record<string, unknown>>,
    listener: (session: Session) => void,
  ): NetServer;
}
