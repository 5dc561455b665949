// A broker on this machine, stations that listen to it, and somebody who publishes. Everything is closed after each test.

import { once } from 'node:events';
import { createServer, type Server } from 'node:net';
import { Aedes, type AedesOptions } from 'aedes';
import { connectAsync, type IClientPublishOptions } from 'mqtt';
import { afterEach } from 'vitest';
import type { BrokerSettings } from '#core/watch/station-source.ts';
import { mqttStations } from '#sources/stations/mqtt.ts';
import type { SourceContext, SourceStation } from '#sources/stations/observation-source.ts';
import { makeClock, makeLog } from '../loopback.ts';
import { START_MS, station } from './fake-stations.ts';
import { makeEars } from './told.ts';

export const TOPIC = 'pits/mill-bend/mast';

const closing: (() => Promise<unknown>)[] = [];
export const closeLater = (close: () => Promise<unknown>): void => {
  closing.push(close);
};
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

/** A broker that can be stopped and started again on its port. */
export async function startBroker(options: AedesOptions = {}, port = 0) {
  const broker = await Aedes.createBroker(options);
  const server: Server = createServer(broker.handle);
  server.listen(port, '127.0.0.1');
  await once(server, 'listening');
  let stopped = false;
  const stop = async () => {
    if (stopped) return;
    stopped = true;
    await new Promise<void>((resolve) => broker.close(() => resolve()));
    await new Promise<void>((resolve) => server.close(() => resolve()));
  };
  closeLater(stop);
  return { broker, port: (server.address() as { port: number }).port, stop };
}

export const mast = (
  more: { site?: string; id?: string; topic?: string; broker?: string } = {},
): SourceStation => {
  const { topic = TOPIC, broker = 'farm', id = 'mast', ...rest } = more;
  return station({ kind: 'mqtt', broker, topic }, { id, calmBelowMps: 0.5, ...rest });
};

export const farm = (url: string, more: Partial<BrokerSettings> = {}): BrokerSettings => ({
  id: 'farm',
  url,
  usernameFrom: null,
  passwordFrom: null,
  certificatesFrom: null,
  ...more,
});

/** Listens to the first source that is made of these stations. */
export function listen(
  stations: readonly SourceStation[],
  brokers: readonly BrokerSettings[],
  secrets: Readonly<Record<string, string>> = {},
) {
  const clock = makeClock(START_MS);
  const log = makeLog();
  const context: SourceContext = {
    nowMs: clock.nowMs,
    // Waiting takes no time of the test, and a little of the machine's.
    sleep: async (ms, signal) => {
      clock.slept.push(ms);
      await new Promise((resolve) => setTimeout(resolve, 5));
      signal.throwIfAborted();
    },
    random: () => 0.5,
    log,
    nws: null,
    brokers,
    secret: (name) => secrets[name] ?? null,
  };
  const [source] = mqttStations(stations, context);
  if (source?.way !== 'heard') throw new Error('no source was made');
  const ears = makeEars();
  const listening = source.listen(ears.readings.push, ears.states.push);
  closeLater(() => listening.close());
  return { ...ears, clock, log, listening, source };
}

/** Publishes and leaves. */
export async function publish(
  port: number,
  body: unknown,
  options: IClientPublishOptions & { topic?: string } = {},
): Promise<void> {
  const { topic = TOPIC, ...rest } = options;
  const client = await connectAsync(`mqtt://127.0.0.1:${port}`, { reconnectPeriod: 0 });
  const payload = typeof body === 'string' || body instanceof Uint8Array ? body : JSON.stringify(body);
  await client.publishAsync(topic, payload as string | Buffer, { qos: 1, ...rest });
  await client.endAsync();
}

export const reading = (time: string, more: object = {}) => ({
  time: `2026-03-02T${time}:00Z`,
  windSpeed: '10 mph',
  windDirection: 210,
  ...more,
});
