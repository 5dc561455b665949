// One connection to a broker, from its beginning to its end.

import { randomBytes } from 'node:crypto';
import type { IClientOptions, MqttClient, Packet } from 'mqtt';
import { messageOf } from '#errors.ts';
import type { Ended } from './keep-trying.ts';

export interface MqttLogin {
  readonly username: string | null;
  readonly password: string | null;
  /** In PEM; null: those that the machine believes. */
  readonly certificates: string | null;
}

export interface MqttHandlers {
  /** The broker has taken the subscriptions but for `refused`. */
  subscribed(refused: readonly string[]): void;
  message(topic: string, payload: Uint8Array): void;
}

const CONNECT_MS = 10_000;
const KEEP_ALIVE_S = 30;
/** Said of a subscription that is refused (MQTT 3.1.1, 3.9.3). */
const REFUSED = 128;

/**
 * Subscribes with QoS 1: what the broker sends twice is the same reading twice. Nothing is kept for us while we are away:
 * readings carry their own time, and a station that was missed is stale. Never rejects.
 */
export async function connectOnce(
  url: string,
  login: MqttLogin,
  topics: readonly string[],
  handlers: MqttHandlers,
  signal: AbortSignal,
): Promise<Ended> {
  // Loaded by the first broker: who has none starts sooner.
  const { connect } = await import('mqtt');
  if (signal.aborted) return { why: 'closed', wasUp: false };
  const { promise, resolve } = Promise.withResolvers<Ended>();
  let why = 'the broker closed the connection';
  let wasUp = false;
  let client: MqttClient;
  try {
    client = connect(url, optionsOf(login));
  } catch (fault) {
    return { why: messageOf(fault), wasUp };
  }
  const stop = () => client.end(true);
  signal.addEventListener('abort', stop, { once: true });
  client.on('error', (fault) => {
    why = messageOf(fault);
    // A refused login must not leave the connection open.
    stop();
  });
  client.on('connect', () => {
    client.subscribe([...topics], { qos: 1 }, (fault, _, packet) => {
      if (signal.aborted) return;
      const codes = grantedBy(packet);
      if (fault && codes.length !== topics.length) {
        why = messageOf(fault);
        stop();
        return;
      }
      wasUp = true;
      handlers.subscribed(topics.filter((_, i) => (codes[i] ?? 0) >= REFUSED));
    });
  });
  client.on('message', (topic, payload) => {
    if (!signal.aborted) handlers.message(topic, payload);
  });
  client.on('close', () => {
    signal.removeEventListener('abort', stop);
    client.end(true);
    resolve({ why, wasUp });
  });
  return promise;
}

/** The broker's word on each topic, in their order; none where it gave none. */
const grantedBy = (packet: Packet | undefined): readonly number[] =>
  packet?.cmd === 'suback' ? packet.granted.map(Number) : [];

const optionsOf = ({ username, password, certificates }: MqttLogin): IClientOptions => ({
  clientId: `pitward-${randomBytes(8).toString('hex')}`,
  clean: true,
  reconnectPeriod: 0,
  resubscribe: false,
  queueQoSZero: false,
  connectTimeout: CONNECT_MS,
  keepalive: KEEP_ALIVE_S,
  rejectUnauthorized: true,
  ...(username === null ? {} : { username }),
  ...(password === null ? {} : { password }),
  ...(certificates === null ? {} : { ca: certificates }),
});
