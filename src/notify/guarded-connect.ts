// Connects for HTTP only to addresses that may be called. Every address that a name leads to is judged at the moment of
// the connection, and the connection goes to the very one that was judged: a name that leads elsewhere a second later
// changes nothing.

import { connect as connectPlain, type Socket } from 'node:net';
import { connect as connectTls } from 'node:tls';
import type { buildConnector } from 'undici';
import type { ChannelDeps, OutcomeReason } from './channel.ts';
import { addressFault, literalOf, type OutgoingPolicy, portOf } from './outgoing-url.ts';
import { trusted } from './trusted.ts';

/** A connection that was not made, with why in the words of outcomes. */
export interface ConnectFault extends Error {
  /** Not `reason`: faults of TLS have one of their own. */
  readonly outcomeReason: OutcomeReason;
}

/** More addresses of one name than this are not tried. */
const MOST_ADDRESSES = 3;

export type ConnectDeps = Pick<ChannelDeps, 'clock' | 'resolve' | 'trust'>;

/** A connector for undici; `connectMs` is for all of it, from the name to the last word of TLS. */
export const guardedConnect =
  (policy: OutgoingPolicy, connectMs: number, deps: ConnectDeps): buildConnector.connector =>
  ({ hostname, protocol, port, servername }, callback) => {
    const host = hostname.includes(':') && !hostname.startsWith('[') ? `[${hostname}]` : hostname;
    const url = new URL(`${protocol}//${host}${port === '' ? '' : `:${port}`}`);
    connectTo(url, servername, policy, connectMs, deps).then(
      (socket) => callback(null, socket),
      (fault: Error) => callback(fault, null),
    );
  };

async function connectTo(
  url: URL,
  servername: string | undefined,
  policy: OutgoingPolicy,
  connectMs: number,
  deps: ConnectDeps,
): Promise<Socket> {
  const untilMs = deps.clock.nowMs() + connectMs;
  const addresses = await within(deps, connectMs, addressesOf(url, deps));
  for (const address of addresses) {
    const fault = addressFault(address, url, policy);
    if (fault !== null) throw connectFault('forbidden-address', `the address ${fault}`);
  }
  const tried = addresses.slice(0, MOST_ADDRESSES);
  let last: ConnectFault = connectFault('unreachable', 'the name leads to no address');
  for (const [i, address] of tried.entries()) {
    const shareMs = (untilMs - deps.clock.nowMs()) / (tried.length - i);
    try {
      return await connectOnce(url, address, servername, shareMs, deps);
    } catch (fault) {
      last = fault as ConnectFault;
    }
  }
  throw last;
}

async function addressesOf(url: URL, deps: ConnectDeps): Promise<readonly string[]> {
  const literal = literalOf(url);
  if (literal !== null) return [literal];
  try {
    return await deps.resolve(url.hostname);
  } catch (fault) {
    throw connectFault('unreachable', `the name was not resolved (${codeOf(fault)})`);
  }
}

function connectOnce(
  url: URL,
  address: string,
  servername: string | undefined,
  ms: number,
  deps: ConnectDeps,
): Promise<Socket> {
  const to = { host: address, port: portOf(url) };
  const isTls = url.protocol === 'https:';
  const socket = isTls
    ? connectTls({
        ...to,
        // The certificate must be the name's, though the connection goes to an address; an address has no such name.
        ...(literalOf(url) === null ? { servername: servername ?? url.hostname } : {}),
        ALPNProtocols: ['http/1.1'],
        minVersion: 'TLSv1.2',
        ...trusted(deps.trust),
      })
    : connectPlain(to);
  return new Promise((resolve, reject) => {
    const stopTimer = deps.clock.after(ms, () =>
      socket.destroy(connectFault('timeout', 'no connection in time')),
    );
    const fail = (fault: Error) => {
      stopTimer();
      reject(isConnectFault(fault) ? fault : connectFault('unreachable', `no connection (${codeOf(fault)})`));
    };
    socket.once('error', fail);
    socket.once(isTls ? 'secureConnect' : 'connect', () => {
      stopTimer();
      socket.off('error', fail);
      socket.setNoDelay(true);
      resolve(socket);
    });
  });
}

/** The same work, given up after so long. */
function within<T>({ clock }: ConnectDeps, ms: number, work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const stopTimer = clock.after(ms, () =>
      reject(connectFault('timeout', 'the name was not resolved in time')),
    );
    work.finally(stopTimer).then(resolve, reject);
  });
}

const connectFault = (reason: OutcomeReason, message: string): ConnectFault =>
  Object.assign(new Error(message), { outcomeReason: reason });

export const isConnectFault = (fault: Error): fault is ConnectFault => 'outcomeReason' in fault;

const codeOf = (fault: unknown): string =>
  fault instanceof Error && 'code' in fault ? String(fault.code) : 'no code';
